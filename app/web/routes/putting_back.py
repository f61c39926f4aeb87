"""The way back: the list of what is still open, one touch per cover and per duty."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Annotated

from fastapi import APIRouter, Form, Response
from starlette.exceptions import HTTPException

from app.evidence.case import DutyDone
from app.history.desk import Desk
from app.history.errors import Changed
from app.history.ids import new_id
from app.history.values import At
from app.rules.words import CoverId
from app.web.forms.audit_form import AuditSent, any_job, read_audit
from app.web.forms.fields import Problems, Sent
from app.web.forms.void_form import version_of
from app.web.given import CurrentRules, History, Now, OnFile, Show
from app.web.recording import Recorder, Recording, entry_id
from app.web.scene import LookAt
from app.web.views.putting_back_page import PuttingBackPage, putting_back_page
from app.web.views.said import sentence
from app.web.who import Framed

router = APIRouter()
TITLE = "Putting back"


class CoverSent(Sent):
    cover: str = ""
    version: str = ""


@router.get("/cases/{case_id}/putting-back")
def show_way_back(
    case_id: OnFile, look: LookAt, history: History, rules: CurrentRules, show: Show, framed: Framed, now: Now
) -> Response:
    page = putting_back_page(
        framed(TITLE), look(case_id, first=True), rules, ticked=history.put_back(case_id), id=new_id(now)
    )
    return show("putting_back", page, part="putting_back")


@router.post("/cases/{case_id}/putting-back")
def put_back(case_id: OnFile, sent: Annotated[CoverSent, Form()], recorder: Recorder) -> Response:
    cover = CoverId(sent.cover)
    if cover not in recorder.rules.covers:
        raise HTTPException(404)
    try:
        recorder.write(lambda desk: desk.put_back(case_id, version_of(sent.version), cover=cover))
    except Changed:
        return _refused(recorder, case_id, ("Somebody changed this case meanwhile; this is how it stands now.",), 409)
    return _saved(recorder, case_id, f"Put back: {recorder.rules.covers[cover].name}.")


@router.post("/cases/{case_id}/putting-back/duty")
def tick_duty(case_id: OnFile, sent: Annotated[AuditSent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id, first=True)
    job = any_job(sent.job, scene.timeline)
    if job is None:
        raise HTTPException(404)
    read = read_audit(sent, job, scene.around)
    if isinstance(read, Problems):
        return _refused(recorder, case_id, read.elsewhere(()), 422)
    done = replace(read, entry=entry_id(sent, recorder.now))
    seen = tuple(id for id in sent.seen.split(",") if id)
    at = At(scene.around.now_visit, case_id)
    try:
        refused = recorder.write(partial(_tick, at, sent.job, done, seen))
    except Changed as changed:
        theirs = f"Somebody else has just said: {changed.current}. You said: {done.state}. Touch again to keep yours."
        return _refused(recorder, case_id, (theirs,), 409)
    if refused:
        return _refused(recorder, case_id, refused.elsewhere(()), 422)
    return _saved(recorder, case_id, f"Recorded: {sentence(done.state.value)}")


def _tick(at: At, job: str, done: DutyDone, seen: Sequence[str], desk: Desk) -> None:
    desk.record_duty(at, job, done, seen=seen)


def _saved(recorder: Recording, case_id: str, said: str) -> Response:
    page = _page(recorder, case_id, saved=said)
    return recorder.show.saved("putting_back", page, part="putting_back", to=f"/cases/{case_id}/putting-back")


def _refused(recorder: Recording, case_id: str, problems: Sequence[str], status: int) -> Response:
    page = _page(recorder, case_id, problems=problems)
    return recorder.show("putting_back", page, part="putting_back", status=status)


def _page(recorder: Recording, case_id: str, *, saved: str = "", problems: Sequence[str] = ()) -> PuttingBackPage:
    return putting_back_page(
        recorder.framed(TITLE),
        recorder.look(case_id, first=True),
        recorder.rules,
        ticked=recorder.history.put_back(case_id),
        id=new_id(recorder.now),
        saved=saved,
        problems=problems,
    )

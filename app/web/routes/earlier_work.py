"""The earlier-work audit of a case: looking at it, one touch per duty, and counting another visit in."""

from __future__ import annotations

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
from app.problem import Problem
from app.web.forms.audit_form import AuditSent, any_job, read_audit
from app.web.forms.fields import Problems, Sent
from app.web.given import CurrentRules, Now, OnFile, Show
from app.web.photos import Photos, SentPhoto, kept
from app.web.recording import Recorder, Recording, entry_id
from app.web.scene import LookAt, Scene
from app.web.views.earlier_work_page import Answered, EarlierWorkPage, duty_anchor, earlier_work_page
from app.web.views.said import sentence
from app.web.who import Framed

router = APIRouter()
TITLE = "Earlier work"


class JoinSent(Sent):
    visit: str = ""


@router.get("/cases/{case_id}/earlier-work")
def show_audit(case_id: OnFile, look: LookAt, rules: CurrentRules, show: Show, framed: Framed, now: Now) -> Response:
    page = earlier_work_page(framed(TITLE), look(case_id, first=True), rules, id=new_id(now))
    return show("earlier_work", page, part="earlier_work")


@router.post("/cases/{case_id}/earlier-work")
def touch_duty(
    case_id: OnFile, sent: Annotated[AuditSent, Form()], recorder: Recorder, photos: Photos, photo: SentPhoto
) -> Response:
    scene = recorder.look(case_id, first=True)
    job = any_job(sent.job, scene.timeline)
    if job is None:
        raise HTTPException(404)
    picture = kept(photo, sent.picture, photos)
    sent = sent.model_copy(update={"picture": "" if isinstance(picture, Problem) else picture})
    read = read_audit(sent, job, scene.around)
    if isinstance(picture, Problem):
        read = Problems([*read, picture] if isinstance(read, Problems) else [picture])
    if isinstance(read, Problems):
        return _answer(recorder, scene, Answered(sent, read), status=422)
    done = replace(read, entry=entry_id(sent, recorder.now), photo=sent.picture)
    try:
        refused = recorder.write(partial(_file, sent, scene, done))
    except Changed as changed:
        return _answer(
            recorder, recorder.look(case_id, first=True), Answered(sent, theirs=str(changed.current)), status=409
        )
    if refused:
        return _answer(recorder, recorder.look(case_id, first=True), Answered(sent, refused), status=422)
    return _saved(recorder, case_id, f"Recorded: {sentence(done.state.value)}", duty_anchor(sent.job, sent.duty))


def _file(sent: AuditSent, scene: Scene, done: DutyDone, desk: Desk) -> None:
    seen = tuple(id for id in sent.seen.split(",") if id)
    desk.record_duty(At(scene.around.now_visit, scene.on_file.id), sent.job, done, seen=seen)


@router.post("/cases/{case_id}/earlier-work/join")
def join_visit(case_id: OnFile, sent: Annotated[JoinSent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id, first=True)
    if sent.visit not in {visit.id for visit in scene.timeline.visits if visit.struck is None}:
        raise HTTPException(404)
    recorder.write(lambda desk: desk.link_visit(case_id, sent.visit))
    return _saved(recorder, case_id, "The visit counts in this case from now on.", "")


def _saved(recorder: Recording, case_id: str, said: str, anchor: str) -> Response:
    page = _page(recorder, recorder.look(case_id, first=True), Answered(saved=said))
    to = f"/cases/{case_id}/earlier-work{'#' if anchor else ''}{anchor}"
    return recorder.show.saved("earlier_work", page, part="earlier_work", to=to)


def _answer(recorder: Recording, scene: Scene, answered: Answered, *, status: int) -> Response:
    return recorder.show("earlier_work", _page(recorder, scene, answered), part="earlier_work", status=status)


def _page(recorder: Recording, scene: Scene, answered: Answered) -> EarlierWorkPage:
    frame = recorder.framed(TITLE)
    return earlier_work_page(frame, scene, recorder.rules, id=new_id(recorder.now), answered=answered)

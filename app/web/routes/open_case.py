"""Opening a case from the customer's words."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated
from uuid import UUID, uuid5

from fastapi import APIRouter, Form, Query, Response

from app.history.desk import Desk
from app.history.ids import new_id
from app.history.values import At, Timeline
from app.problem import Refused
from app.rules.library import Rules
from app.web.forms.case_form import CaseSent, NewCase, case_fields, complaint_entries, read_case_form
from app.web.forms.fields import NONE, Problems
from app.web.given import CurrentRules, History, Now, OnFile, Show
from app.web.recording import entry_id, names_in
from app.web.showing import Frame
from app.web.views.vehicle_page import NewCasePage, vehicle_name
from app.web.who import Framed, Person

router = APIRouter()


@router.get("/vehicles/{vehicle_id}/cases/new")
def new_case(
    vehicle_id: OnFile,
    history: History,
    rules: CurrentRules,
    show: Show,
    framed: Framed,
    now: Now,
    words: Annotated[str | None, Query(max_length=4000)] = None,
) -> Response:
    timeline = history.timeline(vehicle_id)
    sent = CaseSent(words=_last_words(timeline) if words is None else words)
    page = _page(framed("Open a case"), sent, timeline, rules=rules, id=new_id(now))
    return show("new_case", page, part="suggestions")


@router.post("/vehicles/{vehicle_id}/cases/new")
def open_case(
    vehicle_id: OnFile,
    sent: Annotated[CaseSent, Form()],
    history: History,
    rules: CurrentRules,
    show: Show,
    framed: Framed,
    person: Person,
    now: Now,
) -> Response:
    timeline = history.timeline(vehicle_id)
    read = read_case_form(sent, timeline, rules=rules)
    problems = read if isinstance(read, Problems) else NONE
    case_id = entry_id(sent, now)
    if isinstance(read, NewCase):
        try:
            with history.write(person, now) as desk:
                _file(desk, vehicle_id, read, id=case_id)
        except Refused as refusal:
            problems = Problems(refusal.problems)
    if not problems:
        return show.moved(f"/cases/{case_id}")
    page = _page(framed("Open a case"), sent, timeline, rules=rules, id=case_id, problems=problems)
    return show("new_case", page, part="new_case", status=422)


def _file(desk: Desk, vehicle_id: str, new: NewCase, *, id: str) -> None:
    """The case, and at each visit that the complaint was there; every id follows from the form's."""
    desk.open_case(vehicle_id, new.details, visits=new.visits, entry_id=id)
    for visit, seen in complaint_entries(new):
        desk.record_symptom(At(visit, id), replace(seen, entry=str(uuid5(UUID(id), visit))))


def _page(
    frame: Frame, sent: CaseSent, timeline: Timeline, *, rules: Rules, id: str, problems: Problems = NONE
) -> NewCasePage:
    here = f"/vehicles/{timeline.vehicle.id}"
    fields = case_fields(sent, timeline, rules=rules, problems=problems)
    return NewCasePage(
        frame=frame,
        vehicle=vehicle_name(timeline.vehicle),
        back=here,
        action=f"{here}/cases/new",
        new_visit=f"{here}/visits/new",
        problems=problems.elsewhere({*names_in(fields), "symptom"}),
        fields=fields,
        entry_id=id,
    )


def _last_words(timeline: Timeline) -> str:
    """The complaint as it stands on the newest visit that has one."""
    standing = [visit for visit in timeline.visits if visit.struck is None]
    return next((v.stay.complaint_words for v in reversed(standing) if v.stay.complaint_words), "")

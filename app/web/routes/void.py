"""Striking an entry out, with a reason; refused with both sides shown when somebody was faster."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Form, Query, Response
from starlette.exceptions import HTTPException

from app.history.errors import Changed
from app.history.values import Entry, EntryKind, Struck, Timeline, VehicleOnFile
from app.problem import Refused
from app.rules.library import Rules
from app.web.forms.fields import NONE, Problems
from app.web.forms.void_form import VoidEntry, VoidSent, read_why, version_of, why_field
from app.web.given import CurrentRules, History, Now, OnFile, Show
from app.web.showing import Frame
from app.web.views.entries import struck_words, visit_heading
from app.web.views.said import say, source_of
from app.web.who import Framed, Person

router = APIRouter()
KINDS = {kind.value.replace(" ", "-"): kind for kind in EntryKind}


@dataclass(frozen=True, slots=True)
class VoidPage:
    frame: Frame
    void: VoidEntry


@dataclass(frozen=True, slots=True)
class Struckable:
    """What is to be struck out, in words, and whether it is already."""

    kind: EntryKind
    id: str
    what: str
    struck: Struck | None
    vehicle_id: str


@router.get("/vehicles/{vehicle_id}/entries/{kind}/{entry_id}/void")
def ask(
    vehicle_id: OnFile,
    kind: str,
    entry_id: OnFile,
    history: History,
    rules: CurrentRules,
    show: Show,
    framed: Framed,
    version: Annotated[str, Query(max_length=9)] = "",
    case: Annotated[str, Query(max_length=64)] = "",
) -> Response:
    one = _find(history.timeline(vehicle_id), rules, kind, id=entry_id)
    sent = VoidSent(version=version, case=case)
    return show("void", VoidPage(framed("Strike out an entry"), void_entry(one, sent)))


@router.post("/vehicles/{vehicle_id}/entries/{kind}/{entry_id}/void")
def strike_out(
    vehicle_id: OnFile,
    kind: str,
    entry_id: OnFile,
    sent: Annotated[VoidSent, Form()],
    history: History,
    rules: CurrentRules,
    show: Show,
    framed: Framed,
    person: Person,
    now: Now,
) -> Response:
    one = _find(history.timeline(vehicle_id), rules, kind, id=entry_id)
    why = read_why(sent)
    problems, theirs, status = (why if isinstance(why, Problems) else NONE), "", 422
    if not isinstance(why, Problems):
        try:
            with history.write(person, now) as desk:
                desk.void(one.kind, entry_id, seen=version_of(sent.version), why=why)
            return show.moved(_back(sent, one))
        except Refused as refusal:
            problems = Problems(refusal.problems)
        except Changed:
            one, status = _find(history.timeline(vehicle_id), rules, kind, id=entry_id), 409
            theirs = struck_words(one.struck) or "Somebody changed this entry since you opened it."
    page = VoidPage(framed("Strike out an entry"), void_entry(one, sent, problems=problems, theirs=theirs))
    return show("void", page, part="void", status=status)


def void_entry(one: Struckable, sent: VoidSent, *, problems: Problems = NONE, theirs: str = "") -> VoidEntry:
    return VoidEntry(
        what=one.what,
        stands=one.struck is None,
        struck=struck_words(one.struck),
        theirs=theirs,
        version=sent.version,
        why=why_field(sent, problems),
        case=sent.case,
        action=f"/vehicles/{one.vehicle_id}/entries/{one.kind.value.replace(' ', '-')}/{one.id}/void",
        back=_back(sent, one),
    )


def _back(sent: VoidSent, one: Struckable) -> str:
    ours = sent.case.replace("-", "").isalnum()
    return f"/cases/{sent.case}" if ours else f"/vehicles/{one.vehicle_id}"


def _find(timeline: Timeline, rules: Rules, kind: str, *, id: str) -> Struckable:
    """The visit or entry with this id among everything on the vehicle's file."""
    vehicle = timeline.vehicle
    for visit in timeline.visits:
        if kind == EntryKind.VISIT.value and visit.id == id:
            heading = f"{visit_heading(visit.number, visit.stay)}, with all its entries"
            return Struckable(EntryKind.VISIT, id, heading, visit.struck, vehicle.id)
        for entry in visit.entries:
            if entry.id == id and KINDS.get(kind) is entry.kind:
                return Struckable(entry.kind, id, _words(entry, vehicle, rules), entry.struck, vehicle.id)
    raise HTTPException(404)


def _words(entry: Entry, vehicle: VehicleOnFile, rules: Rules) -> str:
    source = source_of(entry.said)
    words = say(entry.said, vehicle.vehicle.layout, rules)
    return f"{words} ({source})" if source else words

"""A vehicle's family in the shop's words."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Response

from app.history.errors import Changed
from app.web.forms.family_form import FamilyForm, FamilySent, family_form, family_problems
from app.web.forms.void_form import version_of
from app.web.given import CurrentRules, History, Now, OnFile, Show
from app.web.views.vehicle_page import vehicle_name, vehicle_page
from app.web.who import Framed, Person

router = APIRouter()


@router.post("/vehicles/{vehicle_id}/family")
def name_family(
    vehicle_id: OnFile,
    sent: Annotated[FamilySent, Form()],
    history: History,
    rules: CurrentRules,
    show: Show,
    framed: Framed,
    person: Person,
    now: Now,
) -> Response:
    def answer(form: FamilyForm, status: int = 200) -> Response:
        timeline = history.timeline(vehicle_id)
        page = vehicle_page(framed(vehicle_name(timeline.vehicle)), timeline, rules=rules, family=form)
        if status == 200:
            return show.saved("vehicle", page, part="family", to=f"/vehicles/{vehicle_id}")
        return show("vehicle", page, part="family", status=status)

    before = history.vehicle(vehicle_id)
    if problems := family_problems(sent):
        return answer(family_form(before, sent=sent, problems=problems), 422)
    try:
        with history.write(person, now) as desk:
            desk.set_family(vehicle_id, seen=version_of(sent.version), family=sent.family)
    except Changed:
        stands = history.vehicle(vehicle_id)
        return answer(family_form(stands, sent=sent, theirs=stands.vehicle.family or "no family"), 409)
    return answer(family_form(history.vehicle(vehicle_id), saved="Saved."))

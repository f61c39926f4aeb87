"""Vehicles: a new one, its history, a new visit."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Query, Response

from app.history.desk import Desk
from app.history.ids import new_id
from app.problem import Refused
from app.web.forms.fields import NONE, Problems
from app.web.forms.vehicle_form import NewVehicle, VehicleSent, read_vehicle, vehicle_fields
from app.web.forms.visit_form import VisitSent, read_visit, visit_fields
from app.web.given import CurrentRules, History, Now, OnFile, Show
from app.web.recording import entry_id
from app.web.views.vehicle_page import NewVehiclePage, NewVisitPage, vehicle_name, vehicle_page
from app.web.who import Framed, Person

router = APIRouter()


@router.get("/vehicles/new")
def new_vehicle(rules: CurrentRules, show: Show, framed: Framed, now: Now) -> Response:
    fields = vehicle_fields(VehicleSent(), rules)
    return show("new_vehicle", NewVehiclePage(framed("New vehicle"), fields, new_id(now)))


@router.post("/vehicles/new")
def add_vehicle(
    sent: Annotated[VehicleSent, Form()],
    history: History,
    rules: CurrentRules,
    show: Show,
    framed: Framed,
    person: Person,
    now: Now,
) -> Response:
    read = read_vehicle(sent, rules)
    added: str | Problems = read if isinstance(read, Problems) else NONE
    if isinstance(read, NewVehicle):
        try:
            with history.write(person, now) as desk:
                added = _file(desk, read, history=history, id=entry_id(sent, now))
        except Refused as refusal:
            added = Problems(refusal.problems)
    if isinstance(added, Problems):
        fields = vehicle_fields(sent, rules, problems=added)
        page = NewVehiclePage(framed("New vehicle"), fields, entry_id(sent, now))
        return show("new_vehicle", page, part="new_vehicle", status=422)
    return show.moved(f"/vehicles/{added}")


def _file(desk: Desk, new: NewVehicle, *, history: History, id: str) -> str:
    """The vehicle with its customer; a customer of the same name and telephone is the same."""
    known = {(one.name.casefold(), one.phone): one.id for one in history.customers()}
    customer = known.get((new.customer.casefold(), new.phone))
    if new.customer and customer is None:
        customer = desk.add_customer(new.customer, new.phone)
    return desk.add_vehicle(new.vehicle, customer, entry_id=id)


@router.get("/vehicles/{vehicle_id}")
def show_vehicle(vehicle_id: OnFile, history: History, rules: CurrentRules, show: Show, framed: Framed) -> Response:
    timeline = history.timeline(vehicle_id)
    return show("vehicle", vehicle_page(framed(vehicle_name(timeline.vehicle)), timeline, rules=rules))


@router.get("/vehicles/{vehicle_id}/visits/new")
def new_visit(
    vehicle_id: OnFile,
    history: History,
    show: Show,
    framed: Framed,
    now: Now,
    case: Annotated[str, Query(max_length=64)] = "",
) -> Response:
    timeline = history.timeline(vehicle_id)
    sent = VisitSent(day=now.astimezone().date().isoformat())
    page = NewVisitPage(
        frame=framed("New visit"),
        vehicle=vehicle_name(timeline.vehicle),
        back=f"/vehicles/{vehicle_id}",
        action=f"/vehicles/{vehicle_id}/visits/new",
        case=case,
        fields=visit_fields(sent, timeline),
        entry_id=new_id(now),
    )
    return show("new_visit", page)


@router.post("/vehicles/{vehicle_id}/visits/new")
def add_visit(
    vehicle_id: OnFile,
    sent: Annotated[VisitSent, Form()],
    history: History,
    show: Show,
    framed: Framed,
    person: Person,
    now: Now,
) -> Response:
    timeline = history.timeline(vehicle_id)
    stay = read_visit(sent, timeline, now=now)
    problems = stay if isinstance(stay, Problems) else NONE
    if not isinstance(stay, Problems):
        try:
            with history.write(person, now) as desk:
                visit = desk.add_visit(vehicle_id, stay, today=now.astimezone().date(), entry_id=entry_id(sent, now))
                if sent.case:
                    desk.link_visit(sent.case, visit)
        except Refused as refusal:
            problems = Problems(refusal.problems)
    if not problems:
        return show.moved(f"/cases/{sent.case}" if sent.case else f"/vehicles/{vehicle_id}")
    page = NewVisitPage(
        frame=framed("New visit"),
        vehicle=vehicle_name(timeline.vehicle),
        back=f"/vehicles/{vehicle_id}",
        action=f"/vehicles/{vehicle_id}/visits/new",
        case=sent.case,
        fields=visit_fields(sent, timeline, problems=problems),
        entry_id=entry_id(sent, now),
    )
    return show("new_visit", page, part="new_visit", status=422)

"""Finding a vehicle, and the cases that are open."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.history.values import CaseOnFile, CaseState, FoundVehicle
from app.rules.library import Rules
from app.web.forms.fields import Field
from app.web.showing import Frame
from app.web.views.case_page import complaint_name, vehicle_words
from app.web.views.entries import day_words, moment

MOST_FOUND = 20


@dataclass(frozen=True, slots=True)
class FoundView:
    address: str
    plate: str
    name: str
    customer: str
    matched: str
    visits: str
    cases: str


@dataclass(frozen=True, slots=True)
class CaseLine:
    address: str
    vehicle: str
    complaint: str
    words: str
    opened: str
    earlier_work: str
    where_we_stand: str


@dataclass(frozen=True, slots=True)
class FindPage:
    """`said`: how many were found, in words."""

    frame: Frame
    query: Field
    said: str
    found: tuple[FoundView, ...]
    open_cases: tuple[CaseLine, ...]


def find_page(
    frame: Frame, query: str, *, found: Sequence[FoundVehicle], cases: Sequence[CaseOnFile], rules: Rules
) -> FindPage:
    field = Field("find-q", "q", "Plate, VIN, customer or repair order", value=query, focused=True)
    return FindPage(
        frame=frame,
        query=field,
        said=_said(query, len(found)),
        found=tuple(found_view(one) for one in found),
        open_cases=tuple(case_line(one, rules) for one in cases),
    )


def found_view(one: FoundVehicle) -> FoundView:
    last = f", last {day_words(one.last_day)}" if one.last_day else ""
    return FoundView(
        address=f"/vehicles/{one.id}",
        plate=one.plate or one.vin or one.name,
        name=one.name if one.plate or one.vin else "",
        customer=one.customer,
        matched=f"found by {one.matched}",
        visits=f"{_count(one.visits, 'visit')}{last}",
        cases=f"{_count(one.open_cases, 'open case')}" if one.open_cases else "",
    )


def case_line(one: CaseOnFile, rules: Rules) -> CaseLine:
    proof = "under proof, " if one.state is CaseState.UNDER_PROOF else ""
    return CaseLine(
        address=f"/cases/{one.id}",
        vehicle=vehicle_words(one),
        complaint=complaint_name(one, rules),
        words=one.complaint_words,
        opened=f"{proof}opened by {one.opened_by}, {moment(one.opened_at)}",
        earlier_work=f"/cases/{one.id}/earlier-work",
        where_we_stand=f"/cases/{one.id}/where-we-stand",
    )


def _said(query: str, count: int) -> str:
    if not query.strip():
        return ""
    if count == 0:
        return "No vehicle found. Check the spelling, or add it as a new vehicle."
    return f"{_count(count, 'vehicle')} found{', the first are shown' if count >= MOST_FOUND else ''}."


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"

"""A new visit: ours or another shop's, when, how far, and the customer's words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.history.values import Odometer, OdometerUnit, Stay, Timeline
from app.measurements.numbers import read_number
from app.measurements.units import convert
from app.problem import Problem
from app.web.forms.code_form import read_day
from app.web.forms.evidence_fields import one_of, read_minutes
from app.web.forms.fields import LONGEST_TEXT, NONE, Field, FieldMaker, Problems, Sent, too_long
from app.web.views.entries import visit_heading

PINT_NAMES = {OdometerUnit.KM: "kilometer", OdometerUnit.MILES: "mile"}
FURTHEST_KM = 5_000_000


class VisitSent(Sent):
    """`case`: the case this visit is to be joined to."""

    case: str = ""
    where: str = ""
    shop: str = ""
    order_number: str = ""
    day: str = ""
    when: str = ""
    before_visit: str = ""
    odometer: str = ""
    odometer_unit: str = ""
    complaint: str = ""
    cost: str = ""
    minutes: str = ""


@dataclass(frozen=True, slots=True)
class VisitFields:
    where: Field
    shop: Field
    order_number: Field
    day: Field
    when: Field
    before_visit: Field
    odometer: Field
    odometer_unit: Field
    complaint: Field
    cost: Field
    minutes: Field


def visit_fields(sent: VisitSent, timeline: Timeline, *, problems: Problems = NONE) -> VisitFields:
    make = FieldMaker("visit", problems, focus_on="where")
    standing = [visit for visit in timeline.visits if visit.struck is None]
    units = [("", "unit?"), *((unit.value, unit.value) for unit in OdometerUnit)]
    return VisitFields(
        where=make.choice(
            "where", "Where was it?", options=[("here", "our workshop"), ("other", "another shop")], chosen=sent.where
        ),
        shop=make.line("shop", "Name of the other shop", value=sent.shop, hint="Leave empty if not known."),
        order_number=make.line("order_number", "Repair order", value=sent.order_number),
        day=make.line("day", "Day", value=sent.day),
        when=make.line("when", "Or when, in words", value=sent.when, hint="Such as: last winter."),
        before_visit=make.choice(
            "before_visit",
            "Without a day: before which visit?",
            options=[("", "after all others"), *((v.id, visit_heading(v.number, v.stay)) for v in standing)],
            chosen=sent.before_visit,
        ),
        odometer=make.line("odometer", "Odometer", value=sent.odometer, hint="Leave empty if not known."),
        odometer_unit=make.choice("odometer_unit", "Unit", options=units, chosen=sent.odometer_unit),
        complaint=make.line("complaint", "Complaint, in the customer’s words", value=sent.complaint),
        cost=make.line("cost", "What it cost the customer", value=sent.cost, hint="As on the bill, with the currency."),
        minutes=make.line("minutes", "Minutes spent", value=sent.minutes, hint="Leave empty to add up the entries."),
    )


def read_visit(sent: VisitSent, timeline: Timeline, *, now: datetime) -> Stay | Problems:
    """The visit, or everything that is wrong."""
    problems = [
        p for name in ("shop", "order_number", "when", "cost") for p in too_long(name, getattr(sent, name), limit=80)
    ]
    problems += too_long("complaint", sent.complaint, limit=LONGEST_TEXT)
    if sent.where not in ("here", "other"):
        problems.append(Problem("where", "It is not said where it was.", "Choose one."))
    if sent.before_visit and sent.before_visit not in {visit.id for visit in timeline.visits}:
        problems.append(Problem("before_visit", "This visit is not on file.", "Choose one of the list."))
    day = read_day("day", sent.day, now=now, problems=problems)
    odometer = _odometer(sent, problems)
    minutes = read_minutes(sent.minutes, problems)
    if problems:
        return Problems(problems)
    return Stay(
        here=sent.where == "here",
        shop=sent.shop.strip(),
        order_number=sent.order_number.strip(),
        day=day,
        when=sent.when.strip(),
        odometer=odometer,
        complaint_words=sent.complaint.strip(),
        cost=sent.cost.strip(),
        minutes=minutes,
        before=sent.before_visit or None,
    )


def _odometer(sent: VisitSent, problems: list[Problem]) -> Odometer | None:
    """A distance without a unit is refused: miles and kilometres differ by more than half."""
    if not sent.odometer.strip():
        return None
    number = read_number(sent.odometer, "odometer")
    unit = one_of(OdometerUnit, sent.odometer_unit)
    if unit is None:
        problems.append(Problem("odometer_unit", f"“{sent.odometer[:20]}” has no unit.", "Choose km or mi."))
    if isinstance(number, Problem):
        problems.append(number)
        return None
    if unit is None:
        return None
    km = convert(number, PINT_NAMES[unit], PINT_NAMES[OdometerUnit.KM])
    if not 0 <= km <= FURTHEST_KM:
        problems.append(Problem("odometer", f"{sent.odometer[:20]} {unit.value} cannot be.", "Check the figure."))
        return None
    return Odometer(sent.odometer.strip(), unit, km)

"""A vehicle's history as one timeline; the forms for a new vehicle, a new visit and a new case."""

from __future__ import annotations

from dataclasses import dataclass

from app.history.values import CaseState, Timeline, VehicleOnFile
from app.rules.library import Rules
from app.vehicle.vin import vin_advice
from app.web.forms.case_form import CaseFields
from app.web.forms.family_form import FamilyForm, family_form
from app.web.forms.vehicle_form import VehicleFields
from app.web.forms.visit_form import VisitFields
from app.web.showing import Frame
from app.web.views.case_page import complaint_name
from app.web.views.entries import EntryWords, VisitView
from app.web.views.find_view import CaseLine, case_line


@dataclass(frozen=True, slots=True)
class VehiclePage:
    frame: Frame
    heading: str
    facts: tuple[str, ...]
    advice: str
    new_visit: str
    new_case: str
    has_visits: bool
    open_cases: tuple[CaseLine, ...]
    closed_cases: tuple[CaseLine, ...]
    visits: tuple[VisitView, ...]
    family: FamilyForm


@dataclass(frozen=True, slots=True)
class NewVehiclePage:
    frame: Frame
    fields: VehicleFields
    entry_id: str


@dataclass(frozen=True, slots=True)
class NewVisitPage:
    frame: Frame
    vehicle: str
    back: str
    action: str
    case: str
    fields: VisitFields
    entry_id: str


@dataclass(frozen=True, slots=True)
class NewCasePage:
    frame: Frame
    vehicle: str
    back: str
    action: str
    new_visit: str
    problems: tuple[str, ...]
    fields: CaseFields
    entry_id: str


def vehicle_page(frame: Frame, timeline: Timeline, *, rules: Rules, family: FamilyForm | None = None) -> VehiclePage:
    on_file = timeline.vehicle
    here = f"/vehicles/{on_file.id}"
    cases = {case.id: complaint_name(case, rules) for case in timeline.cases}
    words = EntryWords(on_file.id, on_file.vehicle.layout, rules, cases)
    return VehiclePage(
        frame=frame,
        heading=vehicle_name(on_file),
        facts=vehicle_facts(on_file),
        advice=vin_advice(on_file.vehicle.vin),
        new_visit=f"{here}/visits/new",
        new_case=f"{here}/cases/new",
        has_visits=any(visit.struck is None for visit in timeline.visits),
        open_cases=tuple(case_line(case, rules) for case in timeline.cases if case.state is not CaseState.CLOSED),
        closed_cases=tuple(case_line(case, rules) for case in timeline.cases if case.state is CaseState.CLOSED),
        visits=tuple(reversed(words.visits(timeline))),
        family=family or family_form(on_file),
    )


def vehicle_name(on_file: VehicleOnFile) -> str:
    vehicle = on_file.vehicle
    return ", ".join(part for part in (vehicle.plate, vehicle.name) if part) or vehicle.vin


def vehicle_facts(on_file: VehicleOnFile) -> tuple[str, ...]:
    vehicle, layout = on_file.vehicle, on_file.vehicle.layout
    banks = " / ".join(" ".join(str(number) for number in bank) for bank in layout.banks)
    order = f"firing order {' '.join(str(n) for n in layout.firing_order)}" if layout.firing_order else ""
    customer = f"customer {on_file.customer.name}" if on_file.customer else ""
    phone = f"telephone {on_file.customer.phone}" if on_file.customer and on_file.customer.phone else ""
    vin = f"VIN {vehicle.vin}" if vehicle.vin else ""
    traits = (f"{name}: {value}" for name, value in layout.traits.items())
    return tuple(fact for fact in (customer, phone, vin, f"cylinders {banks}", order, *traits) if fact)

"""A case file: one vehicle and all its visits as a technician writes them down, in YAML or JSON."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from app.evidence.case import Case, Vehicle, Visit
from app.evidence.case_file_findings import read_cleared, read_codes, read_symptoms
from app.evidence.case_file_results import read_results
from app.evidence.case_file_visit import VisitReading, read_day, read_km, read_place, read_source
from app.evidence.case_file_work import read_defects, read_jobs
from app.measurements.numbers import read_number
from app.problem import Problem
from app.rules.library import Rules, Trait
from app.rules.reading import known_texts
from app.rules.section import Section
from app.rules.tree import Items, Notes, Text, read_tree
from app.rules.words import CoverId, SymptomId
from app.vehicle.layout import AXLES, ENGINE, Layout, PlaceId

HERE = "here"


def read_case_file(
    text: str, file: str, rules: Rules, *, today: date | None = None
) -> tuple[Case | None, tuple[Problem, ...]]:
    """The case in this text, or None with every problem, each with `file` and line.

    With `today`, days in the future are refused.
    """
    notes = Notes()
    top = Section(read_tree(text, file, notes), "the case file", notes)
    vehicle = _read_vehicle(top.section("vehicle"), rules)
    layout = vehicle.layout
    complaint = _read_complaint(top, rules)
    case = Case(
        vehicle=vehicle,
        complaint=complaint,
        complaint_place=_read_complaint_place(top, complaint, layout, rules=rules),
        visits=_read_visits(top, layout, rules, today=today),
        open_covers=tuple(map(CoverId, known_texts(top, "open now", known=rules.covers, kind="cover"))),
    )
    top.close()
    return (None if notes.problems else case), tuple(notes.problems)


def _read_vehicle(section: Section, rules: Rules) -> Vehicle:
    vehicle = Vehicle(
        layout=Layout(
            banks=_read_banks(section),
            firing_order=tuple(_cylinder(text, section) for text in section.text_nodes("firing order")),
            traits=_read_traits(section, rules.traits),
        ),
        name=section.optional_text("name") or "",
        plate=section.optional_text("plate") or "",
        vin=section.optional_text("vin") or "",
        customer=section.optional_text("customer") or "",
    )
    _check_firing_order(vehicle.layout, section)
    section.close()
    return vehicle


def _read_banks(section: Section) -> tuple[tuple[int, ...], ...]:
    node = section.node("banks")
    if node is None:
        section.missing("banks")
        return ((1,),)
    banks = [bank.items if isinstance(bank, Items) else () for bank in getattr(node, "items", ())]
    texts = [[item for item in bank if isinstance(item, Text)] for bank in banks]
    numbers = tuple(tuple(_cylinder(text, section) for text in bank) for bank in texts)
    every = [number for bank in numbers for number in bank]
    if not every or not all(numbers) or len(set(every)) != len(every):
        section.refuse(
            "banks", "The banks are not cylinder numbers, each once.", "Write [[1, 2, 3, 4]] or [[1, 3, 5], [2, 4, 6]]."
        )
        return ((1,),)
    return numbers


def _cylinder(text: Text, section: Section) -> int:
    if text.value.isascii() and text.value.isdigit() and 1 <= int(text.value[:4]) <= 24:
        return int(text.value)
    section.notes.refuse(text.where, f"“{text.value}” is not a cylinder number.", "Use 1 to 24.")
    return 1


def _check_firing_order(layout: Layout, section: Section) -> None:
    if layout.firing_order and sorted(layout.firing_order) != list(layout.cylinders):
        section.refuse(
            "firing order", "The firing order does not name each cylinder once.", "Check it, or leave it out."
        )


def _read_traits(section: Section, traits: Mapping[str, Trait]) -> Mapping[str, str]:
    if not section.has("traits"):
        return {}
    known = dict(_trait_values(traits))
    said = section.section("traits")
    read = {}
    for name in said.table.entries:
        said.known(name, known, kind="trait", where=said.line(name))
        read[name] = said.choice(name, known[name], f"value of “{name}”:") if name in known else said.text(name)
    return read


def _trait_values(traits: Mapping[str, Trait]) -> list[tuple[str, tuple[str, ...]]]:
    """The traits that can be entered: "brakes", and for each axle "front brakes" and "rear brakes"."""
    entered = [trait for trait in traits.values() if not trait.computed]
    names = [(trait.name, trait) for trait in entered]
    names += [(f"{axle} {trait.name}", trait) for trait in entered if trait.per_axle for axle in AXLES]
    return [(name, trait.values) for name, trait in names]


def _read_complaint(top: Section, rules: Rules) -> SymptomId:
    return SymptomId(top.choice("complaint", rules.symptoms, "symptom"))


def _read_complaint_place(top: Section, complaint: SymptomId, layout: Layout, *, rules: Rules) -> PlaceId:
    if complaint not in rules.symptoms:
        top.has("complaint at")
        return ENGINE
    return read_place(top, "complaint at", rules.symptoms[complaint].at, layout=layout)


def _read_visits(top: Section, layout: Layout, rules: Rules, *, today: date | None) -> tuple[Visit, ...]:
    visits: list[Visit] = []
    sections = list(top.listed("visits"))
    if not sections:
        top.missing("visits")
    for number, section in enumerate(sections, 1):
        section.what = f"visit {number}"
        visit = _read_visit(section, number, layout, rules=rules, today=today)
        _check_order(visit, visits, section)
        _check_looked_at(visit, section, last=len(sections))
        _check_left_behind(visit, [*visits, visit], section)
        visits.append(visit)
    return tuple(visits)


def _check_looked_at(visit: Visit, section: Section, *, last: int) -> None:
    for duty in (duty for job in visit.jobs for duty in job.duties):
        if duty.seen_at_visit > last:
            section.refuse("jobs", f"There is no visit {duty.seen_at_visit}.", f"The last visit is {last}.")


def _check_left_behind(visit: Visit, so_far: list[Visit], section: Section) -> None:
    """A defect names a job that is on the file."""
    done = {(other.number, job.operation) for other in so_far for job in other.jobs}
    for defect in visit.defects:
        after = defect.after
        if after is not None and (after.visit, after.operation) not in done:
            section.refuse(
                "defects",
                f"Visit {after.visit} has no job “{after.operation}”.",
                "Name a job of this file, or leave “after job” out.",
            )


def _read_visit(section: Section, number: int, layout: Layout, *, rules: Rules, today: date | None) -> Visit:
    shop = section.text("shop")
    usual = read_source(section, here=shop == HERE, usual=None) if section.has("source") else None
    reading = VisitReading(rules, layout, number, here=shop == HERE, usual=usual, today=today)
    visit = Visit(
        number=number,
        here=reading.here,
        shop="our workshop" if reading.here else shop,
        day=read_day(section, "day", today=today),
        odometer_km=read_km(section, "odometer"),
        complaint_words=section.optional_text("complaint") or "",
        symptoms=read_symptoms(section, reading),
        codes=read_codes(section, reading),
        cleared=read_cleared(section, reading),
        results=read_results(section, reading),
        jobs=read_jobs(section, reading),
        defects=read_defects(section, reading),
        cost=section.optional_text("cost") or "",
        minutes=_read_minutes(section),
    )
    section.close()
    return visit


def _read_minutes(section: Section) -> float | None:
    typed = section.optional_text("minutes")
    minutes = None if typed is None else read_number(typed, section.line("minutes"))
    if isinstance(minutes, Problem):
        section.notes.problems.append(minutes)
        return None
    if minutes is not None and minutes < 0.0:
        section.refuse("minutes", "The minutes are below nought.", "Give the time spent.")
    return minutes


def _check_order(visit: Visit, earlier: list[Visit], section: Section) -> None:
    """Visits stand in order of time; neither the day nor the odometer goes back."""
    days = [other.day for other in earlier if other.day is not None]
    if visit.day is not None and days and visit.day < days[-1]:
        section.refuse(
            "day", f"Visit {visit.number} lies before the visit above it.", "Put the visits in order of time."
        )
    read = [other.odometer_km for other in earlier if other.odometer_km is not None]
    if visit.odometer_km is not None and read and visit.odometer_km < read[-1]:
        section.refuse(
            "odometer",
            f"The odometer goes backwards: {visit.odometer_km:.0f} km after {read[-1]:.0f} km.",
            "Check both figures; leave out the one that is not sure.",
        )

"""Recording a run after the repair: how much, under which conditions, and whether the complaint came back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.evidence.case import ProofRun, Source
from app.history.values import OdometerUnit
from app.measurements.units import convert
from app.problem import Problem
from app.proof.sentences import conditions_in_words
from app.web.forms.evidence_fields import EvidenceSent, one_of, read_minutes
from app.web.forms.fields import NONE, Field, FieldMaker, Problems, too_long
from app.web.forms.proof_fields import AfterRepair, read_after, read_amount, source_field
from app.web.forms.result_form import Button
from app.web.forms.symptom_form import conditions_field, ticked_conditions
from app.web.forms.visit_form import PINT_NAMES

FURTHEST_KM = 1_000_000.0
MOST_COUNTED = 100_000.0
OUTCOMES = (Button("quiet", "it stayed away", main=True), Button("back", "it came back", main=True))
SOURCES_OF_RUNS = (Source.SEEN_HERE, Source.TOLD, Source.PAPER)


class RunSent(EvidenceSent):
    """`outcome` is the button pressed; conditions come as `under_<condition>`."""

    day: str = ""
    distance: str = ""
    distance_unit: str = ""
    starts: str = ""
    cycles: str = ""
    usual: str = ""
    route: str = ""
    outcome: str = ""


@dataclass(frozen=True, slots=True)
class RunEntry:
    visit: Field
    day: Field
    distance: Field
    distance_unit: Field
    minutes: Field
    starts: Field
    cycles: Field
    usual: Field
    conditions: Field
    route: Field
    source: Field
    note: Field
    buttons: tuple[Button, ...]
    problem: str


def run_entry(sent: RunSent, about: AfterRepair, *, problems: Problems = NONE, focus: str = "") -> RunEntry:
    """The form of one run; `focus`: the field the focus goes to where nothing is wrong."""
    make = FieldMaker("run", problems, focus_on=focus)
    units = [(unit.value, unit.value) for unit in OdometerUnit]
    needed = f"The fault showed under: {conditions_in_words(about.shown)}." if about.shown else ""
    return RunEntry(
        visit=make.choice("visit", "After which repair?", options=about.repairs, chosen=sent.visit),
        day=make.line("day", "Day", value=sent.day, hint="Leave empty if not known."),
        distance=make.line("distance", "Distance driven", value=sent.distance),
        distance_unit=make.choice("distance_unit", "Unit", options=units, chosen=sent.distance_unit),
        minutes=make.line("minutes", "Minutes run", value=sent.minutes),
        starts=make.line("starts", "Starts", value=sent.starts),
        cycles=make.line("cycles", "Drive cycles", value=sent.cycles),
        usual=make.choice(
            "usual",
            "How was it driven?",
            options=[("yes", "as the customer usually drives"), ("", "a road test, under these conditions")],
            chosen=sent.usual,
        ),
        conditions=conditions_field(
            make, sent, about.around.rules, label="Conditions given long enough to show it", hint=needed
        ),
        route=make.line("route", "Route", value=sent.route, hint="Such as: town, then motorway."),
        source=source_field(make, sent.source, SOURCES_OF_RUNS),
        note=make.line("note", "Note", value=sent.note),
        buttons=OUTCOMES,
        problem=problems.at("outcome"),
    )


def read_run(sent: RunSent, about: AfterRepair, *, now: datetime) -> tuple[ProofRun, str] | Problems:
    """The run and the visit of its repair, or everything that is wrong."""
    problems = [*too_long("route", sent.route)]
    after = read_after(sent, sent.day, about, now=now, problems=problems, usual=Source.SEEN_HERE)
    km = _distance(sent, problems)
    minutes = read_minutes(sent.minutes, problems)
    starts, cycles = (_count(name, getattr(sent, name), problems) for name in ("starts", "cycles"))
    if sent.outcome not in ("quiet", "back"):
        problems.append(Problem("outcome", "It is not said whether it came back.", "Touch one of the answers."))
    if not problems and sent.outcome == "quiet" and not any((km, minutes, starts, cycles)):
        mend = "Fill in distance, minutes, starts or drive cycles."
        problems.append(Problem("distance", "It is not said how much it was used.", mend))
    if problems:
        return Problems(problems)
    return ProofRun(
        day=after.day,
        came_back=sent.outcome == "back",
        source=after.source,
        conditions=ticked_conditions(sent, about.around.rules),
        ordinary=sent.usual == "yes",
        km=km,
        minutes=minutes,
        starts=starts,
        cycles=cycles,
        route=sent.route.strip(),
        note=sent.note.strip(),
    ), after.visit


def _distance(sent: RunSent, problems: list[Problem]) -> float | None:
    unit = one_of(OdometerUnit, sent.distance_unit)
    if sent.distance.strip() and unit is None:
        problems.append(Problem("distance_unit", "The distance has no unit.", "Choose km or mi."))
    number = read_amount("distance", sent.distance, problems, most=FURTHEST_KM)
    if number is None or unit is None:
        return None
    return convert(number, PINT_NAMES[unit], PINT_NAMES[OdometerUnit.KM])


def _count(name: str, typed: str, problems: list[Problem]) -> float | None:
    number = read_amount(name, typed, problems, most=MOST_COUNTED)
    if number is not None and number != int(number):
        problems.append(Problem(name, f"“{typed[:20]}” is no whole number.", "Count whole ones, such as 12."))
    return number

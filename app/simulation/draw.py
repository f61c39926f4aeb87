"""A drawn case: a vehicle, earlier work known on paper or by hearsay, what is wrong, and what is asked and told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from numpy.random import Generator, default_rng

from app.evidence.case import Case, Job, Source, Vehicle, Visit
from app.rules.library import Family, Rules
from app.rules.operations import Operation
from app.rules.words import FamilyId
from app.simulation.asked import asked_and_told
from app.simulation.destroyed import destroyed
from app.simulation.faults import Fault, draw_faults
from app.simulation.vehicles import Build, draw_layout
from app.vehicle.layout import VEHICLE, Layout

FIRST_DAY = date(2025, 3, 1)
EARLIER_VISITS = (0.3, 0.5, 0.2)
"""Chances of none, one or two earlier visits elsewhere, each with a job."""
KNOWN_BY = {Source.PAPER: 0.6, Source.TOLD: 0.25, Source.TRACES: 0.15}
TRIES = 20


@dataclass(frozen=True, slots=True)
class Drawn:
    """A case and what is really wrong: the fault behind the complaint first. `keeps`: all that has to be put right."""

    case: Case
    family: Family
    faults: tuple[Fault, ...]
    keeps: tuple[Fault, ...]

    @property
    def behind(self) -> Fault:
        return self.faults[0]


@dataclass(frozen=True, slots=True)
class Given:
    """What is not drawn but given; None: drawn."""

    build: Build | None = None
    earlier_visits: int | None = None


ALL_DRAWN = Given()


def dice_of(family: FamilyId, seed: int) -> Generator:
    """The same for the same family and seed; cases of two families have nothing in common."""
    return default_rng([seed, *family.encode()])


def draw_case(family: Family, rules: Rules, dice: Generator, given: Given = ALL_DRAWN) -> Drawn | None:
    """A case of this family, or None where no drawn vehicle can have its complaint."""
    for _ in range(TRIES):
        layout = draw_layout(rules, dice, given.build)
        lead = family.lead[dice.integers(len(family.lead))]
        visits = tuple(_history(family, layout, rules, dice, given.earlier_visits))
        case = Case(Vehicle(layout, name="drawn vehicle"), lead, VEHICLE, visits)
        faults = draw_faults(case, lead, rules, dice)
        if faults:
            faults = (*faults, *destroyed(faults, case, rules, dice))
            told = asked_and_told(case, faults, family, rules, dice)
            return Drawn(told.case, family, faults, told.keeps)
    return None


def _history(family: Family, layout: Layout, rules: Rules, dice: Generator, count: int | None) -> Iterator[Visit]:
    """Earlier visits elsewhere (so many, or a number drawn) with one job each, then today's visit here."""
    if count is None:
        count = int(dice.choice(len(EARLIER_VISITS), p=EARLIER_VISITS))
    near = [one for one in rules.operations.values() if set(family.causes).intersection(one.touches)]
    day, odometer = FIRST_DAY, float(dice.integers(20_000, 160_000))
    for number in range(1, count + 1):
        operation = near[dice.integers(len(near))] if near else None
        jobs = (_job(operation, layout, dice),) if operation else ()
        yield Visit(number, False, f"Shop {number}", day, odometer, jobs=jobs)
        day += timedelta(days=int(dice.integers(10, 300)))
        odometer += float(dice.integers(100, 15_000))
    yield Visit(count + 1, True, "", day, odometer)


def _job(operation: Operation, layout: Layout, dice: Generator) -> Job:
    """At one of its places, or at all of them."""
    places = layout.places(operation.at)
    done_at = places if dice.random() < 0.5 else (places[dice.integers(len(places))],)
    source = tuple(KNOWN_BY)[int(dice.choice(len(KNOWN_BY), p=list(KNOWN_BY.values())))]
    return Job(operation.id, done_at, source)

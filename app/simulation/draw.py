"""A drawn case: a vehicle, earlier work known on paper or by hearsay, what is wrong, and what the customer tells."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

from numpy.random import Generator, default_rng

from app.evidence.case import Case, Job, Presence, Source, SymptomSeen, Vehicle, Visit
from app.rules.library import Family, Rules
from app.rules.operations import Operation
from app.rules.symptoms import Sense, Symptom
from app.rules.words import FamilyId, SymptomId
from app.simulation.destroyed import destroyed
from app.simulation.faults import Fault, draw_faults
from app.simulation.vehicles import Build, draw_layout
from app.vehicle.layout import ENGINE, VEHICLE, Layout, PlaceId

FIRST_DAY = date(2025, 3, 1)
EARLIER_VISITS = (0.3, 0.5, 0.2)
"""Chances of none, one or two earlier visits elsewhere, each with a job."""
KNOWN_BY = {Source.PAPER: 0.6, Source.TOLD: 0.25, Source.TRACES: 0.15}
TOLD = 0.85
"""How often a symptom that is there is spoken of."""
CODES_READ = 0.8
TRIES = 20


@dataclass(frozen=True, slots=True)
class Drawn:
    """A case and what is really wrong: the fault behind the complaint first."""

    case: Case
    family: Family
    faults: tuple[Fault, ...]

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
            return Drawn(_told(case, faults, family, rules, dice), family, faults)
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


def _told(case: Case, faults: tuple[Fault, ...], family: Family, rules: Rules, dice: Generator) -> Case:
    """The complaint at each visit at which its fault was there, and today all that is felt, seen and read."""
    behind, today = faults[0], case.visits[-1]
    place = _place_of(rules.symptoms[case.complaint], behind.place, case.vehicle.layout, dice)
    complaint = SymptomSeen(case.complaint, place, Presence.PRESENT, Source.TOLD)
    earlier = [
        replace(visit, symptoms=(complaint,)) if behind.at_visit(visit.number) else visit for visit in case.visits[:-1]
    ]
    codes_read = dice.random() < CODES_READ
    seen = [complaint, *_shown_today(case, faults, place, rules, dice)]
    if codes_read:
        seen += _read_and_absent({one.symptom for one in seen}, family, case, rules)
    else:
        seen = [one for one in seen if rules.symptoms[one.symptom].sense is not Sense.CODE or one is complaint]
    return replace(case, complaint_place=place, visits=(*earlier, replace(today, symptoms=tuple(seen))))


def _shown_today(
    case: Case, faults: Iterable[Fault], place: PlaceId, rules: Rules, dice: Generator
) -> Iterator[SymptomSeen]:
    """What the faults give today, each symptom once; the first gives kinds of the complaint given that it acts."""
    told = {case.complaint}
    for number, fault in enumerate(faults):
        if not fault.now:
            continue
        gives = [(g.symptom, g.how_often.chance) for g in fault.cause.gives]
        acts = max((c for s, c in gives if case.complaint in rules.kinds(s)), default=1.0)
        for symptom, chance in gives:
            about = case.complaint in rules.kinds(symptom)
            fires = chance / acts if number == 0 and about else chance
            if symptom in told or dice.random() >= fires or dice.random() >= _spoken(rules.symptoms[symptom]):
                continue
            told.add(symptom)
            at = _place_of(rules.symptoms[symptom], fault.place, case.vehicle.layout, dice)
            yield SymptomSeen(symptom, at, Presence.PRESENT, _source(rules.symptoms[symptom]))


def _read_and_absent(present: set[SymptomId], family: Family, case: Case, rules: Rules) -> Iterator[SymptomSeen]:
    """Codes of the family that were looked for and are not there."""
    for symptom in rules.symptoms.values():
        if symptom.family == family.id and symptom.sense is Sense.CODE and symptom.id not in present:
            for place in case.vehicle.layout.places(symptom.at):
                yield SymptomSeen(symptom.id, place, Presence.ABSENT, Source.SEEN_HERE)


def _spoken(symptom: Symptom) -> float:
    return 1.0 if symptom.sense is Sense.CODE else TOLD


def _source(symptom: Symptom) -> Source:
    return Source.SEEN_HERE if symptom.sense in (Sense.CODE, Sense.DATA, Sense.SEEN) else Source.TOLD


def _place_of(symptom: Symptom, fault: PlaceId, layout: Layout, dice: Generator) -> PlaceId:
    """Where a fault shows a symptom: one of the symptom's places that it covers or lies in."""
    near = [place for place in layout.places(symptom.at) if layout.related(place, fault)]
    places = near or list(layout.places(symptom.at)) or [ENGINE]
    return places[dice.integers(len(places))]

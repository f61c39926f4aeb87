"""What a drawn case costs until its complaint is gone: by the advice, and by replacing the most probable part first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta

from numpy.random import Generator

from app.advice.costs import Costs
from app.advice.of_case import Kind, TestStep
from app.advice.prices import Prices
from app.advice.repairs import RepairHere, fixed_by, repairs_of_row
from app.board.advise import build_advice
from app.board.build import Ranked, rank
from app.evidence.case import Case, DutyDone, DutyState, Job, Presence, Source, SymptomSeen, Visit
from app.evidence.jobs import works_on
from app.rules.library import Rules
from app.rules.words import CoverId
from app.simulation.draw import Drawn
from app.simulation.faults import Fault, makes
from app.simulation.work import with_outcome

BACK_AFTER = 60, 2_000.0
"""Days and km until a renewed part is destroyed once more by what was not put right (judgement)."""
MOST_STEPS = 15
"""After so many steps one searches on by hand: the hours that count for that, and then the repair of what is found."""


@dataclass(frozen=True, slots=True)
class Spent:
    """Money of one case by the advice and part by part; the tests and repairs that the advice took.

    `known`: what it takes if one knows from the start what is wrong; no way of working can cost less on average.
    """

    advised: float
    part_by_part: float
    tests: int
    repairs: int
    known: float


def spent(drawn: Drawn, rules: Rules, prices: Prices, dice: Generator) -> Spent | None:
    """Both ways from the same start; None where the case cannot be ranked."""
    ranked = rank(drawn.case, rules)
    if not isinstance(ranked, Ranked):
        return None
    tests, repairs, advised = _advised(drawn, rules, prices, dice)
    known = known_from_the_start(drawn, Costs(drawn.case, rules, prices))
    return Spent(advised, _part_by_part(drawn, ranked, rules, prices), tests, repairs, known)


def _advised(drawn: Drawn, rules: Rules, prices: Prices, dice: Generator) -> tuple[int, int, float]:
    """Tests and repairs done, and money, following the advice; after each repair the vehicle is tried."""
    case, money, tests = drawn.case, 0.0, 0
    done: list[RepairHere] = []
    for _ in range(MOST_STEPS):
        steps = build_advice(case, rules, prices).steps
        if steps is None or steps.kind in (Kind.SEARCH_ON, Kind.NOTHING, Kind.GONE):
            break
        if steps.kind is Kind.TEST:
            here, tests = steps.tests[0], tests + 1
            money += here.work.money
            case = _tested(case, here, still_there(done, drawn), rules, dice)
            continue
        first = steps.repairs[0]
        money += first.work.money
        done.append(first.repair)
        if mend(done, drawn):
            return tests, len(done), money
        case = in_vain(case, first.repair, first.work.covers, later=gone_for_now(done, drawn, rules))
    return tests, len(done), money + _searched_on(done, drawn, Costs(case, rules, prices))


def _tested(case: Case, step: TestStep, faults: Iterable[Fault], rules: Rules, dice: Generator) -> Case:
    seen = with_outcome(case, step.here.test, step.here.places, faults=faults, rules=rules, dice=dice)
    return _opened(seen, step.work.covers)


def still_there(done: Sequence[RepairHere], drawn: Drawn) -> tuple[Fault, ...]:
    """What the repairs done so far have left; a part is destroyed once more while its culprit is there."""
    left = [fault for fault in drawn.faults if not _put_right(fault, done, drawn)]
    culprits = {fault.cause.id for fault in left if fault.now}
    return tuple(fault for fault in drawn.faults if fault in left or fault.destroyed_by in culprits)


def _opened(case: Case, covers: Iterable[CoverId]) -> Case:
    """What was taken off stays off; its way back is paid already."""
    return replace(case, open_covers=tuple(dict.fromkeys((*case.open_covers, *covers))))


def in_vain(case: Case, repair: RepairHere, covers: Iterable[CoverId], *, later: bool) -> Case:
    """The job stands on the history with its duties seen to, and the complaint was there again when it was tried.

    `later`: it was gone then, and the vehicle came back with it.
    """
    last, days, km = case.visits[-1], *(BACK_AFTER if later else (0, 0.0))
    job = Job(repair.operation.id, repair.places, Source.SEEN_HERE, duties=tuple(_seen_to(repair, last.number)))
    done = replace(last, jobs=(*last.jobs, job))
    again = SymptomSeen(case.complaint, case.complaint_place, Presence.PRESENT, Source.SEEN_HERE)
    day = None if last.day is None else last.day + timedelta(days=days)
    odometer = None if last.odometer_km is None else last.odometer_km + km
    tried = Visit(last.number + 1, True, "", day, odometer, symptoms=(again,))
    return _opened(replace(case, visits=(*case.visits[:-1], done, tried)), covers)


def _seen_to(repair: RepairHere, visit: int) -> Iterator[DutyDone]:
    """Repairs of a drawn case are never botched, and whoever does them well says so."""
    return (DutyDone(duty.id, DutyState.VERIFIED, Source.SEEN_HERE, visit) for duty in repair.operation.duties)


def gone_for_now(done: Sequence[RepairHere], drawn: Drawn, rules: Rules) -> bool:
    """Whether all that gives the complaint itself was put right; what destroyed a part will do so again in time."""
    destroying = {fault.destroyed_by for fault in drawn.keeps}
    complaint = drawn.case.complaint
    direct = (f for f in drawn.keeps if f.cause.id not in destroying or makes(f.cause, complaint, rules) > 0.0)
    return all(_put_right(fault, done, drawn) for fault in direct)


def _part_by_part(drawn: Drawn, ranked: Ranked, rules: Rules, prices: Prices) -> float:
    """The most probable part is replaced first, then the next, as the first ranking has them, each tried once done."""
    case, money = drawn.case, 0.0
    done: list[RepairHere] = []
    for repair in _by_probability(ranked, rules):
        if any(repair.id == earlier.id for earlier in done):
            continue
        done.append(repair)
        work = Costs(case, rules, prices).of_repair(repair)
        money += work.money
        if mend(done, drawn):
            return money
        case = _opened(case, work.covers)
        if len(done) >= MOST_STEPS:
            break
    return money + _searched_on(done, drawn, Costs(case, rules, prices))


def _by_probability(ranked: Ranked, rules: Rules) -> Iterator[RepairHere]:
    """For each row, the most to blame first: the first operation that its rule names."""
    answers = ranked.answers
    rows = sorted((row for _, rows in ranked.ordered for row in rows), key=lambda row: -answers.to_blame(row))
    for number in rows:
        row = answers.network.rows[number]
        if row.place is not None:
            found: Iterable[RepairHere] = repairs_of_row(
                rules.causes[row.cause], row.place, rules, answers.case.vehicle.layout
            )
            yield from list(found)[:1]


def _searched_on(done: Sequence[RepairHere], drawn: Drawn, costs: Costs) -> float:
    """The hours until it is found, and then its repair."""
    return costs.none_of_these() + _known(done, drawn, costs)


def known_from_the_start(drawn: Drawn, costs: Costs) -> float:
    """Money of the cheapest repairs that together put right all that gives the complaint."""
    return _known((), drawn, costs)


def _known(done: Sequence[RepairHere], drawn: Drawn, costs: Costs) -> float:
    """The cheapest repairs that the rules name for all still there; what one opens stays open for the next."""
    left = [fault for fault in drawn.keeps if not _put_right(fault, done, drawn)]
    named = list({repair.id: repair for fault in left for repair in _named(fault, drawn, costs)}.values())
    for fault in left:
        fitting = [repair for repair in named if _puts_right(repair, fault, drawn)]
        if fitting:
            return min(_first(repair, done, drawn, costs) for repair in fitting)
    return 0.0


def _first(repair: RepairHere, done: Sequence[RepairHere], drawn: Drawn, costs: Costs) -> float:
    work = costs.of_repair(repair)
    opened = replace(costs, case=_opened(costs.case, work.covers))
    return work.money + _known((*done, repair), drawn, opened)


def _named(fault: Fault, drawn: Drawn, costs: Costs) -> Iterator[RepairHere]:
    return repairs_of_row(fault.cause, fault.place, costs.rules, drawn.case.vehicle.layout)


def mend(repairs: Sequence[RepairHere], drawn: Drawn) -> bool:
    """Whether these together put right all that gives the complaint."""
    return all(_put_right(fault, repairs, drawn) for fault in drawn.keeps)


def _put_right(fault: Fault, repairs: Iterable[RepairHere], drawn: Drawn) -> bool:
    return any(_puts_right(repair, fault, drawn) for repair in repairs)


def _puts_right(repair: RepairHere, fault: Fault, drawn: Drawn) -> bool:
    job = Job(repair.operation.id, repair.places, Source.SEEN_HERE)
    return fixed_by(repair.operation, fault.cause) and works_on(job, fault.place, drawn.case.vehicle.layout)

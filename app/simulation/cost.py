"""What a drawn case costs until its complaint is gone: by the advice, and by replacing the most probable part first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from numpy.random import Generator

from app.advice.costs import Costs, TestHere, Work
from app.advice.of_case import Kind
from app.advice.prices import Prices
from app.advice.repairs import RepairHere, fixed_by, repairs_of_row
from app.board.advise import build_advice
from app.board.build import Ranked, rank
from app.evidence.case import Case, Job, Presence, Source, SymptomSeen, Visit
from app.evidence.jobs import works_on
from app.rules.library import Rules
from app.simulation.draw import Drawn
from app.simulation.faults import Fault
from app.simulation.work import with_outcome

MOST_STEPS = 15
"""After so many steps the search goes on elsewhere: the case costs what "nothing listed helps" counts for."""


@dataclass(frozen=True, slots=True)
class Spent:
    """Money of one case by the advice and part by part; the tests and repairs that the advice took."""

    advised: float
    part_by_part: float
    tests: int
    repairs: int


def spent(drawn: Drawn, rules: Rules, prices: Prices, dice: Generator) -> Spent | None:
    """Both ways from the same start; None where the case cannot be ranked."""
    ranked = rank(drawn.case, rules)
    if not isinstance(ranked, Ranked):
        return None
    tests, repairs, advised = _advised(drawn, rules, prices, dice)
    return Spent(advised, _part_by_part(drawn, ranked, rules, prices), tests, repairs)


def _advised(drawn: Drawn, rules: Rules, prices: Prices, dice: Generator) -> tuple[int, int, float]:
    """Tests and repairs done, and money, following the advice; after each repair the vehicle is tried."""
    case, money, tests = drawn.case, 0.0, 0
    done: list[RepairHere] = []
    for _ in range(MOST_STEPS):
        steps = build_advice(case, rules, prices).steps
        if steps is None or steps.kind in (Kind.NOTHING, Kind.GONE):
            break
        if steps.kind is Kind.TEST:
            here, tests = steps.tests[0], tests + 1
            money += here.work.money
            case = _tested(case, here.here, here.work, drawn, rules, dice)
            continue
        first = steps.repairs[0]
        money += first.work.money
        done.append(first.repair)
        if mend(done, drawn):
            return tests, len(done), money
        case = _in_vain(case, first.repair, first.work)
    return tests, len(done), money + Costs(case, rules, prices).none_of_these()


def _tested(case: Case, here: TestHere, work: Work, drawn: Drawn, rules: Rules, dice: Generator) -> Case:
    seen = with_outcome(case, here.test, here.places, faults=drawn.faults, rules=rules, dice=dice)
    return _opened(seen, work)


def _opened(case: Case, work: Work) -> Case:
    """What was taken off stays off; its way back is paid already."""
    return replace(case, open_covers=tuple(dict.fromkeys((*case.open_covers, *work.covers))))


def _in_vain(case: Case, repair: RepairHere, work: Work) -> Case:
    """The job stands on the history, and the complaint was there again when the vehicle was tried after it."""
    last = case.visits[-1]
    job = Job(repair.operation.id, repair.places, Source.SEEN_HERE)
    done = replace(last, jobs=(*last.jobs, job))
    again = SymptomSeen(case.complaint, case.complaint_place, Presence.PRESENT, Source.SEEN_HERE)
    tried = Visit(last.number + 1, True, "", last.day, last.odometer_km, symptoms=(again,))
    return _opened(replace(case, visits=(*case.visits[:-1], done, tried)), work)


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
        case = _opened(case, work)
        if len(done) >= MOST_STEPS:
            break
    return money + Costs(case, rules, prices).none_of_these()


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


def mend(repairs: Iterable[RepairHere], drawn: Drawn) -> bool:
    """Whether these together put right all that gives the complaint."""
    return all(any(_puts_right(repair, fault, drawn) for repair in repairs) for fault in drawn.keeps)


def _puts_right(repair: RepairHere, fault: Fault, drawn: Drawn) -> bool:
    job = Job(repair.operation.id, repair.places, Source.SEEN_HERE)
    return fixed_by(repair.operation, fault.cause) and works_on(job, fault.place, drawn.case.vehicle.layout)

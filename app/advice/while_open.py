"""While it is open: what else can be looked at or renewed behind the covers that are off already, for how little."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from app.advice.costs import Costs, TestHere, Work
from app.advice.repairs import RepairHere, repairs_of_row
from app.evidence.case import DutyState
from app.evidence.jobs import NumberedJob, known_jobs, what_stands
from app.network.build import CaseNetwork
from app.network.lines import ToCome
from app.rules.operations import Duty
from app.rules.words import CauseId, CoverId

MOST_OF_A_SORT = 5
WORTH_A_LOOK = 0.002
WORTH_RENEWING = 0.02
"""Chance that the fault is there now, from which its renewal is named."""
LOOKED_AT = (DutyState.VERIFIED, DutyState.FOUND_WRONG, DutyState.NOT_APPLICABLE)


@dataclass(frozen=True, slots=True)
class OpenTest:
    """A test behind open covers, where it is still to be done; `about`: what it can show, the likely first."""

    here: TestHere
    work: Work
    about: tuple[CauseId, ...]


@dataclass(frozen=True, slots=True)
class OpenDuty:
    """A duty of an earlier job that nobody has looked at. `work`: of the test that verifies it (None: a look)."""

    job: NumberedJob
    duty: Duty
    work: Work | None


@dataclass(frozen=True, slots=True)
class OpenRenewal:
    """A repair behind open covers; `there`: chance that what it puts right is there now."""

    repair: RepairHere
    work: Work
    there: float


@dataclass(frozen=True, slots=True)
class WhileOpen:
    tests: tuple[OpenTest, ...] = ()
    duties: tuple[OpenDuty, ...] = ()
    renewals: tuple[OpenRenewal, ...] = ()


def while_open(network: CaseNetwork, there: Mapping[int, float], costs: Costs) -> WhileOpen:
    """`there`: row about a place -> chance that its cause is there now. Nothing where no cover is off."""
    if not costs.case.open_covers:
        return WhileOpen()
    return WhileOpen(
        tests=tuple(_tests(network, there, costs)),
        duties=tuple(_duties(costs)),
        renewals=tuple(_renewals(network, there, costs)),
    )


def _behind(covers: Iterable[CoverId], costs: Costs) -> bool:
    """It needs something off, and all of that is off."""
    needed = set(covers)
    return bool(needed) and needed <= set(costs.case.open_covers)


def _tests(network: CaseNetwork, there: Mapping[int, float], costs: Costs) -> list[OpenTest]:
    likely: dict[CauseId, float] = defaultdict(float)
    for row, chance in there.items():
        cause = network.rows[row].cause
        likely[cause] = max(likely[cause], chance)
    to_come: dict[str, list[ToCome]] = defaultdict(list)
    for one in network.lines.possible:
        if _behind(one.test.needs_open, costs):
            to_come[one.test.id].append(one)
    tests = (TestHere(same[0].test, tuple(one.place for one in same)) for same in to_come.values())
    found = [_of_test(here, likely, costs) for here in tests]
    worth = [one for one in found if one.about]
    return sorted(worth, key=lambda one: -sum(likely[c] for c in one.about) / one.work.minutes)[:MOST_OF_A_SORT]


def _of_test(here: TestHere, likely: Mapping[CauseId, float], costs: Costs) -> OpenTest:
    shown = [s.cause for s in here.test.shows if likely.get(s.cause, 0.0) >= WORTH_A_LOOK]
    return OpenTest(here, costs.of_test(here), tuple(sorted(shown, key=lambda cause: -likely[cause])))


def _duties(costs: Costs) -> Iterator[OpenDuty]:
    for job in known_jobs(costs.case, costs.rules):
        operation = costs.rules.operations[job.job.operation]
        if not _behind(operation.opens, costs):
            continue
        for duty in costs.rules.duties_on(operation, costs.case.vehicle.layout):
            said = what_stands(job.job, duty.id)
            if said is None or said.state not in LOOKED_AT:
                yield OpenDuty(job, duty, _work_of(duty, costs))


def _work_of(duty: Duty, costs: Costs) -> Work | None:
    if duty.verify_by_test is None:
        return None
    test = costs.rules.tests[duty.verify_by_test]
    return costs.work(costs.prices.minutes_of_test(test, 1), test.needs_open)


def _renewals(network: CaseNetwork, there: Mapping[int, float], costs: Costs) -> list[OpenRenewal]:
    layout = costs.case.vehicle.layout
    found: dict[str, OpenRenewal] = {}
    for number, chance in there.items():
        row = network.rows[number]
        if row.place is None or chance < WORTH_RENEWING:
            continue
        for repair in repairs_of_row(costs.rules.causes[row.cause], row.place, costs.rules, layout):
            if _behind(repair.operation.opens, costs) and chance > (
                found[repair.id].there if repair.id in found else 0.0
            ):
                found[repair.id] = OpenRenewal(repair, costs.of_repair(repair), chance)
    return sorted(found.values(), key=lambda one: -one.there / max(1.0, one.work.minutes))[:MOST_OF_A_SORT]

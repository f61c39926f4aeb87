"""The advice of a case: its promising tests and the repairs of its leading rows, by what each costs on this vehicle."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import accumulate, product

from app.advice.asking import Complaint
from app.advice.believed import OTHER, PROBABLY_GONE, Believed, believed
from app.advice.costs import Costs, TestHere, Work
from app.advice.expected_cost import Advice, ValuedRepair, ValuedTest, advise
from app.advice.plan import Repair, Situation, Test
from app.advice.repairs import RepairHere, faults_of, repairs_for
from app.advice.separating import information, not_told_apart
from app.advice.table import Table
from app.network.build import CaseNetwork

EQUAL_WITHIN = 0.02
"""Steps whose expected costs differ by less than this part are equal: the rules know no better."""


class Kind(StrEnum):
    """What the advice comes to.

    SEARCH_ON: what the rules name costs more than it is likely to save; GONE: work done since has probably cured the
    complaint; NOTHING: no repair is known.
    """

    TEST = "test"
    REPAIR = "repair"
    NOTHING_SEPARATES = "nothing separates"
    SEARCH_ON = "search on"
    GONE = "gone"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class TestStep:
    """A test that could be next. `expected`: money from here when it is done first. `bits`: what it is expected to tell
    of which faults make the complaint. `equal`: as cheap on average as the advice."""

    __test__ = False

    here: TestHere
    work: Work
    expected: float
    bits: float
    equal: bool


@dataclass(frozen=True, slots=True)
class RepairStep:
    """A repair that could be next. `cures`: chance that the complaint is gone after it alone."""

    repair: RepairHere
    work: Work
    expected: float
    cures: float
    equal: bool


@dataclass(frozen=True, slots=True)
class CaseAdvice:
    """What to do next: the first of `tests`, the first of `repairs`, or neither; both stand in order of expected cost.

    `expected`, `base`: money from here, as advised and by repairing in the plain `order`. `cured_by`: per repair of the
    order, the chance that the complaint is gone after it and all before it. `gone`: chance that work done
    since the complaint was seen has cured it. `left`: chance that no repair listed here cures it, if it is still there.
    `alike`: the likely repairs between which no test here tells.
    """

    kind: Kind
    expected: float
    base: float
    gone: float
    left: float
    tests: tuple[TestStep, ...]
    repairs: tuple[RepairStep, ...]
    order: tuple[RepairHere, ...]
    cured_by: tuple[float, ...]
    alike: tuple[RepairHere, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """`complaint`: the findings that stand for it; `rows`: the leading ones about places, of which `destroyed` failed
    by something else rather than by themselves; `tests`: those to weigh, all of them among the findings of the network.
    """

    network: CaseNetwork
    complaint: tuple[int, ...]
    rows: tuple[int, ...]
    destroyed: frozenset[int]
    tests: tuple[TestHere, ...]


def advice_of(asked: Asked, costs: Costs) -> CaseAdvice | None:
    """What to do next in this case; None where the network cannot be asked (contradictory, or too large)."""
    weighed = _weighed(asked, costs)
    if weighed is None:
        return None
    table = weighed.belief.table
    advice = advise(table, weighed.situation)
    alike = weighed.alike(advice)
    return CaseAdvice(
        kind=_kind(advice, weighed.belief, alike),
        expected=advice.expected,
        base=advice.base,
        gone=weighed.belief.gone,
        left=1.0 - table.cured(set(table.faults) - {OTHER}),
        tests=tuple(weighed.test_step(one, advice) for one in advice.tests),
        repairs=tuple(weighed.repair_step(one, advice) for one in _first_first(advice)),
        order=tuple(weighed.repairs[repair.id] for repair in advice.order),
        cured_by=_cured_by(table, advice),
        alike=alike,
    )


def _cured_by(table: Table, advice: Advice) -> tuple[float, ...]:
    done = accumulate((repair.cures for repair in advice.order), frozenset[str].union)
    return tuple(table.cured(faults) for faults in done)


def _first_first(advice: Advice) -> Sequence[ValuedRepair]:
    """The repairs by expected cost; of equal ones the plain order's first."""
    place = {repair.id: number for number, repair in enumerate(advice.order)}
    return sorted(advice.repairs, key=lambda one: (round(one.cost, 6), place.get(one.repair.id, len(place))))


def _kind(advice: Advice, belief: Believed, alike: Sequence[RepairHere]) -> Kind:
    if belief.gone >= PROBABLY_GONE:
        return Kind.GONE
    if advice.test is not None:
        return Kind.TEST
    if advice.repair is None:
        return Kind.SEARCH_ON if advice.repairs else Kind.NOTHING
    return Kind.NOTHING_SEPARATES if alike else Kind.REPAIR


@dataclass(frozen=True, slots=True)
class _Weighed:
    """What is believed, what everything costs, and what the names stand for. `fault_by`: fault -> what cures it."""

    belief: Believed
    situation: Situation
    costs: Costs
    tests: Mapping[str, TestHere]
    repairs: Mapping[str, RepairHere]
    fault_by: Mapping[str, frozenset[str]]

    def test_step(self, one: ValuedTest, advice: Advice) -> TestStep:
        here = self.tests[one.test.id]
        return TestStep(
            here=here,
            work=self.costs.of_test(here),
            expected=one.cost,
            bits=information(self.belief.table, one.test.id),
            equal=one.cost <= advice.expected * (1.0 + EQUAL_WITHIN),
        )

    def repair_step(self, one: ValuedRepair, advice: Advice) -> RepairStep:
        repair = self.repairs[one.repair.id]
        return RepairStep(
            repair=repair,
            work=self.costs.of_repair(repair),
            expected=one.cost,
            cures=self.belief.table.cured(one.repair.cures),
            equal=one.cost <= advice.expected * (1.0 + EQUAL_WITHIN),
        )

    def alike(self, advice: Advice) -> tuple[RepairHere, ...]:
        """The cheapest repair on the whole for each likely fault, where no test tells these faults apart.

        () where some test would have taken too long to reckon with: nobody knows what it tells.
        """
        if self.tests.keys() != self.belief.table.shown.keys():
            return ()
        faults, repairs = not_told_apart(self.belief.table), [one.repair for one in _first_first(advice)]
        firsts = (next((r for r in repairs if r.id in self.fault_by[fault]), None) for fault in faults)
        named = dict.fromkeys(first.id for first in firsts if first is not None)
        return tuple(self.repairs[id] for id in named) if len(named) > 1 else ()


def _weighed(asked: Asked, costs: Costs) -> _Weighed | None:
    """With all repairs worth thinking of, or with fewer and fewer of the first where that is too much to ask."""
    repairs = repairs_for(asked.rows, asked.destroyed, asked.network, costs.case, costs.rules)
    while (weighed := _weighed_with(repairs, asked, costs)) is None and repairs:
        repairs = repairs[: len(repairs) // 2]
    return weighed


def _weighed_with(repairs: Sequence[RepairHere], asked: Asked, costs: Costs) -> _Weighed | None:
    layout = costs.case.vehicle.layout
    cured_by = faults_of(repairs, asked.network, layout)
    kinds = tuple(dict.fromkeys(cured_by.values()))
    names = {by: f"fault {number}" for number, by in enumerate(kinds)}
    tests = {here.id: here for here in asked.tests}
    finding_of = asked.network.book.to_come
    belief = believed(
        _complaint(asked, {number: kinds.index(by) for number, by in cured_by.items()}),
        tuple(names.values()),
        {id: [finding_of[here.test.id, place] for place in here.places] for id, here in tests.items()},
    )
    if belief is None:
        return None
    by_id = {repair.id: repair for repair in repairs}
    cures = {id: frozenset(name for by, name in names.items() if id in by) for id in by_id}
    situation = Situation(
        tests=tuple(_test(here, costs) for id, here in tests.items() if id in belief.table.shown),
        repairs=tuple(_repair(repair, cures[repair.id], costs) for repair in repairs),
        covers=costs.covers(),
        none_of_these=costs.none_of_these(),
        open=frozenset(costs.case.open_covers),
    )
    return _Weighed(belief, situation, costs, tests, by_id, {name: by for by, name in names.items()})


def _test(here: TestHere, costs: Costs) -> Test:
    return Test(here.id, costs.alone(costs.of_test(here)), frozenset(here.test.needs_open))


def _repair(repair: RepairHere, cures: frozenset[str], costs: Costs) -> Repair:
    own = costs.alone(costs.of_repair(repair))
    return Repair(repair.id, cures, own, frozenset(repair.operation.opens), repair.again)


def _complaint(asked: Asked, fault_of: Mapping[int, int]) -> Complaint:
    network = asked.network
    there: dict[int, set[int]] = defaultdict(set)
    for number, row in enumerate(network.rows):
        if row.job is None and row.place is not None:
            for hypothesis, state in network.noisy_or.events[number].any_of:
                there[hypothesis].add(state)
    return Complaint(
        network=network.noisy_or,
        findings=frozenset(asked.complaint),
        fault_of=fault_of,
        there={hypothesis: frozenset(states) for hypothesis, states in there.items()},
        victims={
            event: frozenset(network.rows[row].members)
            for row, event in network.killed.items()
            if network.rows[row].place is not None
        },
        together=frozenset(_together(network, fault_of)),
    )


def _together(network: CaseNetwork, fault_of: Mapping[int, int]) -> Iterator[frozenset[int]]:
    """Culprit and victim, where repairs here put both right."""
    for row, culprits in network.culprits.items():
        for hypotheses in product(culprits, network.rows[row].members):
            faults = frozenset(fault_of[h] for h in hypotheses if h in fault_of)
            if len(faults) > 1:
                yield faults

"""Expected cost of repair: go on in the plain repair order, or do something else first if that is cheaper on average.

Repairing on in the plain order from here is the base (paths.py). A test, or another repair, is worth doing first when
its cost plus the base after its outcome is lower (one step ahead), or than the best of that again (two steps). Under
the model, with a perfect check after each repair, following this advice costs on average at most the figure shown, and
never more than repairing in the plain order: the rollout argument, for the plain order looks only at what is known
then. Where nothing listed is likely enough, searching on by hand is cheaper than either. Nothing is claimed about the
distance to the optimum (ENGINE.md, "Next step").
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

import numpy as np

from app.advice.paths import Ground, Paths, repeated
from app.advice.plan import Repair, Situation, Test
from app.advice.table import Masks, Numbers, Table

TWO_STEPS_UP_TO = 8
"""With at most so many actions left, the advice looks two steps ahead."""
TESTS_AHEAD, LOOKED_AT = 5, 6
"""Else it looks one step ahead, and after so many of the best first steps up to so many further tests."""
WORTH_FOLLOWING = 0.05
"""On paths less likely than this no further tests are followed."""
SAME_WITHIN = 1e-9


@dataclass(frozen=True, slots=True)
class ValuedTest:
    """A test with the expected cost of doing it next and going on as advised."""

    test: Test
    cost: float


@dataclass(frozen=True, slots=True)
class ValuedRepair:
    """A repair with the expected cost of doing it next and going on as advised."""

    repair: Repair
    cost: float


Valued = TypeVar("Valued", ValuedTest, ValuedRepair)


@dataclass(frozen=True, slots=True)
class Advice:
    """What to do next: `test`, or `repair` where testing cannot save its cost; neither: search on by hand.

    `expected`: expected cost from here. `base`: that of repairing in the plain `order`. `tests`, `repairs`: all, the
    cheapest first.
    """

    test: Test | None
    repair: Repair | None
    expected: float
    base: float
    order: tuple[Repair, ...]
    tests: tuple[ValuedTest, ...]
    repairs: tuple[ValuedRepair, ...]


def advise(table: Table, situation: Situation) -> Advice:
    """The next step by expected cost of repair."""
    ground = Ground(table, situation)
    now = ground.start()
    base, numbers, stops = ground.plain(now)
    order = _useful(situation.repairs, [int(one[0]) for one in numbers[: stops[0]]])
    small = len(situation.tests) + len(situation.repairs) <= TWO_STEPS_UP_TO
    by_test, by_repair = _all_ways(ground, now) if small else _likely_ways(ground, now)
    tests = _cheapest_first(map(ValuedTest, situation.tests, by_test.tolist()))
    repairs = _cheapest_first(map(ValuedRepair, situation.repairs, by_repair.tolist()))
    first = order[0] if order else None
    expected = float(base[0])
    if repairs and repairs[0].cost < expected * (1.0 - SAME_WITHIN):
        first, expected = repairs[0].repair, repairs[0].cost
    test = tests[0].test if tests and tests[0].cost < expected * (1.0 - SAME_WITHIN) else None
    return Advice(
        test=test,
        repair=None if test else first,
        expected=tests[0].cost if test else expected,
        base=float(base[0]),
        order=order,
        tests=tests,
        repairs=repairs,
    )


def _useful(repairs: Sequence[Repair], numbers: Sequence[int]) -> tuple[Repair, ...]:
    """The order without what puts nothing more right."""
    found: list[Repair] = []
    done: frozenset[str] = frozenset()
    for number in numbers:
        if number >= 0 and repairs[number].cures - done:
            found.append(repairs[number])
            done |= repairs[number].cures
    return tuple(found)


def _cheapest_first(valued: Iterable[Valued]) -> tuple[Valued, ...]:
    return tuple(sorted(valued, key=lambda one: one.cost))


Then = Callable[[Paths], Numbers]
"""(paths,): what is expected from each path on."""


def _all_ways(ground: Ground, now: Paths) -> tuple[Numbers, Numbers]:
    """(tests,) and (repairs,): each first step with the best of all second ones."""
    tests, repairs = _numbers(ground)
    then = partial(_two_steps, ground)
    return _tests_first(ground, now, tests, then), _repairs_first(ground, now, repairs, then)


def _likely_ways(ground: Ground, now: Paths) -> tuple[Numbers, Numbers]:
    """The same with the plain order after each first step; after the most promising ones with further tests as well."""
    tests, repairs = _numbers(ground)
    plain, testing_on = partial(_plain, ground), partial(_testing_on, ground, tests=TESTS_AHEAD)
    by_test, by_repair = _tests_first(ground, now, tests, plain), _repairs_first(ground, now, repairs, plain)
    if tests.size:
        some = np.union1d(by_test.argsort()[:LOOKED_AT], ground.most_telling(now))
        by_test[some] = _tests_first(ground, now, some, testing_on)
        few = by_repair.argsort()[:LOOKED_AT]
        by_repair[few] = _repairs_first(ground, now, few, testing_on)
    return by_test, by_repair


def _plain(ground: Ground, paths: Paths) -> Numbers:
    return ground.plain(paths)[0]


def _numbers(ground: Ground) -> tuple[Masks, Masks]:
    return np.arange(len(ground.situation.tests)), np.arange(len(ground.situation.repairs))


def _tests_first(ground: Ground, paths: Paths, tests: Masks, then: Then) -> Numbers:
    """(paths x tests,): cost of each of these tests and what is expected from there on; infinite if done already."""
    each = np.tile(tests, len(paths.done))
    cost, outcomes, before = ground.after_tests(repeated(paths, len(tests)), each)
    return cost + np.bincount(before, then(outcomes), minlength=len(each))


def _repairs_first(ground: Ground, paths: Paths, repairs: Masks, then: Then) -> Numbers:
    """(paths x repairs,): the same for repairs."""
    cost, in_vain = ground.after_repairs(repeated(paths, len(repairs)), np.tile(repairs, len(paths.done)))
    return cost + then(in_vain)


def _two_steps(ground: Ground, paths: Paths) -> Numbers:
    """(paths,): the plain order, or the best step before it."""
    plain = partial(_plain, ground)
    best = plain(paths)
    for numbers, first in zip(_numbers(ground), (_tests_first, _repairs_first), strict=True):
        if numbers.size:
            best = np.minimum(best, first(ground, paths, numbers, plain).reshape(len(best), numbers.size).min(axis=1))
    return best


def _testing_on(ground: Ground, paths: Paths, tests: int) -> Numbers:
    """(paths,): the plain order, or first up to so many more tests, each time the most telling for its cost.

    Only on paths that are likely enough.
    """
    best = _plain(ground, paths)
    likely = np.flatnonzero(paths.chance >= WORTH_FOLLOWING)
    if not tests or not likely.size:
        return best
    some = paths.some(likely)
    which = ground.most_telling(some)
    going_on = likely[which >= 0]
    if going_on.size:
        cost, outcomes, before = ground.after_tests(paths.some(going_on), which[which >= 0])
        then = cost + np.bincount(before, _testing_on(ground, outcomes, tests - 1), minlength=len(going_on))
        best[going_on] = np.minimum(best[going_on], then)
    return best

"""Expected cost of repair: go on in the plain repair order, or do something else first if that is cheaper on average.

Repairing on in the plain order from here is the base (paths.py). A test, or another repair, is worth doing first when
its cost plus the base after its outcome is lower (one step ahead), or than the best of that again (two steps). Under
the model, with a perfect check after each repair, following this advice costs on average at most the figure shown, and
never more than repairing in the plain order: the rollout argument, for the plain order looks only at what is known
then. Nothing is claimed about the distance to the optimum (ENGINE.md, "Next step").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.advice.paths import Ground, Paths
from app.advice.plan import Repair, Situation, Test
from app.advice.table import Numbers, Table

TWO_STEPS_UP_TO = 8
"""With at most so many actions left, the advice looks two steps ahead."""
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


@dataclass(frozen=True, slots=True)
class Advice:
    """What to do next: `test`, or `repair` where testing cannot save its cost; neither: nothing listed is left.

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
    steps = 2 if len(situation.tests) + len(situation.repairs) <= TWO_STEPS_UP_TO else 1
    base, numbers = ground.plain(now)
    order = _useful(situation.repairs, [int(one[0]) for one in numbers])
    tests, repairs = _valued_tests(ground, now, steps), _valued_repairs(ground, now, steps)
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
        if repairs[number].cures - done:
            found.append(repairs[number])
            done |= repairs[number].cures
    return tuple(found)


def _valued_tests(ground: Ground, now: Paths, steps: int) -> tuple[ValuedTest, ...]:
    tests = ground.situation.tests
    found = [ValuedTest(test, float(_test_first(ground, now, n, steps)[0])) for n, test in enumerate(tests)]
    return tuple(sorted(found, key=lambda one: one.cost))


def _valued_repairs(ground: Ground, now: Paths, steps: int) -> tuple[ValuedRepair, ...]:
    repairs = ground.situation.repairs
    found = [ValuedRepair(repair, float(_repair_first(ground, now, n, steps)[0])) for n, repair in enumerate(repairs)]
    return tuple(sorted(found, key=lambda one: one.cost))


def _test_first(ground: Ground, paths: Paths, number: int, steps: int) -> Numbers:
    """(paths,): cost of the test and what is expected from there on."""
    cost, outcomes = ground.after_test(paths, number, ground.situation.tests[number])
    for then in outcomes:
        cost = cost + _best(ground, then, steps - 1)
    return cost


def _repair_first(ground: Ground, paths: Paths, number: int, steps: int) -> Numbers:
    cost, then = ground.after_repair(paths, number)
    return cost + _best(ground, then, steps - 1)


def _best(ground: Ground, paths: Paths, steps: int) -> Numbers:
    """(paths,): expected cost from here, looking so many steps ahead before the plain order."""
    best, _ = ground.plain(paths)
    if steps == 0:
        return best
    for number in range(len(ground.situation.tests)):
        unused = (paths.used >> number) & 1 == 0
        best = np.where(unused, np.minimum(best, _test_first(ground, paths, number, steps)), best)
    for number in range(len(ground.situation.repairs)):
        best = np.minimum(best, _repair_first(ground, paths, number, steps))
    return best

"""Expected cost of repair: follow the plain repair order, or do one test first if that is cheaper on average.

The plain order takes the repair that by itself cures most per cost next, access from the present state included, with a
check after each. Its expected cost from here is the base. A test is worth doing when its cost plus the expected base
after its outcome is lower than the base (one step ahead), or than the best of that again (two steps). Under the model,
with a perfect check after each repair, following this advice costs on average at most the figure shown, and never more
than repairing in the plain order; nothing is claimed about the distance to the optimum (ENGINE.md, "Next step").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.advice.plan import Belief, Covers, Repair, Situation, Test

TWO_STEPS_UP_TO = 8
"""With at most so many actions left, the advice looks two steps ahead."""
SAME_WITHIN = 1e-9


@dataclass(frozen=True, slots=True)
class Valued:
    """A test with the expected cost of doing it next and going on as advised."""

    test: Test
    cost: float


@dataclass(frozen=True, slots=True)
class Advice:
    """What to do next: `test`, or the first of the plain order when testing cannot save its cost.

    `expected`: expected cost from here. `base`: that of repairing in the plain order. `tests`: all, the cheapest first.
    """

    test: Test | None
    repair: Repair | None
    expected: float
    base: float
    tests: tuple[Valued, ...]


def advise(belief: Belief, situation: Situation) -> Advice:
    """The next step by expected cost of repair."""
    actions = len(situation.tests) + len(situation.repairs)
    steps = 2 if actions <= TWO_STEPS_UP_TO else 1
    base, order = plain_order(belief, situation, situation.open)
    valued = sorted(
        (Valued(test, _after(test, belief, situation, situation.open, steps=steps)) for test in situation.tests),
        key=lambda one: one.cost,
    )
    best = valued[0] if valued and valued[0].cost < base * (1.0 - SAME_WITHIN) else None
    first = order[0] if order else None
    return Advice(
        test=best.test if best else None,
        repair=None if best else first,
        expected=best.cost if best else base,
        base=base,
        tests=tuple(valued),
    )


def plain_order(belief: Belief, situation: Situation, open: Covers) -> tuple[float, tuple[Repair, ...]]:
    """Expected cost of repairing in the plain order, and the order: what cures most by itself per cost comes first."""
    order = _in_order(belief, situation, open)
    prefixes = [order[:count] for count in range(len(order) + 1)]
    cost, off = 0.0, open
    chances = belief.cured(prefixes)
    for repair, cured in zip(order, chances, strict=False):
        cost += (1.0 - cured) * (repair.cost + situation.access(repair.covers, off))
        off |= repair.covers
    return cost + (1.0 - chances[-1]) * situation.none_of_these, order


def _in_order(belief: Belief, situation: Situation, open: Covers) -> tuple[Repair, ...]:
    """Covers taken off for one repair are off for the next."""
    gains = dict(zip(situation.repairs, belief.cured([(repair,) for repair in situation.repairs]), strict=True))
    done: list[Repair] = []
    while gains:
        best = max(gains, key=lambda repair: gains[repair] / (repair.cost + situation.access(repair.covers, open)))
        done.append(best)
        open |= best.covers
        del gains[best]
    return tuple(done)


def _after(test: Test, belief: Belief, situation: Situation, open: Covers, *, steps: int) -> float:
    """Cost of the test and the expected cost from there on."""
    cost = test.cost + situation.access(test.covers, open)
    others = tuple(other for other in situation.tests if other.id != test.id)
    for chance, then in belief.outcomes(test):
        cost += chance * _best(then, situation, others, open | test.covers, steps=steps - 1)
    return cost


def _best(belief: Belief, situation: Situation, tests: Sequence[Test], open: Covers, *, steps: int) -> float:
    base, _ = plain_order(belief, situation, open)
    if steps == 0:
        return base
    return min([base, *(_after(test, belief, situation, open, steps=steps) for test in tests)])

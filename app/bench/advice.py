"""Advice against the exact optimum on many seeded small problems: 6 faults, 6 tests, 3 covers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.advice.expected_cost import advise
from app.bench.optimum import Optimum, a_problem, cost_of_advice

FAULTS, TESTS = 6, 6


@dataclass(frozen=True, slots=True)
class Compared:
    """Expected cost of one problem: the cheapest policy, the advice, the figure it showed, and the plain order."""

    optimum: float
    advised: float
    shown: float
    plain: float

    @property
    def excess(self) -> float:
        return self.advised / self.optimum - 1.0

    @property
    def plain_excess(self) -> float:
        return self.plain / self.optimum - 1.0


def compared(seed: int, *, single: bool, faults: int = FAULTS, tests: int = TESTS) -> Compared:
    """One problem: the same seed gives the same."""
    table, situation = a_problem(seed, faults=faults, tests=tests, single=single)
    advice = advise(table, situation)
    return Compared(
        optimum=Optimum(table, situation).cost(),
        advised=cost_of_advice(table, situation),
        shown=advice.expected,
        plain=advice.base,
    )


def in_words(name: str, some: Sequence[Compared]) -> Iterator[str]:
    """Mean and worst excess of the advice and of the plain order, and whether what is promised held."""
    yield (
        f"{name}, {len(some)} problems: the advice costs {_mean([one.excess for one in some]):.2%} more than the "
        f"optimum on average, {max(one.excess for one in some):.2%} at worst; the plain order "
        f"{_mean([one.plain_excess for one in some]):.2%} and {max(one.plain_excess for one in some):.2%}."
    )
    dearer = sum(one.advised > one.plain * (1.0 + 1e-9) for one in some)
    above = sum(one.advised > one.shown * (1.0 + 1e-9) for one in some)
    yield f"  dearer than the plain order: {dearer}; dearer than the figure shown: {above}."


def _mean(numbers: Sequence[float]) -> float:
    return sum(numbers) / len(numbers)

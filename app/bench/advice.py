"""The advice against the exact optimum and against simpler rules, on many seeded small problems."""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial

import numpy as np

from app.advice.expected_cost import advise
from app.bench.optimum import COVERS, Optimum, a_problem, cost_of
from app.bench.report import Goal, Report, Table
from app.bench.rules_of_thumb import by_advice, information_per_minute, most_probable_part
from app.bench.sizes import Sizes

GOAL_MEAN, GOAL_WORST = 0.02, 0.20
RESAMPLED = 2000
"""Times the problems are drawn again, with replacement, for the 95 % interval of a mean (percentile bootstrap)."""
SAME_WITHIN = 1e-9


@dataclass(frozen=True, slots=True)
class Compared:
    """Expected cost of one problem: the cheapest policy, each rule, and the figure that the advice showed."""

    optimum: float
    advised: float
    shown: float
    plain: float
    probable: float
    informed: float

    def excess(self, cost: float) -> float:
        return cost / self.optimum - 1.0


def advice(sizes: Sizes) -> Report:
    """Problems with one fault, then with several."""
    tables: list[Table] = []
    goals: list[Goal] = []
    with ProcessPoolExecutor(sizes.processes) as pool:
        for name, single in (("One fault", True), ("Several faults", False)):
            one = partial(compared, single=single, faults=sizes.faults, tests=sizes.tests)
            some = list(pool.map(one, range(sizes.seed, sizes.seed + sizes.problems)))
            tables.append(_table(name, some, sizes))
            goals += _goals(name.lower(), some)
    return Report("advice", tuple(tables), goals=tuple(goals))


def compared(seed: int, *, single: bool, faults: int, tests: int) -> Compared:
    """One problem: the same seed gives the same."""
    table, situation = a_problem(seed, faults=faults, tests=tests, single=single)
    advised = advise(table, situation)
    return Compared(
        optimum=Optimum(table, situation).cost(),
        advised=cost_of(by_advice, table, situation),
        shown=advised.expected,
        plain=advised.base,
        probable=cost_of(most_probable_part, table, situation),
        informed=cost_of(information_per_minute, table, situation),
    )


def _table(name: str, some: Sequence[Compared], sizes: Sizes) -> Table:
    rules = {
        "the advice": [one.excess(one.advised) for one in some],
        "the plain order of repairs": [one.excess(one.plain) for one in some],
        "most probable part first": [one.excess(one.probable) for one in some],
        "information per minute": [one.excess(one.informed) for one in some],
    }
    rows = []
    for rule, excess in rules.items():
        low, high = interval(excess, sizes.seed)
        rows.append((rule, _share(sum(excess) / len(excess)), f"{_share(low)} to {_share(high)}", _share(max(excess))))
    return Table(
        f"{name}, {len(some)} problems: cost above the cheapest policy there is",
        ("rule", "mean", "95 % interval", "worst"),
        tuple(rows),
        f"{sizes.faults} faults, {sizes.tests} tests, {COVERS} covers; the cheapest policy by exact dynamic "
        "programming. Cases drawn from the rules: proofbay simulate --cost.",
    )


def interval(excess: Sequence[float], seed: int) -> tuple[float, float]:
    """Of the mean, 95 %."""
    dice = np.random.default_rng(seed)
    means = dice.choice(np.array(excess), size=(RESAMPLED, len(excess))).mean(axis=1)
    low, high = np.quantile(means, (0.025, 0.975))
    return float(low), float(high)


def _goals(name: str, some: Sequence[Compared]) -> tuple[Goal, ...]:
    excess = [one.excess(one.advised) for one in some]
    dearer = sum(one.advised > one.plain * (1.0 + SAME_WITHIN) for one in some)
    above = sum(one.advised > one.shown * (1.0 + SAME_WITHIN) for one in some)
    return (
        Goal(f"{name}: mean excess of the advice", sum(excess) / len(excess), most=GOAL_MEAN, binding=True),
        Goal(f"{name}: worst excess of the advice", max(excess), most=GOAL_WORST, binding=True),
        Goal(f"{name}: advice dearer than the plain order", dearer, most=0, binding=True),
        Goal(f"{name}: advice dearer than the figure it showed", above, most=0, binding=True),
    )


def _share(excess: float) -> str:
    return f"{excess:.2%}"

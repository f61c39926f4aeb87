"""The cheapest possible policy of a small problem, by exact dynamic programming, and the cost of following advice."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np

from app.advice.expected_cost import advise
from app.advice.plan import Cover, Covers, Repair, Situation, Test
from app.advice.table import Table

Seen = frozenset[tuple[str, int]]
"""Outcomes of tests, by number."""


def a_problem(seed: int, *, faults: int = 5, tests: int = 5, single: bool = False) -> tuple[Table, Situation]:
    """Seeded: faults with chances, tests that show some of them, three shared covers."""
    dice = np.random.default_rng(seed)
    names = tuple(f"fault-{n}" for n in range(faults))
    priors = dice.dirichlet(np.ones(faults)) * (1.0 if single else 0.8)
    covers = {f"cover-{n}": Cover(float(dice.uniform(5, 40)), float(dice.uniform(5, 40))) for n in range(3)}

    def behind() -> Covers:
        return frozenset(name for name in covers if dice.random() < 0.35)

    worlds = [1 << n for n in range(faults)] if single else list(range(1, 1 << faults))
    inside = np.array([[world >> n & 1 for n in range(faults)] for world in worlds], dtype=bool)
    chances = priors if single else np.where(inside, priors, 1.0 - priors).prod(axis=1)
    shown = {}
    for n in range(tests):
        strengths = dice.choice([0.0, 0.0, 0.7, 0.92, 0.99], size=faults)
        normal = 0.97 * np.where(inside, 1.0 - strengths, 1.0).prod(axis=1)
        shown[f"test-{n}"] = np.array([normal, 1.0 - normal])
    table = Table(names, np.array(worlds, dtype=np.int64), chances / chances.sum(), shown)
    repairs = tuple(Repair(name, frozenset({name}), float(dice.uniform(20, 200)), behind()) for name in names)
    some = tuple(Test(name, float(dice.uniform(2, 40)), behind()) for name in shown)
    return table, Situation(some, repairs, covers, none_of_these=600.0)


class Followed:
    """Expected costs from the start: of the optimum, of the advice, and of the plain order without a test."""

    def __init__(self, table: Table, situation: Situation) -> None:
        self.table, self.situation = table, situation

    def _given(self, seen: Seen, done: frozenset[str]) -> Table | None:
        joint = self.table.chances.copy()
        for test, outcome in seen:
            joint *= self.table.shown[test][outcome]
        if joint.sum() < 1e-15:
            return None
        return replace(self.table, chances=joint / joint.sum()).in_vain(done)

    def _left(self, seen: Seen, done: frozenset[str], open: Covers, *, testing: bool = True) -> Situation:
        used = {name for name, _ in seen}
        return replace(
            self.situation,
            tests=tuple(t for t in self.situation.tests if testing and t.id not in used),
            repairs=tuple(r for r in self.situation.repairs if r.cures - done),
            open=open,
        )

    def optimum(self) -> float:
        """Over all policies: the state is what was seen, what was repaired, what is open."""

        @cache
        def cheapest(seen: Seen, done: frozenset[str], open: Covers) -> float:
            belief = self._given(seen, done)
            if belief is None:
                return 0.0
            left = self._left(seen, done, open)
            best = left.none_of_these if not left.repairs else float("inf")
            for repair in left.repairs:
                after = done | repair.cures
                cost = repair.cost + left.access(repair.covers)
                best = min(best, cost + (1.0 - belief.cured(after)) * cheapest(seen, after, open | repair.covers))
            for test in left.tests:
                cost = test.cost + left.access(test.covers)
                for outcome, chance in enumerate(belief.shown[test.id] @ belief.chances):
                    if chance > 1e-15:
                        cost += chance * cheapest(seen | {(test.id, outcome)}, done, open | test.covers)
                best = min(best, cost)
            return best

        return cheapest(frozenset(), frozenset(), self.situation.open)

    def advised(self, *, testing: bool = True) -> float:
        """Following the advice at every step; without `testing`, the advice among repairs alone."""

        @cache
        def cost(seen: Seen, done: frozenset[str], open: Covers) -> float:
            belief = self._given(seen, done)
            if belief is None:
                return 0.0
            left = self._left(seen, done, open, testing=testing)
            if not left.repairs:
                return left.none_of_these
            advice = advise(belief, left)
            if advice.test is not None:
                test = advice.test
                whole = test.cost + left.access(test.covers)
                for outcome, chance in enumerate(belief.shown[test.id] @ belief.chances):
                    if chance > 1e-15:
                        whole += chance * cost(seen | {(test.id, outcome)}, done, open | test.covers)
                return whole
            repair = advice.repair
            assert repair is not None
            after = done | repair.cures
            price = repair.cost + left.access(repair.covers)
            return price + (1.0 - belief.cured(after)) * cost(seen, after, open | repair.covers)

        return cost(frozenset(), frozenset(), self.situation.open)

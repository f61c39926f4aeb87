"""Small problems of what to do next, the cheapest policy there is for each, and what following a rule costs.

The optimum is exact dynamic programming over everything that can have been seen and repaired (what is open follows from
both): V(seen, repaired) = min over repairs and tests of chance x cost + the values they lead to, where a state's chance
is that of coming to it with the complaint still there.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import numpy as np

from app.advice.plan import Cover, Covers, Repair, Situation, Test
from app.advice.table import Masks, Numbers, Table

COVERS = 3
STRENGTHS = (0.0, 0.0, 0.7, 0.92, 0.99)
FALSE_ALARM = 0.03
NONE_OF_THESE = 600.0


def a_problem(seed: int, *, faults: int, tests: int, single: bool = False) -> tuple[Table, Situation]:
    """Seeded: faults with chances, tests that show some of them, three shared covers."""
    dice = np.random.default_rng(seed)
    names = tuple(f"fault-{n}" for n in range(faults))
    priors = dice.dirichlet(np.ones(faults)) * (1.0 if single else 0.8)
    covers = {f"cover-{n}": Cover(float(dice.uniform(5, 40)), float(dice.uniform(5, 40))) for n in range(COVERS)}

    def behind() -> Covers:
        return frozenset(name for name in covers if dice.random() < 0.35)

    worlds = [1 << n for n in range(faults)] if single else list(range(1, 1 << faults))
    inside = np.array([[world >> n & 1 for n in range(faults)] for world in worlds], dtype=bool)
    chances = priors if single else np.where(inside, priors, 1.0 - priors).prod(axis=1)
    shown = {}
    for n in range(tests):
        strengths = dice.choice(STRENGTHS, size=faults)
        normal = (1.0 - FALSE_ALARM) * np.where(inside, 1.0 - strengths, 1.0).prod(axis=1)
        shown[f"test-{n}"] = np.array([normal, 1.0 - normal])
    table = Table(names, np.array(worlds, dtype=np.int64), chances / chances.sum(), shown)
    repairs = tuple(Repair(name, frozenset({name}), float(dice.uniform(20, 200)), behind()) for name in names)
    some = tuple(Test(name, float(dice.uniform(2, 40)), behind()) for name in shown)
    return table, Situation(some, repairs, covers, none_of_these=NONE_OF_THESE)


class Optimum:
    """`seen`: one digit to the base 3 per test (not done, normal, abnormal); `done`: one bit per repair."""

    def __init__(self, table: Table, situation: Situation) -> None:
        self.table, self.situation = table, situation
        count = len(situation.tests)
        self.digits = np.array([[s // 3**t % 3 for t in range(count)] for s in range(3**count)]).reshape(
            3**count, count
        )
        self.tested = (self.digits > 0).sum(axis=1)
        self.values = np.zeros((len(self.digits), 1 << len(situation.repairs)))

    def cost(self) -> float:
        """Expected cost of the cheapest policy from the start."""
        chances = self._chances()
        for done in reversed(range(self.values.shape[1])):
            for level in reversed(range(len(self.situation.tests) + 1)):
                rows = np.flatnonzero(self.tested == level)
                self.values[rows, done] = self._best(rows, done, chances[rows, done])
        return float(self.values[0, 0])

    def _chances(self) -> Numbers:
        """(seen, done): P(seen, and the complaint still there after what was done)."""
        joint = np.tile(self.table.chances, (len(self.digits), 1))
        for number, test in enumerate(self.situation.tests):
            shown = np.vstack([np.ones(len(self.table.worlds)), self.table.shown[test.id]])
            joint *= shown[self.digits[:, number]]
        cures = [self.table.mask(repair.cures) for repair in self.situation.repairs]
        whole = [sum(mask for n, mask in enumerate(cures) if done >> n & 1) for done in range(self.values.shape[1])]
        still = np.array([(self.table.worlds & ~mask) != 0 for mask in whole])
        chances: Numbers = joint @ still.T
        return chances

    def _best(self, rows: Masks, done: int, chance: Numbers) -> Numbers:
        repairs, tests = self.situation.repairs, self.situation.tests
        left = [n for n in range(len(repairs)) if not done >> n & 1]
        best = np.full(len(rows), np.inf) if left else chance * self.situation.none_of_these
        for number in left:
            cost = repairs[number].cost + self._access(repairs[number].covers, rows, done)
            best = np.minimum(best, chance * cost + self.values[rows, done | 1 << number])
        for number, test in enumerate(tests):
            new = self.digits[rows, number] == 0
            after = np.where(new, rows, 0)
            both = sum(self.values[after + outcome * 3**number, done] for outcome in (1, 2))
            cost = test.cost + self._access(test.covers, rows, done)
            best = np.where(new, np.minimum(best, chance * cost + both), best)
        return best

    def _access(self, needed: Covers, rows: Masks, done: int) -> Numbers:
        """What is needed and neither open from the start, nor by a repair, nor by a test."""
        cost = np.zeros(len(rows))
        for name in needed - self.situation.open:
            if any(name in r.covers for n, r in enumerate(self.situation.repairs) if done >> n & 1):
                continue
            opening = [n for n, test in enumerate(self.situation.tests) if name in test.covers]
            shut = (self.digits[rows][:, opening] == 0).all(axis=1)
            cover = self.situation.covers[name]
            cost += shut * (cover.reach + cover.restore)
        return cost


Seen = frozenset[tuple[str, int]]
"""Outcomes of tests, by number."""
Rule = Callable[[Table, Situation], Test | Repair]
"""What to do next, from what is believed and what is left to do."""


def cost_of(rule: Rule, table: Table, situation: Situation) -> float:
    """Expected cost of asking the rule at every step and doing what it says."""

    @cache
    def cost(seen: Seen, done: frozenset[str], open: Covers) -> float:
        belief = _given(table, seen, done)
        if belief is None:
            return 0.0
        left = _left(situation, seen, done, open)
        if not left.repairs:
            return left.none_of_these
        match rule(belief, left):
            case Test() as test:
                whole = test.cost + left.access(test.covers)
                for outcome, chance in enumerate(belief.shown[test.id] @ belief.chances):
                    if chance > 0.0:
                        whole += float(chance) * cost(seen | {(test.id, outcome)}, done, open | test.covers)
                return whole
            case Repair() as repair:
                after = cost(seen, done | repair.cures, open | repair.covers)
                return repair.cost + left.access(repair.covers) + (1.0 - belief.cured(repair.cures)) * after

    return cost(frozenset(), frozenset(), situation.open)


def _given(table: Table, seen: Seen, done: frozenset[str]) -> Table | None:
    joint = table.chances.copy()
    for test, outcome in seen:
        joint *= table.shown[test][outcome]
    return replace(table, chances=joint / joint.sum()).in_vain(done) if joint.sum() > 0.0 else None


def _left(situation: Situation, seen: Seen, done: frozenset[str], open: Covers) -> Situation:
    used = {name for name, _ in seen}
    return replace(
        situation,
        tests=tuple(test for test in situation.tests if test.id not in used),
        repairs=tuple(repair for repair in situation.repairs if repair.cures - done),
        open=open,
    )

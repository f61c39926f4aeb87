"""Many ways the work can have gone, side by side, and what repairing on in the plain order costs from each.

The plain order: next comes the repair that cures most more per cost, access from what is open then included, with a
check after each, up to where it is cheaper to search on by hand. It looks only at what the tests have shown, what was
repaired and what is open, so going on after a repair in vain is the same order that was counted on before it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from app.advice.plan import Covers, Situation
from app.advice.table import Masks, Numbers, Table


@dataclass(frozen=True, slots=True)
class Paths:
    """`joint` (paths, worlds): chance of the path and the world together; a world that is cured has none left.

    `done` (paths,): bits of the faults put right; `open`, `used` (paths,): of the covers off, of the tests done.
    """

    joint: Numbers
    done: Masks
    open: Masks
    used: Masks

    @property
    def chance(self) -> Numbers:
        """(paths,): that the work comes to this path with the complaint still there."""
        mass: Numbers = self.joint.sum(axis=1)
        return mass

    def some(self, which: Masks) -> Paths:
        """These paths, by number."""
        return Paths(self.joint[which], self.done[which], self.open[which], self.used[which])


class Ground:
    """A situation and a table as arrays. `cures`, `costs`, `needs`, `again` (repairs,); `price` (covers,): both ways.

    `shown` (rows, worlds): the outcomes of all tests; those of a test are `outcomes` rows from `first` on.
    `alone` (faults,): what the cheapest repair of a fault costs from the start; 0 where none puts it right. `beyond`
    (worlds,): 1 where that is so of one of its faults.
    """

    def __init__(self, table: Table, situation: Situation) -> None:
        self.table, self.situation = table, situation
        needed = frozenset[str]().union(*(t.covers for t in situation.tests), *(r.covers for r in situation.repairs))
        self.covers = tuple(name for name in situation.covers if name in needed)
        self.cures = np.array([table.mask(repair.cures) for repair in situation.repairs], dtype=np.int64)
        self.costs = np.array([repair.cost for repair in situation.repairs], dtype=np.float64)
        self.needs = np.array([self.bits(repair.covers) for repair in situation.repairs], dtype=np.int64)
        self.again = np.array([repair.again for repair in situation.repairs], dtype=np.bool_)
        prices = (situation.covers[name] for name in self.covers)
        self.price = np.array([cover.reach + cover.restore for cover in prices], dtype=np.float64)
        self.test_costs = np.array([test.cost for test in situation.tests], dtype=np.float64)
        self.test_needs = np.array([self.bits(test.covers) for test in situation.tests], dtype=np.int64)
        shown = [table.shown[test.id] for test in situation.tests]
        sizes = np.array([len(rows) for rows in shown], dtype=np.int64)
        self.shown = np.concatenate([np.empty((0, len(table.worlds))), *shown])
        self.outcomes, self.first = sizes, np.cumsum(sizes) - sizes
        self.alone = cheapest_cures(table, situation)
        self.beyond = ((table.worlds & ~np.bitwise_or.reduce(self.cures, initial=0)) != 0).astype(np.float64)

    def start(self) -> Paths:
        """One path: now."""
        opened = np.array([self.bits(self.situation.open)], dtype=np.int64)
        nothing = np.zeros(1, dtype=np.int64)
        return Paths(self.table.chances[None, :], nothing, opened, nothing)

    def bits(self, covers: Covers) -> int:
        return sum(1 << number for number, cover in enumerate(self.covers) if cover in covers)

    def access(self, needs: Masks, opened: Masks) -> Numbers:
        """Cost of what is needed and not yet open, for every pair of the two shapes put together."""
        missing = needs & ~opened
        cost = np.zeros(missing.shape)
        for number, price in enumerate(self.price):
            cost += price * ((missing >> number) & 1)
        return cost

    def after_tests(self, paths: Paths, tests: Masks) -> tuple[Numbers, Paths, Masks]:
        """(paths,): cost of one test on each path, chance included, infinite where it is done already.

        With it the paths to which all its outcomes lead, and from which path each comes.
        """
        used = (paths.used >> tests) & 1 == 1
        cost = paths.chance * (self.test_costs[tests] + self.access(self.test_needs[tests], paths.open))
        outcomes_of = self.outcomes[tests]
        before = np.repeat(np.arange(len(tests)), outcomes_of)
        number = np.arange(len(before)) - (np.cumsum(outcomes_of) - outcomes_of)[before]
        row = self.first[tests][before] + number
        opened, after = paths.open | self.test_needs[tests], paths.used | (1 << tests)
        outcomes = Paths(paths.joint[before] * self.shown[row], paths.done[before], opened[before], after[before])
        return np.where(used, np.inf, cost), outcomes, before

    def after_repairs(self, paths: Paths, repairs: Masks) -> tuple[Numbers, Paths]:
        """(paths,): cost of one repair on each path, chance included; and the paths on which it was in vain.

        Infinite for what helps only after something else.
        """
        cost = paths.chance * (self.costs[repairs] + self.access(self.needs[repairs], paths.open))
        early = self.again[repairs] & (paths.done == 0)
        return np.where(early, np.inf, cost), self._repaired(paths, self.cures[repairs], self.needs[repairs])

    def most_telling(self, paths: Paths) -> Masks:
        """(paths,): the test not yet done that tells most for its cost about what makes the complaint; -1: none left.

        Information of the outcome about the world, Σ j log j − Σ p log p over outcomes, less the same of the worlds.
        """
        before = _x_log_x(paths.joint)
        outcome = paths.joint @ self.shown.T
        bits = before @ self.shown.T + paths.joint @ _x_log_x(self.shown).T - _x_log_x(outcome)
        told = np.add.reduceat(bits, self.first, axis=1) - (before.sum(axis=1) - _x_log_x(paths.chance))[:, None]
        price = self.test_costs + self.access(self.test_needs[None, :], paths.open[:, None])
        left = (paths.used[:, None] >> np.arange(len(price[0]))) & 1 == 0
        worth = np.where(left, told / np.maximum(price, 1e-9), -np.inf)
        return np.where(left.any(axis=1), worth.argmax(axis=1), -1)

    def _repaired(self, paths: Paths, cures: Masks, needs: Masks) -> Paths:
        done = paths.done | cures
        still = (self.table.worlds[None, :] & ~done[:, None]) != 0
        return replace(paths, joint=paths.joint * still, done=done, open=paths.open | needs)

    def searching_on(self, paths: Paths) -> Numbers:
        """(paths,): the named hours, in which whatever it is gets found; then what it takes to put that right.

        Infinite where it is more likely than not that repairs named here put it right.
        """
        beyond = 2.0 * (paths.joint @ self.beyond) >= paths.chance
        found = np.full(len(beyond), np.inf)
        if beyond.any():
            joint, left = paths.joint[beyond], self.table.worlds[None, :] & ~paths.done[beyond, None]
            repairs = sum(alone * ((left >> number) & 1) for number, alone in enumerate(self.alone))
            found[beyond] = (joint * (self.situation.none_of_these + repairs)).sum(axis=1)
        return found

    def plain(self, paths: Paths) -> tuple[Numbers, list[Masks], Masks]:
        """(paths,): expected cost of repairing on in the plain order, up to where searching on is cheapest.

        With it per step the repair's number on each path, and after how many steps each path searches on.
        """
        best, order = self.searching_on(paths), []
        spent, stops = np.zeros(len(paths.done)), np.zeros(len(paths.done), dtype=np.int64)
        for step in range(1, len(self.cures) + 1):
            which, price = self._next(paths)
            if (which < 0).all():
                break
            spent = spent + paths.chance * price
            order.append(which)
            does = which >= 0
            paths = self._repaired(paths, self.cures[which] * does, self.needs[which] * does)
            whole = spent + self.searching_on(paths)
            stops = np.where(whole <= best, step, stops)
            best = np.minimum(best, whole)
        at_the_end = spent + paths.chance * self.situation.none_of_these
        stops = np.where(at_the_end < best, len(order), stops)
        return np.minimum(best, at_the_end), order, stops

    def _next(self, paths: Paths) -> tuple[Masks, Numbers]:
        """The repair on each path that cures most more per cost, and its price; -1, at no price, where none is left."""
        more = self.cures[None, :] & ~paths.done[:, None]
        price = self.costs[None, :] + self.access(self.needs[None, :], paths.open[:, None])
        left = self.table.worlds[None, :] & ~paths.done[:, None]
        gone = (left[:, None, :] & ~self.cures[None, :, None]) == 0
        gain = np.where(gone, paths.joint[:, None, :], 0.0).sum(axis=2)
        early = self.again[None, :] & (paths.done == 0)[:, None]
        able = (more != 0) & ~early
        which = np.where(able, gain / np.maximum(price, 1e-9), -1.0).argmax(axis=1)
        rows = np.arange(len(which))
        any_left = able[rows, which]
        return np.where(any_left, which, -1), np.where(any_left, price[rows, which], 0.0)


def repeated(paths: Paths, times: int) -> Paths:
    """Each path so many times, one after another."""
    return paths.some(np.repeat(np.arange(len(paths.done)), times))


def _x_log_x(x: Numbers) -> Numbers:
    logs: Numbers = np.log2(x, out=np.zeros_like(x), where=x > 0.0)
    return x * logs


def cheapest_cures(table: Table, situation: Situation) -> Numbers:
    """(faults,): what the cheapest repair of each fault costs, covers included; 0 where none puts it right."""
    whole = [(repair.cures, repair.cost + situation.access(repair.covers)) for repair in situation.repairs]
    return np.array([min((cost for cures, cost in whole if fault in cures), default=0.0) for fault in table.faults])

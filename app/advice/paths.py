"""Many ways the work can have gone, side by side, and what repairing on in the plain order costs from each.

The plain order: next comes the repair that cures most more per cost, access from what is open then included, with a
check after each. It looks only at what the tests have shown, what was repaired and what is open, so going on after a
repair in vain is the same order that was counted on before it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from app.advice.plan import Covers, Situation, Test
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


class Ground:
    """A situation and a table as arrays. `cures`, `costs`, `needs` (repairs,); `price` (covers,): reach and restore."""

    def __init__(self, table: Table, situation: Situation) -> None:
        self.table, self.situation = table, situation
        self.covers = tuple(situation.covers)
        self.cures = np.array([table.mask(repair.cures) for repair in situation.repairs], dtype=np.int64)
        self.costs = np.array([repair.cost for repair in situation.repairs], dtype=np.float64)
        self.needs = np.array([self.bits(repair.covers) for repair in situation.repairs], dtype=np.int64)
        self.price = np.array([c.reach + c.restore for c in situation.covers.values()], dtype=np.float64)

    def start(self) -> Paths:
        """One path: now."""
        opened = np.array([self.bits(self.situation.open)], dtype=np.int64)
        nothing = np.zeros(1, dtype=np.int64)
        return Paths(self.table.chances[None, :], nothing, opened, nothing)

    def bits(self, covers: Covers) -> int:
        return sum(1 << number for number, cover in enumerate(self.covers) if cover in covers)

    def access(self, needs: Masks | np.int64, opened: Masks) -> Numbers:
        """Cost of what is needed and not yet open, for every pair of the two shapes put together."""
        missing = needs & ~opened
        cost = np.zeros(missing.shape)
        for number, price in enumerate(self.price):
            cost += price * ((missing >> number) & 1)
        return cost

    def after_test(self, paths: Paths, number: int, test: Test) -> tuple[Numbers, list[Paths]]:
        """Cost of this test on each path (chance included), and the paths that each of its outcomes leads to."""
        need = self.bits(test.covers)
        cost = paths.chance * (test.cost + self.access(np.int64(need), paths.open))
        opened, used = paths.open | need, paths.used | (1 << number)
        shown = self.table.shown[test.id]
        return cost, [replace(paths, joint=paths.joint * row, open=opened, used=used) for row in shown]

    def after_repair(self, paths: Paths, number: int) -> tuple[Numbers, Paths]:
        """Cost of this repair on each path (chance included), and the paths on which it was in vain."""
        cost = paths.chance * (self.costs[number] + self.access(self.needs[number], paths.open))
        return cost, self._repaired(paths, self.cures[number], self.needs[number])

    def _repaired(self, paths: Paths, cures: Masks, needs: Masks) -> Paths:
        done = paths.done | cures
        still = (self.table.worlds[None, :] & ~done[:, None]) != 0
        return replace(paths, joint=paths.joint * still, done=done, open=paths.open | needs)

    def plain(self, paths: Paths) -> tuple[Numbers, list[Masks]]:
        """(paths,): expected cost of repairing on in the plain order; and per step the repair's number on each path."""
        cost, order = np.zeros(len(paths.done)), []
        for _ in range(len(self.cures)):
            which, price = self._next(paths)
            cost += paths.chance * price
            order.append(which)
            paths = self._repaired(paths, self.cures[which], self.needs[which])
        return cost + paths.chance * self.situation.none_of_these, order

    def _next(self, paths: Paths) -> tuple[Masks, Numbers]:
        """The repair on each path that cures most more per cost; what puts nothing more right costs nothing more."""
        more = self.cures[None, :] & ~paths.done[:, None]
        price = self.costs[None, :] + self.access(self.needs[None, :], paths.open[:, None])
        after = paths.done[:, None] | self.cures[None, :]
        gone = (self.table.worlds[None, None, :] & ~after[:, :, None]) == 0
        gain = (gone * paths.joint[:, None, :]).sum(axis=2)
        worth = np.where(more != 0, gain / np.maximum(price, 1e-9), -1.0)
        which = worth.argmax(axis=1)
        rows = np.arange(len(which))
        needed = more[rows, which] != 0
        return which, np.where(needed, price[rows, which], 0.0)

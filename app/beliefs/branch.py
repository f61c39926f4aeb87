"""A pass that branches over the states of a test's parents: their joint chances with the test's outcome."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.beliefs.backward import Messages, closing_positions
from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Flags, Indices
from app.beliefs.effects import fire_bit, taken
from app.beliefs.forward import meet
from app.beliefs.kernel import Kernels, applied
from app.beliefs.part import ReadyStep
from app.beliefs.vectors import close_bit, exponents, open_bit


@dataclass(slots=True)
class Tree:
    """A branching pass on its way; `branch`: which states of its column's parents a vector column stands for."""

    kernels: Kernels
    messages: Messages
    columns: Indices
    vector: Numbers
    origin: Indices
    branch: Indices
    power: Indices
    tables: list[Numbers | None]

    def keep(self, which: Flags) -> None:
        """Go on with these vector columns only."""
        self.vector = self.vector[:, :, which]
        self.origin, self.branch, self.power = self.origin[which], self.branch[which], self.power[which]


def branch(kernels: Kernels, messages: Messages, columns: Indices, parents: Sequence[frozenset[int]]) -> list[Numbers]:
    """Per column (configurations of its parents, halves): joint chances; the first parent taken in varies slowest."""
    start = np.zeros((1, 2, columns.size))
    start[:, 0] = 1.0
    nothing = np.zeros(columns.size, dtype=np.int64)
    tree = Tree(kernels, messages, columns, start, np.arange(columns.size), nothing, nothing, [None] * columns.size)
    last = [max(at for at, ready in enumerate(kernels.part.steps) if ready.step.hypothesis in mine) for mine in parents]
    for at, ready in enumerate(kernels.part.steps[: max(last) + 1]):
        splits = np.array([ready.step.hypothesis in mine for mine in parents], dtype=np.bool_)
        _take_in(tree, at, ready, splits)
        _harvest(tree, at, np.array(last))
        if tree.origin.size:
            _close(tree, ready)
    return [table for table in tree.tables if table is not None]


def _take_in(tree: Tree, at: int, ready: ReadyStep, splits: Flags) -> None:
    for bit in ready.step.opens:
        tree.vector = open_bit(tree.vector, tree.kernels.part.leaks[bit])
    kernel = tree.kernels.at(at, tree.vector.size)
    split = splits[tree.origin]
    apart = split | ready.differs[tree.columns[tree.origin]]
    near, far = np.flatnonzero(apart), np.flatnonzero(~apart)
    if kernel is None:
        near, far = np.arange(tree.origin.size), near[:0]
    step = (ready.step.position, fire_bit)
    before, source = tree.vector[:, :, near], tree.columns[tree.origin[near]]
    states = [taken(before, state.weight, state.effects, step, source) for state in ready.states]
    some, whole = np.flatnonzero(split[near]), np.flatnonzero(~split[near])
    parts = [sum((state[:, :, whole] for state in states), np.zeros(()))]
    parts += [state[:, :, some] for state in states]
    if kernel is not None:
        parts.append(applied(kernel, tree.vector[:, :, far], ready.own_bits, ready.step.position))
    tree.vector = np.concatenate(parts, axis=2)
    number = np.repeat(np.arange(len(states)), some.size)
    old = tree.branch
    grown = np.tile(old[near[some]], len(states)) * len(states) + number
    tree.branch = np.concatenate([old[near[whole]], grown, old[far]])
    order = np.concatenate([near[whole], *(near[some] for _ in states), far])
    tree.origin, tree.power = tree.origin[order], tree.power[order]


def _harvest(tree: Tree, at: int, last: Indices) -> None:
    """Columns whose last parent this was meet the message from behind, and leave."""
    done = last[tree.origin] == at
    if not done.any():
        return
    origin = tree.origin[done]
    whole = tree.messages.whole.sum(axis=0)
    inverse = np.divide(1.0, whole, out=np.zeros_like(whole), where=whole > 0.0)
    power = tree.power[done] + (tree.messages.powers[at] - tree.messages.whole_power)[origin]
    met = meet(tree.vector[:, :, done], tree.messages.after[at][:, :, origin]) * np.ldexp(inverse[origin], power)
    for column in np.unique(origin):
        mine = origin == column
        table = np.empty((int(mine.sum()), 2))
        table[tree.branch[done][mine]] = met[:, mine].T
        tree.tables[column] = table
    tree.keep(~done)


def _close(tree: Tree, ready: ReadyStep) -> None:
    source = tree.columns[tree.origin]
    for bit, position in closing_positions(ready):
        tree.vector = close_bit(tree.vector, position, tree.kernels.part.closing[bit], source)
    if ready.step.closes:
        lift = exponents(tree.vector)
        tree.vector = tree.vector * np.ldexp(1.0, -lift)
        tree.power = tree.power + lift

"""Triggers with several members: each is followed from its members up to the node where all of them are below.

A piece is the vector of one trigger at one node: with some of its members below turned on, or with none.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush

import numpy as np

from app.beliefs.beliefs import Flags, Indices, Numbers
from app.beliefs.beside import beside
from app.beliefs.tree import Close, Merge, Tree
from app.beliefs.union import joint, united
from app.beliefs.upward import Shelf, Upward, closed, once, portions, ways_of


@dataclass(frozen=True, slots=True)
class Route:
    """The members' leaves, the steps up as (layer, node reached), and the node where all meet.

    `leaps`: nodes from which one step leads to the last node of their shelf, where no other member is on it.
    """

    leaves: tuple[int, ...]
    steps: tuple[tuple[int, int], ...]
    meets: int
    leaps: tuple[int, ...] = ()


def route(leaves: Collection[int], tree: Tree, *, leaping: bool = False) -> Route:
    """Lower nodes have lower numbers, so the lowest piece is always the next to be taken up."""
    if len(leaves) == 1:
        return Route(tuple(leaves), (), next(iter(leaves)))
    at = sorted(set(leaves))
    on_shelf = Counter(tree.shelf[leaf] for leaf in at)
    steps: dict[int, int] = {}
    leaps: list[int] = []
    while len(at) > 1:
        lowest = heappop(at)
        shelf = tree.shelf[lowest]
        on_shelf[shelf] -= 1
        above = tree.last_of.get(shelf, lowest)
        if leaping and above != lowest and not on_shelf[shelf]:
            leaps.append(lowest)
        else:
            layer, above = tree.above[lowest]
            if above in steps:
                continue
            steps[above] = layer
        on_shelf[tree.shelf[above]] += 1
        heappush(at, above)
    return Route(
        tuple(sorted(leaves)), tuple((steps[node], node) for node in sorted(steps)), at.pop(), tuple(sorted(leaps))
    )


@dataclass(slots=True)
class Pieces:
    """`on` (triggers,): whether each is followed on, or off. `shelves` like those of the tree; `of[(trigger, node)]`:
    which piece in each column of the trigger.
    """

    on: Flags
    shelves: list[Shelf]
    of: dict[tuple[int, int], Indices] = field(default_factory=dict)


def no_pieces(tree: Tree, on: Flags) -> Pieces:
    return Pieces(on, [Shelf(len(scope)) for scope in tree.scopes])


def climb(below: Upward, pieces: Pieces, routes: dict[int, Route], columns: dict[int, Indices]) -> None:
    """Take all pieces up their routes, layer by layer. `columns`: those each trigger is asked in."""
    by_layer: dict[int, list[tuple[int, int]]] = {}
    for trigger, its in routes.items():
        for number, node in its.steps:
            by_layer.setdefault(number, []).append((trigger, node))
    leaps = [(trigger, node) for trigger, its in routes.items() for node in its.leaps]
    for number in sorted(by_layer):
        layer = below.tree.layers[number]
        if leaps and not (isinstance(layer, Merge) and layer.within):
            _leap(below, pieces, leaps, columns)
            leaps = []
        step = _Step(below, pieces, by_layer[number], columns)
        if isinstance(layer, Merge):
            step.merge(layer)
        else:
            step.close(layer)


def _leap(below: Upward, pieces: Pieces, leaps: Sequence[tuple[int, int]], columns: dict[int, Indices]) -> None:
    """Put each piece together with all that stands beside it on its shelf."""
    tree = below.tree
    needed = np.zeros(below.ids.shape, dtype=np.bool_)
    for trigger, node in leaps:
        needed[node, columns[trigger]] = True
    others = beside(below, needed)
    by_shelf: dict[int, list[tuple[int, int]]] = {}
    for trigger, node in leaps:
        by_shelf.setdefault(tree.shelf[node], []).append((trigger, node))
    for shelf, mine in by_shelf.items():
        scope = tree.scopes[shelf]
        piece = np.concatenate([pieces.of[move] for move in mine])
        aside = np.concatenate([others.ids[node, columns[trigger]] for trigger, node in mine])
        count = others.shelves[shelf].count
        keys, place = once(piece * count + aside)
        piece, aside = np.divmod(keys, count)
        rest = others.shelves[shelf].vectors[:, aside]
        vectors = united(joint(scope, scope), pieces.shelves[shelf].vectors[:, piece], rest)
        numbers = pieces.shelves[shelf].add(vectors) + place
        sizes = [columns[trigger].size for trigger, _ in mine]
        for (trigger, _), its in zip(mine, portions(numbers, sizes), strict=True):
            pieces.of[trigger, tree.last_of[shelf]] = its


class _Step:
    """The pieces taken up through one layer: each once for all columns in which all below the node is alike."""

    def __init__(
        self, below: Upward, pieces: Pieces, moves: Sequence[tuple[int, int]], columns: dict[int, Indices]
    ) -> None:
        self.below, self.pieces, self.moves = below, pieces, moves
        self.sizes = [columns[trigger].size for trigger, _ in moves]
        move = np.repeat(np.arange(len(moves)), self.sizes)
        column = np.concatenate([columns[trigger] for trigger, _ in moves])
        self.above = np.array([node for _, node in moves])
        alike = below.ids[self.above[move], column]
        keys, self.place = once(move * (int(alike.max()) + 1) + alike)
        first = np.empty_like(keys)
        first[self.place] = np.arange(move.size)
        self.first, self.node, self.column = first, self.above[move[first]], column[first]
        self.on = pieces.on[[trigger for trigger, _ in moves]][move[first]]

    def merge(self, layer: Merge) -> None:
        left = self._side(layer.left, layer.shelves[0], layer)
        right = self._side(layer.right, layer.shelves[1], layer)
        self._keep(layer.shelves[2], _put_together(layer, left, right, self.on))

    def close(self, layer: Close) -> None:
        """Weighed, and scaled as all of the node is."""
        ways = ways_of(layer, self.below)[self.column]
        shelf, above = layer.shelves
        which = self._which([layer.node] * len(self.moves))
        ids, shelves = self.below.ids, self.below.shelves
        lift = shelves[shelf].lift[ids[layer.node, self.column]] - shelves[above].lift[ids[layer.out, self.column]]
        vectors = closed(layer, self.pieces.shelves[shelf].vectors[:, which], ways, self.below)
        self._keep(above, np.ldexp(vectors, lift))

    def _side(self, nodes: Indices, shelf: int, layer: Merge) -> _Side:
        which = self._which(nodes[self.above - layer.out].tolist())
        whole = self.below.ids[nodes[self.node - layer.out], self.column]
        return _Side(self.below.shelves[shelf], whole, self.pieces.shelves[shelf], which)

    def _which(self, below: Sequence[int]) -> Indices:
        """The piece of each trigger at the node below the one it is moved to, -1 where it has none there."""
        none = np.full(max(self.sizes), -1)
        found = []
        for (trigger, _), node, size in zip(self.moves, below, self.sizes, strict=True):
            piece = self.pieces.of.get((trigger, node))
            found.append(none[:size] if piece is None else piece)
        which: Indices = np.concatenate(found)[self.first]
        return which

    def _keep(self, shelf: int, vectors: Numbers) -> None:
        numbers = self.pieces.shelves[shelf].add(vectors) + self.place
        for move, mine in zip(self.moves, portions(numbers, self.sizes), strict=True):
            self.pieces.of[move] = mine


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a merge, item by item: which vector all of it is, and which piece its trigger has, -1 where none."""

    wholes: Shelf
    whole: Indices
    pieces: Shelf
    piece: Indices

    @property
    def has(self) -> Flags:
        flags: Flags = self.piece >= 0
        return flags

    def all(self, items: Indices) -> Numbers:
        vectors: Numbers = self.wholes.vectors[:, self.whole[items]]
        return vectors

    def own(self, items: Indices) -> Numbers:
        vectors: Numbers = self.pieces.vectors[:, self.piece[items]]
        return vectors

    def with_own(self, items: Indices, those: Flags) -> Numbers:
        """All of it; of those the piece."""
        vectors, some = self.all(items), np.flatnonzero(those)
        vectors[:, some] = self.own(items[some])
        return vectors

    def without_own(self, items: Indices) -> Numbers:
        """All of it less the piece, where there is one."""
        vectors, some = self.all(items), np.flatnonzero(self.has[items])
        vectors[:, some] = np.maximum(vectors[:, some] - self.own(items[some]), 0.0)
        return vectors


def _put_together(layer: Merge, left: _Side, right: _Side, on: Flags) -> Numbers:
    """Off: none on either side. On: some on the left whatever holds on the right, or none on the left and some on the
    right; the difference in this loses no digits, as all of the left with some on the right is a part of the whole sum.
    """
    first, second = np.flatnonzero(left.has), np.flatnonzero(right.has & (on | ~left.has))
    pairs = (
        (left.own(first), right.with_own(first, right.has[first] & ~on[first])),
        (left.without_own(second), right.own(second)),
    )
    both = united(layer.joint, *(np.concatenate(vectors, axis=1) for vectors in zip(*pairs, strict=True)))
    found = np.zeros((both.shape[0], on.size))
    found[:, first] = both[:, : first.size]
    found[:, second] += both[:, first.size :]
    return found

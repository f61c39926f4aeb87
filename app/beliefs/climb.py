"""Triggers with several members: each is followed from its members up to the node where all of them are below.

A piece is the pair of vectors of one trigger at one node: with none of its members below turned on, and with some.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

import numpy as np

from app.beliefs.beliefs import Indices, Numbers
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
    at = set(leaves)
    steps: dict[int, int] = {}
    leaps: list[int] = []
    while len(at) > 1:
        lowest = min(at)
        at.discard(lowest)
        shelf = tree.shelf[lowest]
        last = tree.last_of.get(shelf, lowest)
        if leaping and last != lowest and all(tree.shelf[other] != shelf for other in at):
            leaps.append(lowest)
            at.add(last)
            continue
        layer, above = tree.above[lowest]
        steps[above] = layer
        at.add(above)
    return Route(
        tuple(sorted(leaves)), tuple((steps[node], node) for node in sorted(steps)), at.pop(), tuple(sorted(leaps))
    )


@dataclass(slots=True)
class Pieces:
    """`off`, `on`: shelves like those of the tree. `of[(trigger, node)]`: which piece in each column of the trigger."""

    off: list[Shelf]
    on: list[Shelf]
    of: dict[tuple[int, int], Indices] = field(default_factory=dict)

    def add(self, shelf: int, off: Numbers, on: Numbers) -> int:
        """The number of the first."""
        self.on[shelf].add(on)
        return self.off[shelf].add(off)


def no_pieces(tree: Tree) -> Pieces:
    off, on = ([Shelf(len(scope)) for scope in tree.scopes] for _ in range(2))
    return Pieces(off, on)


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
        off, on = (united(joint(scope, scope), side[shelf].vectors[:, piece], rest) for side in (pieces.off, pieces.on))
        numbers = pieces.add(shelf, off, on) + place
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
        node = np.array([node for _, node in moves])
        alike = below.ids[node[move], column]
        keys = move * (int(alike.max()) + 1) + alike
        _, first, self.place = np.unique(keys, return_index=True, return_inverse=True)
        self.first, self.node, self.column = first, node[move][first], column[first]

    def merge(self, layer: Merge) -> None:
        """Some on: some on the left whatever holds on the right, or none on the left and some on the right."""
        left = self._side(layer.left, layer.shelves[0], layer)
        right = self._side(layer.right, layer.shelves[1], layer)
        pairs = (
            (left.off, right.off),
            (left.on, right.whole[:, left.has]),
            (left.off[:, right.has], right.on),
        )
        found = united(layer.joint, *(np.concatenate(vectors, axis=1) for vectors in zip(*pairs, strict=True)))
        count, cut = self.node.size, self.node.size + left.has.size
        on = np.zeros((found.shape[0], count))
        on[:, left.has] = found[:, count:cut]
        on[:, right.has] += found[:, cut:]
        self._keep(layer.shelves[2], found[:, :count], on)

    def close(self, layer: Close) -> None:
        """Both vectors weighed, and scaled as all of the node is."""
        ways = ways_of(layer, self.below)[self.column]
        shelf, above = layer.shelves
        which = self._which({node: layer.node for _, node in self.moves})
        ids, shelves = self.below.ids, self.below.shelves
        lift = shelves[shelf].lift[ids[layer.node, self.column]] - shelves[above].lift[ids[layer.out, self.column]]
        off, on = (
            np.ldexp(closed(layer, side[shelf].vectors[:, which], ways, self.below), lift)
            for side in (self.pieces.off, self.pieces.on)
        )
        self._keep(above, off, on)

    def _side(self, nodes: Indices, shelf: int, layer: Merge) -> _Side:
        which = self._which({node: int(nodes[node - layer.out]) for _, node in self.moves})
        whole = self.below.shelves[shelf].vectors[:, self.below.ids[nodes[self.node - layer.out], self.column]]
        has = np.flatnonzero(which >= 0)
        off = whole.copy()
        off[:, has] = self.pieces.off[shelf].vectors[:, which[has]]
        return _Side(whole, off, self.pieces.on[shelf].vectors[:, which[has]], has)

    def _which(self, below: dict[int, int]) -> Indices:
        """The piece of each trigger at the node below, -1 where it has none there."""
        found = []
        for (trigger, node), size in zip(self.moves, self.sizes, strict=True):
            piece = self.pieces.of.get((trigger, below[node]))
            found.append(np.full(size, -1) if piece is None else piece)
        which: Indices = np.concatenate(found)[self.first]
        return which

    def _keep(self, shelf: int, off: Numbers, on: Numbers) -> None:
        numbers = self.pieces.add(shelf, off, on) + self.place
        for move, mine in zip(self.moves, portions(numbers, self.sizes), strict=True):
            self.pieces.of[move] = mine


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a merge: all of it, the same with the trigger off, and for those in `has` with it on."""

    whole: Numbers
    off: Numbers
    on: Numbers
    has: Indices

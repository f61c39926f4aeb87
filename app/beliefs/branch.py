"""The joint chances of the states of a test's parents, each parent followed up state by state to where all meet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import prod

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Numbers
from app.beliefs.climb import Route, route
from app.beliefs.contexts import Context
from app.beliefs.downward import downward
from app.beliefs.run_part import tree_for
from app.beliefs.tree import Close, Merge, Tree
from app.beliefs.union import united
from app.beliefs.upward import Upward, closed, upward, ways_of


def branch(tree: Tree, columns: Sequence[tuple[Context, int]], absorbed: Absorbed) -> list[tuple[Numbers, int]]:
    """Per (context, test) the chance of its reports with each way the states of the test's parents can be.

    Each (ways,) with a power of two to be multiplied by; the order of the ways depends on the part alone.
    """
    contexts = [context for context, _ in columns]
    tree = tree_for(tree, contexts, absorbed)
    below = upward(tree, contexts, absorbed)
    leaf = {hypothesis: node for node, hypothesis in enumerate(tree.hypotheses)}
    routes = [route([leaf[h] for h in absorbed.parents[test] if h in leaf], tree) for _, test in columns]
    needed = np.zeros(below.ids.shape, dtype=np.bool_)
    needed[[its.meets for its in routes], range(len(columns))] = True
    down = downward(below, needed)
    whole, power = below.whole()
    branches = _Branches(below, routes)
    branches.take_up()
    found = []
    for column, its in enumerate(routes):
        worth = down.shelves[tree.shelf[its.meets]].vectors[:, down.ids[its.meets, column]]
        chances = worth @ branches.at[column, its.meets]
        total = chances.sum()
        found.append((chances * (whole[column] / total if total > 0.0 else 0.0), int(power[column])))
    return found


class _Branches:
    """Each column's vectors at the nodes of its route: one for each way the states of the parents below can be."""

    def __init__(self, below: Upward, routes: Sequence[Route]) -> None:
        self.below, self.routes = below, routes
        self.at: dict[tuple[int, int], Numbers] = {}
        for column, its in enumerate(routes):
            for node in its.leaves:
                leaves, item = below.leaves[below.tree.shelf[node]], below.ids[node, column]
                start = leaves.starts[item]
                self.at[column, node] = leaves.vectors[:, start : start + leaves.sizes[item]]

    def take_up(self) -> None:
        """Layer by layer; columns in which as many ways meet as many are put together in one go."""
        by_layer: dict[int, list[tuple[int, int]]] = {}
        for column, its in enumerate(self.routes):
            for number, node in its.steps:
                by_layer.setdefault(number, []).append((column, node))
        for number in sorted(by_layer):
            layer = self.below.tree.layers[number]
            if isinstance(layer, Merge):
                self._merge(layer, by_layer[number])
            else:
                self._close(layer, by_layer[number])

    def _merge(self, layer: Merge, moves: Sequence[tuple[int, int]]) -> None:
        by_size: dict[tuple[int, int], list[tuple[int, int, Numbers, Numbers]]] = {}
        for column, node in moves:
            left, right = (self._vectors(column, n) for n in layer.below(node))
            by_size.setdefault((left.shape[1], right.shape[1]), []).append((column, node, left, right))
        for (ways, others), alike in by_size.items():
            left = np.repeat(np.concatenate([move[2] for move in alike], axis=1), others, axis=1)
            right = np.stack([move[3] for move in alike], axis=1)[:, :, None, :]
            right = np.broadcast_to(right, (right.shape[0], len(alike), ways, others)).reshape(right.shape[0], -1)
            found = united(layer.joint, left, right)
            for (column, node, *_), its in zip(alike, np.split(found, len(alike), axis=1), strict=True):
                self.at[column, node] = its

    def _close(self, layer: Close, moves: Sequence[tuple[int, int]]) -> None:
        below, (shelf, above) = self.below, layer.shelves
        those = [self.at[column, layer.node] for column, _ in moves]
        sizes = [some.shape[1] for some in those]
        columns = np.array([column for column, _ in moves])
        lift = below.shelves[shelf].lift[below.ids[layer.node, columns]]
        lift = np.repeat(lift - below.shelves[above].lift[below.ids[layer.out, columns]], sizes)
        ways = np.repeat(ways_of(layer, below)[columns], sizes)
        found = np.ldexp(closed(layer, np.concatenate(those, axis=1), ways, below), lift)
        for move, its in zip(moves, np.split(found, np.cumsum(sizes)[:-1], axis=1), strict=True):
            self.at[move] = its

    def _vectors(self, column: int, node: int) -> Numbers:
        """With one way only where none of the parents is below."""
        found = self.at.get((column, node))
        if found is None:
            below = self.below
            found = below.shelves[below.tree.shelf[node]].vectors[:, [below.ids[node, column]]]
        return found


def configurations(parents: Iterable[int], absorbed: Absorbed) -> int:
    """How many ways the states of these hypotheses can be."""
    return prod(len(absorbed.hypotheses[h].states) for h in parents)

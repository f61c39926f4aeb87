"""The joint chances of the states of a test's parents, each parent followed up state by state to where all meet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import prod

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Numbers
from app.beliefs.climb import route
from app.beliefs.contexts import Context
from app.beliefs.downward import downward
from app.beliefs.run_part import tree_for
from app.beliefs.tree import Merge, Tree
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
    found = []
    for column, its in enumerate(routes):
        at: dict[int, Numbers] = {node: _states(below, node, column) for node in its.leaves}
        for layer, node in its.steps:
            at[node] = _taken_up(below, layer, (node, column), at)
        worth = down.shelves[tree.shelf[its.meets]].vectors[:, down.ids[its.meets, column]]
        chances = worth @ at[its.meets]
        total = chances.sum()
        found.append((chances * (whole[column] / total if total > 0.0 else 0.0), int(power[column])))
    return found


def _states(below: Upward, node: int, column: int) -> Numbers:
    leaves, item = below.leaves[below.tree.shelf[node]], below.ids[node, column]
    start = leaves.starts[item]
    return leaves.vectors[:, start : start + leaves.sizes[item]]


def _taken_up(below: Upward, number: int, reached: tuple[int, int], at: dict[int, Numbers]) -> Numbers:
    node, column = reached
    layer = below.tree.layers[number]
    if not isinstance(layer, Merge):
        branches = at[layer.node]
        ways = np.full(branches.shape[1], ways_of(layer, below)[column])
        shelf, above = layer.shelves
        lift = below.shelves[shelf].lift[below.ids[layer.node, column]]
        lift = lift - below.shelves[above].lift[below.ids[layer.out, column]]
        scaled: Numbers = np.ldexp(closed(layer, branches, ways, below), lift)
        return scaled
    left, right = (at[n] if n in at else _whole(below, n, column) for n in layer.below(node))
    return united(layer.joint, np.repeat(left, right.shape[1], axis=1), np.tile(right, left.shape[1]))


def _whole(below: Upward, node: int, column: int) -> Numbers:
    return below.shelves[below.tree.shelf[node]].vectors[:, [below.ids[node, column]]]


def configurations(parents: Iterable[int], absorbed: Absorbed) -> int:
    """How many ways the states of these hypotheses can be."""
    return prod(len(absorbed.hypotheses[h].states) for h in parents)

"""From the root down: what each set of bits explained below a node is worth, given all the rest."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.beliefs.beliefs import Flags, Indices, Numbers
from app.beliefs.tree import Close, Merge
from app.beliefs.union import seen_from_left, seen_from_right
from app.beliefs.upward import Shelf, Upward, once, ways_of


@dataclass(slots=True)
class Downward:
    """`ids` (nodes, columns): which vector of its shelf says what a node is worth in a column; -1: not asked.

    A worth has a scale of its own: only ratios within one column count.
    """

    below: Upward
    ids: Indices
    shelves: list[Shelf]


def downward(below: Upward, needed: Flags) -> Downward:
    """The worth of the nodes in the columns that are needed (nodes, columns)."""
    tree = below.tree
    for layer in tree.layers:
        if isinstance(layer, Merge):
            needed[layer.out : layer.out + layer.left.size] |= needed[layer.left] | needed[layer.right]
        else:
            needed[layer.out] |= needed[layer.node]
    down = Downward(below, np.full(needed.shape, -1), [Shelf(len(scope)) for scope in tree.scopes])
    root = tree.nodes - 1
    down.ids[root] = down.shelves[tree.shelf[root]].add(np.ones((1, 1)))
    for layer in reversed(tree.layers):
        if isinstance(layer, Merge):
            _into(down, layer, needed, to_left=True)
            _into(down, layer, needed, to_left=False)
        else:
            _unclose(down, layer, needed)
    return down


def _into(down: Downward, layer: Merge, needed: Flags, *, to_left: bool) -> None:
    nodes, others = (layer.left, layer.right) if to_left else (layer.right, layer.left)
    at, column = np.nonzero(needed[nodes])
    if not at.size:
        return
    mine, other = (layer.shelves[0], layer.shelves[1]) if to_left else (layer.shelves[1], layer.shelves[0])
    beside = down.below.shelves[other]
    key = down.ids[layer.out + at, column] * beside.count + down.below.ids[others[at], column]
    pairs, place = once(key)
    worth, item = np.divmod(pairs, beside.count)
    seen = seen_from_left if to_left else seen_from_right
    vectors = seen(layer.joint, beside.vectors[:, item], down.shelves[layer.shelves[2]].vectors[:, worth])
    down.ids[nodes[at], column] = down.shelves[mine].add(vectors) + place


def _unclose(down: Downward, layer: Close, needed: Flags) -> None:
    column = np.flatnonzero(needed[layer.node])
    if not column.size:
        return
    bits = len(layer.bits)
    pairs, place = once(down.ids[layer.out, column] << bits | ways_of(layer, down.below)[column])
    worth, way = pairs >> bits, pairs & (1 << bits) - 1
    vectors = _opened(layer, down.shelves[layer.shelves[1]].vectors[:, worth], way, down.below)
    lift = np.frexp(vectors.max(axis=0))[1]
    down.ids[layer.node, column] = down.shelves[layer.shelves[0]].add(np.ldexp(vectors, -lift)) + place


def _opened(layer: Close, vectors: Numbers, ways: Indices, below: Upward) -> Numbers:
    """The adjoint of closing: each half is worth its weight."""
    items = vectors.shape[1]
    for at, (bit, position) in reversed(list(enumerate(layer.bits))):
        weights = np.array(below.closing[bit].weights)[ways >> at & 1]
        rest = vectors.reshape(-1, 1, 1 << position, items)
        vectors = (rest * weights.T[:, None, :]).reshape(-1, items)
    return vectors

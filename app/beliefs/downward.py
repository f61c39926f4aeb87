"""From the root down: what each set of bits explained below a node is worth, given all the rest."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

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
            _into(down, layer, needed)
        else:
            _unclose(down, layer, needed)
    return down


def _into(down: Downward, layer: Merge, needed: Flags) -> None:
    """To the left and to the right; leaves of one shelf see the same way from either side."""
    left, right, above = layer.shelves
    if layer.within:
        _seen(down, needed, layer.both(), layer.shelves, partial(seen_from_left, layer.joint))
    else:
        made = np.arange(layer.out, layer.out + layer.left.size)
        from_left, from_right = (partial(seen, layer.joint) for seen in (seen_from_left, seen_from_right))
        _seen(down, needed, (layer.left, layer.right, made), (left, right, above), from_left)
        _seen(down, needed, (layer.right, layer.left, made), (right, left, above), from_right)


def _seen(
    down: Downward,
    needed: Flags,
    pairs: tuple[Indices, Indices, Indices],
    shelves: tuple[int, int, int],
    seen: Callable[[Numbers, Numbers], Numbers],
) -> None:
    """What nodes are worth, given the other of each and what the two make; `shelves` of these three."""
    nodes, others, made = pairs
    at, column = np.nonzero(needed[nodes])
    if not at.size:
        return
    mine, beside, above = down.shelves[shelves[0]], down.below.shelves[shelves[1]], down.shelves[shelves[2]]
    keys, place = once(down.ids[made[at], column] * beside.count + down.below.ids[others[at], column])
    worth, item = np.divmod(keys, beside.count)
    down.ids[nodes[at], column] = mine.add(seen(beside.vectors[:, item], above.vectors[:, worth])) + place


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

"""What stands beside a node on its own shelf: all other leaves there, put together.

With it a piece is taken from its node to the last node of the shelf in one step.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.beliefs.beliefs import Flags, Indices, Numbers
from app.beliefs.tree import Merge
from app.beliefs.union import united
from app.beliefs.upward import Shelf, Upward, once


@dataclass(slots=True)
class Beside:
    """`ids` (nodes, columns): which vector of its shelf stands beside a node in a column; -1: not asked."""

    below: Upward
    ids: Indices
    shelves: list[Shelf]


def beside(below: Upward, needed: Flags) -> Beside:
    """For the nodes in the columns that are needed (nodes, columns); none is the last of its shelf."""
    tree = below.tree
    pairings = [layer for layer in tree.layers if isinstance(layer, Merge) and layer.within]
    for layer in pairings:
        needed[layer.out : layer.out + layer.left.size] |= needed[layer.left] | needed[layer.right]
    found = Beside(below, np.full(needed.shape, -1), [Shelf(len(scope)) for scope in tree.scopes])
    for layer in reversed(pairings):
        _into(found, layer, needed)
    return found


def _into(found: Beside, layer: Merge, needed: Flags) -> None:
    """Beside a node stands the other of its pair, and what stands beside the two."""
    nodes, others, made = layer.both()
    at, column = np.nonzero(needed[nodes])
    if not at.size:
        return
    shelf = layer.shelves[0]
    whole = found.below.shelves[shelf]
    keys = (found.ids[made[at], column] + 1) * whole.count + found.below.ids[others[at], column]
    pairs, place = once(keys)
    further, item = np.divmod(pairs, whole.count)
    vectors: Numbers = whole.vectors[:, item]
    on = np.flatnonzero(further)
    if on.size:
        vectors[:, on] = united(layer.joint, vectors[:, on], found.shelves[shelf].vectors[:, further[on] - 1])
    found.ids[nodes[at], column] = found.shelves[shelf].add(vectors) + place

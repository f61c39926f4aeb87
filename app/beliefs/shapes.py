"""How likely states explain exactly each set of bits, worked out for many of them at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.beliefs.beliefs import Indices, Numbers
from app.beliefs.growth import Growth
from app.beliefs.sprigs import Bundle

TOGETHER = 1 << 17
"""So many numbers are worked on at a time: they stay in the cache."""


@dataclass(frozen=True, slots=True)
class _Rows:
    """What is worked out: each node once for all contexts in which it is alike, and what hangs on it by switches.

    `fires`, `quiet` (rows, bits). On row r hang `hung[first[r] : first[r] + count[r]]`, each with the chance that it
    acts, and its factor when it does.
    """

    fires: Numbers
    quiet: Numbers
    first: Indices
    count: Indices
    hung: Indices
    acts: Numbers
    factor: Numbers


def vectors_of(growth: Growth, bundle: Bundle, bits: int) -> Numbers:
    """(2^bits, states) for all that is grown, without the factors of the states."""
    row_of, nodes = _once_each(growth)
    rows = _rows(growth, bundle, (row_of, nodes), bits)
    states, place = np.unique(row_of[growth.states], return_inverse=True)
    room = max(1, TOGETHER >> bits)
    pieces = []
    for start in range(0, states.size, room):
        some = states[start : start + room]
        nothing_yet = np.zeros((1 << bits, some.size))
        nothing_yet[0] = 1.0
        pieces.append(_acted(rows, nothing_yet, some))
    found: Numbers = np.concatenate(pieces, axis=1)[:, place.reshape(-1)]
    return found


def _acted(rows: _Rows, vectors: Numbers, who: Indices) -> Numbers:
    """What is explained once these rows have acted too: their leaves, then what hangs on them, one after another."""
    items = who.size
    fires, quiet = np.ascontiguousarray(rows.fires[who].T), np.ascontiguousarray(rows.quiet[who].T)
    for bit in np.flatnonzero(fires.any(axis=1)).tolist():
        halves = vectors.reshape(-1, 2, 1 << bit, items)
        halves[:, 1] += halves[:, 0] * fires[bit]
        halves[:, 0] *= quiet[bit]
    count = rows.count[who]
    for number in range(int(count.max(initial=0))):
        has = np.flatnonzero(count > number)
        edge = rows.first[who[has]] + number
        before = vectors if has.size == items else vectors.take(has, axis=1)
        acts = rows.acts[edge]
        acted = _acted(rows, before.copy(), rows.hung[edge])
        acted *= acts * rows.factor[edge]
        before *= 1.0 - acts
        before += acted
        if before is not vectors:
            vectors[:, has] = before
    return vectors


def _once_each(growth: Growth) -> tuple[Indices, Indices]:
    """The row of each node that carries (or is a state), and a node for each row."""
    used = np.flatnonzero(growth.carries | (growth.above < 0))
    _, first, place = np.unique(_alike(growth)[used], return_index=True, return_inverse=True)
    row_of = np.full(growth.base.size, -1)
    row_of[used] = place
    return row_of, used[first]


def _alike(growth: Growth) -> Indices:
    """The same number for nodes that have the same leaves on bits, and the same hanging on them with equal factors."""
    number = growth.base.copy()
    leaves = _own_leaves(growth)
    edges = np.flatnonzero(growth.carries & (growth.above >= 0))
    edges = edges[~growth.like_base[growth.above[edges]]]
    edges = edges[np.argsort(growth.above[edges], kind="stable")]
    rank = _ranks(growth.above[edges])
    own = np.flatnonzero(~growth.like_base)
    content = np.zeros((own.size, 2 + 2 * (int(rank.max(initial=-1)) + 1)), dtype=np.int64)
    content[:, 0], content[:, 1] = growth.base[own], leaves[own]
    place = np.full(number.size, -1)
    place[own] = np.arange(own.size)
    content[place[growth.above[edges]], 3 + 2 * rank] = growth.factor[edges].view(np.int64)
    following = int(number.max(initial=0)) + 1
    for level in range(int(growth.depth[own].max(initial=0)), -1, -1):
        mine = np.flatnonzero(growth.depth[own] == level)
        here = np.flatnonzero(growth.depth[edges] == level + 1)
        content[place[growth.above[edges[here]]], 2 + 2 * rank[here]] = number[edges[here]] + 1
        number[own[mine]] = following + _equal_rows(content[mine])
        following += mine.size
    return number


def _equal_rows(content: Indices) -> Indices:
    """The same number for equal rows; compared as bytes, which is several times faster than number by number."""
    as_bytes = content.view(np.dtype((np.void, content.dtype.itemsize * content.shape[1]))).reshape(-1)
    _, place = np.unique(as_bytes, return_inverse=True)
    return place.reshape(-1)


def _own_leaves(growth: Growth) -> Indices:
    """Which leaves a node has that only some contexts have, as a number; 0: none."""
    leaves: dict[int, tuple[tuple[int, float, float], ...]] = {}
    for node, *leaf in growth.leaves:
        place, fires, quiet = leaf
        leaves[node] = (*leaves.get(node, ()), (int(place), fires, quiet))
    known: dict[tuple[tuple[int, float, float], ...], int] = {}
    found = np.zeros(growth.base.size, dtype=np.int64)
    for node, some in leaves.items():
        found[node] = known.setdefault(some, len(known) + 1)
    return found


def _rows(growth: Growth, bundle: Bundle, numbered: tuple[Indices, Indices], bits: int) -> _Rows:
    row_of, nodes = numbered
    base = growth.base[nodes]
    missing = bits - bundle.fires.shape[1]
    fires = np.concatenate([bundle.fires[base], np.zeros((base.size, missing))], axis=1)
    quiet = np.concatenate([bundle.quiet[base], np.ones((base.size, missing))], axis=1)
    for node, place, chance, silent in growth.leaves:
        fires[row_of[node], place], quiet[row_of[node], place] = chance, silent
    unlike = np.zeros(growth.base.size, dtype=np.bool_)
    unlike[nodes] = True
    below = np.flatnonzero((row_of >= 0) & (growth.above >= 0) & unlike[growth.above])
    below = below[np.argsort(row_of[growth.above[below]], kind="stable")]
    count = np.bincount(row_of[growth.above[below]], minlength=nodes.size)
    acts, factor = bundle.acts[growth.base[below]], growth.factor[below]
    return _Rows(fires, quiet, np.cumsum(count) - count, count, row_of[below], acts, factor)


def _ranks(ordered: Indices) -> Indices:
    """0, 1, … within each run of equal numbers."""
    if not ordered.size:
        return ordered
    fresh = np.concatenate([[True], ordered[1:] != ordered[:-1]])
    start = np.maximum.accumulate(np.where(fresh, np.arange(ordered.size), 0))
    ranks: Indices = np.arange(ordered.size) - start
    return ranks

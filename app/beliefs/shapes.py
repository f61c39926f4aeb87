"""How likely states explain exactly each set of bits, worked out for many of them at once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from app.beliefs.beliefs import Indices, Numbers
from app.beliefs.growth import Growth
from app.beliefs.sprigs import Bundle
from app.beliefs.union import in_order, joint, united


@dataclass(slots=True)
class _Rows:
    """What is worked out: each node once for all contexts in which it is alike, and what hangs on it by switches.

    `fires`, `quiet` (rows, bits). Hanging: `onto`, `hung` (rows), with the chance that it acts, times its factor.
    `height`: what hangs on a row is lower; `mask`: the bits that it can explain.
    """

    fires: Numbers
    quiet: Numbers
    onto: Indices
    hung: Indices
    acts: Numbers
    factor: Numbers
    height: Indices
    mask: Indices


def vectors_of(growth: Growth, bundle: Bundle, bits: int) -> Numbers:
    """(2^bits, states) for all that is grown, without the factors of the states."""
    row_of, nodes = _once_each(growth)
    rows = _rows(growth, bundle, (row_of, nodes), bits)
    states = np.unique(row_of[growth.states])
    rows.height[states], rows.mask[states] = rows.height.max(initial=0) + 1, (1 << bits) - 1
    place = np.zeros(nodes.size, dtype=np.int64)
    done: dict[tuple[int, int], Numbers] = {}
    for kind, members in _kinds(rows):
        place[members] = np.arange(members.size)
        done[kind] = _worked_out(rows, members, kind[1], (place, done))
    found: Numbers = done[int(rows.height[states[0]]), (1 << bits) - 1][:, place[row_of[growth.states]]]
    return found


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
    first = np.zeros(growth.base.size, dtype=np.bool_)
    first[nodes] = True
    below = np.flatnonzero((row_of >= 0) & (growth.above >= 0) & first[growth.above])
    onto, hung = row_of[growth.above[below]], row_of[below]
    height = np.zeros(nodes.size, dtype=np.int64)
    mask = ((fires > 0.0) << np.arange(bits)).sum(axis=1)
    depth = bundle.depth[growth.base[below]]
    for level in range(int(depth.max(initial=0)), 0, -1):
        here = depth == level
        np.maximum.at(height, onto[here], height[hung[here]] + 1)
        np.bitwise_or.at(mask, onto[here], mask[hung[here]])
    return _Rows(fires, quiet, onto, hung, bundle.acts[growth.base[below]], growth.factor[below], height, mask)


def _kinds(rows: _Rows) -> Iterator[tuple[tuple[int, int], Indices]]:
    """Rows of equal height and mask, the lowest first."""
    order = np.lexsort((rows.mask, rows.height))
    height, mask = rows.height[order], rows.mask[order]
    cuts = np.flatnonzero((np.diff(height) != 0) | (np.diff(mask) != 0)) + 1
    for members in np.split(order, cuts):
        yield (int(rows.height[members[0]]), int(rows.mask[members[0]])), members


def _worked_out(
    rows: _Rows, members: Indices, mask: int, lower: tuple[Indices, dict[tuple[int, int], Numbers]]
) -> Numbers:
    """(2^bits of the mask, members): own leaves, and what hangs on switches put together with them."""
    place, done = lower
    places = _places(mask)
    vectors = np.ones((1, members.size))
    for bit in places:
        vectors = np.concatenate([vectors * rows.quiet[members, bit], vectors * rows.fires[members, bit]])
    mine = np.zeros(place.size, dtype=np.bool_)
    mine[members] = True
    edges = np.flatnonzero(mine[rows.onto])
    for kind, some in _by_kind(rows, edges):
        pattern = joint(places, _places(kind[1]))
        for each in _rounds(rows.onto[some]):
            edge = some[each]
            onto, acts = place[rows.onto[edge]], rows.acts[edge]
            thrown = done[kind][:, place[rows.hung[edge]]] * (acts * rows.factor[edge])
            thrown[0] += 1.0 - acts
            vectors[:, onto] = in_order(united(pattern, vectors[:, onto], thrown), pattern.scope)
    return vectors


def _places(mask: int) -> tuple[int, ...]:
    return tuple(at for at in range(mask.bit_length()) if mask >> at & 1)


def _by_kind(rows: _Rows, edges: Indices) -> Iterator[tuple[tuple[int, int], Indices]]:
    """The edges by the height and mask of what hangs."""
    height, mask = rows.height[rows.hung[edges]], rows.mask[rows.hung[edges]]
    for kind in sorted(set(zip(height.tolist(), mask.tolist(), strict=True))):
        yield kind, edges[(height == kind[0]) & (mask == kind[1])]


def _rounds(onto: Indices) -> Iterator[Indices]:
    """The first of what hangs on each row, then the second of each that has one, and so on."""
    order = np.argsort(onto, kind="stable")
    rank = _ranks(onto[order])
    for at in range(int(rank.max(initial=-1)) + 1):
        yield order[rank == at]


def _ranks(ordered: Indices) -> Indices:
    """0, 1, … within each run of equal numbers."""
    if not ordered.size:
        return ordered
    fresh = np.concatenate([[True], ordered[1:] != ordered[:-1]])
    start = np.maximum.accumulate(np.where(fresh, np.arange(ordered.size), 0))
    ranks: Indices = np.arange(ordered.size) - start
    return ranks

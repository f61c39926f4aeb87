"""Two independent explanations put together: what either explains is explained.

A vector over a set of bits says how likely exactly the bits of each subset are explained by some hypotheses. For two
of them the chance of U is the sum of left[T] · right[V] over T ∪ V = U. Per bit that both can explain there are three
ways, so it takes 3^bits products, all of non-negative numbers. Vectors have axes (2^bits, items), the last bit of the
scope slowest.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from app.beliefs.beliefs import Indices, Numbers

UNTHREADED = 1 << 18
"""So many products in one matrix product: what it needs stays in the cache, and the library starts no threads."""
TOGETHER = 4
"""Bits that one small matrix takes together."""
SPREAD = 1 << 16
"""So many products at most have all their ways laid out at once."""


@dataclass(frozen=True, slots=True)
class _Asked:
    """Which half of the other meets the low one, the high one and both; to which half each of the three goes.

    `over`: the axis of bits (1: of the left alone, 2: of the right alone) that is summed over.
    """

    halves: tuple[int, int, int]
    goes_to: tuple[int, int, int]
    over: int | None


UNION = _Asked((0, 0, 1), (0, 1, 1), None)
FROM_LEFT = _Asked((0, 1, 1), (0, 0, 1), 2)
FROM_RIGHT = _Asked((0, 1, 1), (0, 0, 1), 1)


@dataclass(frozen=True, slots=True)
class Joint:
    """How two scopes make one: bits of both are its slowest, then those of the left alone, then of the right alone.

    `left_rows`, `right_rows`: the rows of each vector in that order, None where it stands so already.
    """

    scope: tuple[int, ...]
    common: int
    left: int
    right: int
    left_rows: Indices | None
    right_rows: Indices | None

    @property
    def work(self) -> int:
        """Products for one item."""
        return int(3**self.common) << (self.left + self.right)


def joint(left: Sequence[int], right: Sequence[int]) -> Joint:
    """The union of two scopes."""
    common = [bit for bit in left if bit in right]
    of_left = [bit for bit in left if bit not in right]
    of_right = [bit for bit in right if bit not in left]
    left_rows = rows_of(tuple(left.index(bit) for bit in (*of_left, *common)))
    right_rows = rows_of(tuple(right.index(bit) for bit in (*of_right, *common)))
    scope = (*of_right, *of_left, *common)
    return Joint(scope, len(common), len(of_left), len(of_right), left_rows, right_rows)


@lru_cache(maxsize=1024)
def rows_of(order: tuple[int, ...]) -> Indices | None:
    """The rows of a vector with its bits taken in this order; None: as they stand."""
    if order == tuple(range(len(order))):
        return None
    rows = np.zeros(1, dtype=np.int64)
    for at in order:
        rows = np.concatenate([rows, rows + (1 << at)])
    return rows


def united(joint: Joint, left: Numbers, right: Numbers) -> Numbers:
    """The union of left and right, item by item."""
    sizes = _Sizes(joint.common, joint.left, joint.right, UNION)
    return _met(sizes, _ordered(left, joint.left_rows), _ordered(right, joint.right_rows))


def seen_from_left(joint: Joint, right: Numbers, worth: Numbers) -> Numbers:
    """What each subset explained by the left is worth, given what each union is worth."""
    sizes = _Sizes(joint.common, joint.left, joint.right, FROM_LEFT)
    return _put_back(_met(sizes, _ordered(right, joint.right_rows), worth), joint.left_rows)


def seen_from_right(joint: Joint, left: Numbers, worth: Numbers) -> Numbers:
    """What each subset explained by the right is worth."""
    sizes = _Sizes(joint.common, joint.left, joint.right, FROM_RIGHT)
    return _put_back(_met(sizes, _ordered(left, joint.left_rows), worth), joint.right_rows)


@dataclass(frozen=True, slots=True)
class _Sizes:
    """How many bits both sides have, only the left and only the right; and what is asked."""

    common: int
    left: int
    right: int
    asked: _Asked

    @property
    def products(self) -> int:
        """For one item."""
        return int(3**self.common) << (self.left + self.right)

    @property
    def room(self) -> int:
        """So many items in one small matrix product."""
        return max(1, UNTHREADED // (int(6 ** min(self.common, TOGETHER)) << (self.left + self.right)))

    @property
    def over_common(self) -> int:
        """The bits of the answer that only one side has."""
        if self.asked.over is None:
            return self.left + self.right
        return self.right if self.asked.over == 1 else self.left


def _met(sizes: _Sizes, one: Numbers, other: Numbers) -> Numbers:
    """Some items at a time, so that all stays in the cache."""
    items, room = one.shape[1], sizes.room
    if items <= room:
        return _half_by_half(sizes, one, other)
    pieces = [slice(at, at + room) for at in range(0, items, room)]
    return np.concatenate([_half_by_half(sizes, one[:, some], other[:, some]) for some in pieces], axis=1)


def _half_by_half(sizes: _Sizes, one: Numbers, other: Numbers) -> Numbers:
    """Without and with the slowest bit, until few products are left."""
    if sizes.common <= TOGETHER or sizes.products * one.shape[1] <= SPREAD:
        return _way_by_way(sizes, one, other)
    half, fewer = one.shape[0] // 2, _Sizes(sizes.common - 1, sizes.left, sizes.right, sizes.asked)
    without, having = one[:half], one[half:]
    low, high = other[: other.shape[0] // 2], other[other.shape[0] // 2 :]
    first = _half_by_half(fewer, without, low)
    if sizes.asked is UNION:
        second = _half_by_half(fewer, having, low)
        second += _half_by_half(fewer, without + having, high)
    else:
        first += _half_by_half(fewer, having, high)
        second = _half_by_half(fewer, without + having, high)
    return np.concatenate([first, second])


def _way_by_way(sizes: _Sizes, one: Numbers, other: Numbers) -> Numbers:
    """The three ways of each of the slowest bits side by side; what one matrix can take is left to it."""
    more, items = max(sizes.common - TOGETHER, 0), one.shape[1]
    if not more:
        return _at_once(sizes, one, other, items)
    asked, fewer = sizes.asked, _Sizes(TOGETHER, sizes.left, sizes.right, sizes.asked)
    ways = _spread(one.reshape(1 << sizes.common, -1), more, None).reshape(1 << TOGETHER, 3**more, -1)
    met = _spread(other.reshape(1 << sizes.common, -1), more, asked.halves).reshape(1 << TOGETHER, 3**more, -1)
    found = np.empty((1 << TOGETHER, 3**more, items << sizes.over_common))
    some = max(1, sizes.room // items)
    for at in range(0, 3**more, some):
        part = _at_once(fewer, ways[:, at : at + some], met[:, at : at + some], items)
        found[:, at : at + some] = part.reshape(1 << TOGETHER, -1, found.shape[2])
    return _gathered(found, more, asked.goes_to).reshape(-1, items)


def _spread(vectors: Numbers, bits: int, halves: tuple[int, int, int] | None) -> Numbers:
    """The slowest bits become three ways each, behind all other bits: these halves, or low, high and both added."""
    for _ in range(bits):
        half = vectors.shape[0] // 2
        low_high = vectors[:half], vectors[half:]
        ways = np.empty((half, 3, vectors.shape[1]))
        ways[:, 0], ways[:, 1] = low_high if halves is None else (low_high[halves[0]], low_high[halves[1]])
        if halves is None:
            np.add(*low_high, out=ways[:, 2])
        else:
            ways[:, 2] = low_high[halves[2]]
        vectors = ways.reshape(half, -1)
    return vectors


def _gathered(found: Numbers, bits: int, goes_to: tuple[int, int, int]) -> Numbers:
    """The ways added to where they go, the last one spread first, and its bit put before all others."""
    for _ in range(bits):
        ways = found.reshape(found.shape[0], 3, -1)
        halves = np.zeros((2, found.shape[0], ways.shape[2]))
        for way, half in enumerate(goes_to):
            halves[half] += ways[:, way]
        found = halves.reshape(2 * found.shape[0], -1)
    return found


def _at_once(sizes: _Sizes, one: Numbers, other: Numbers, items: int) -> Numbers:
    """The three ways of each bit met with the half of the other they meet, and added to where they go."""
    c, a, b = sizes.common, sizes.left, sizes.right
    asked = sizes.asked
    ways = np.matmul(_sums(c), one.reshape(1 << c, -1))
    met = other.reshape(1 << c, -1)[_rows_met(c, asked.halves)]
    if a or b:
        mine = (1 << a, 1) if asked is not FROM_LEFT else (1, 1 << b)
        against = (1, 1 << b) if asked is UNION else (1 << a, 1 << b)
        met = ways.reshape(-1, *mine, items) * met.reshape(-1, *against, items)
        if asked.over is not None:
            met = np.add.reduce(met, axis=asked.over)
        met = met.reshape(3**c, -1)
    else:
        met *= ways
    found: Numbers = np.matmul(_folds(c, asked.goes_to), met)
    return found.reshape(-1, items)


def _ordered(vector: Numbers, rows: Indices | None) -> Numbers:
    return vector if rows is None else vector[rows]


def _put_back(vector: Numbers, rows: Indices | None) -> Numbers:
    if rows is None:
        return vector
    back = np.empty_like(vector)
    back[rows] = vector
    return back


@lru_cache(maxsize=16)
def _sums(bits: int) -> Numbers:
    return _power(np.array([[1.0, 0.0], [0.0, 1.0], [1.0, 1.0]]), bits)


@lru_cache(maxsize=16)
def _folds(bits: int, goes_to: tuple[int, int, int]) -> Numbers:
    return _power(np.array([[float(half == to) for to in goes_to] for half in range(2)]), bits)


def _power(each: Numbers, bits: int) -> Numbers:
    matrix: Numbers = np.ones((1, 1))
    for _ in range(bits):
        size = matrix.shape[0] * each.shape[0], matrix.shape[1] * each.shape[1]
        matrix = (matrix[:, None, :, None] * each[None, :, None, :]).reshape(size)
    return matrix


@lru_cache(maxsize=64)
def _rows_met(bits: int, halves: tuple[int, int, int]) -> Indices:
    rows = np.zeros(1, dtype=np.int64)
    for at in range(bits):
        rows = np.concatenate([rows + (half << at) for half in halves])
    return rows

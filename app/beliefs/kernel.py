"""One hypothesis as a matrix: for the many columns where no report or test of its own differs.

Explaining is an OR: a hypothesis explains the set T with chance D[T], whatever was explained before, and so
v'[U] = Σ D[T]·v[V] over T ∪ V = U. The matrix of that is M[U, V] = Σ D[T] over (U \\ V) ⊆ T ⊆ U for V ⊆ U, else 0.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

import numpy as np

from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Indices
from app.beliefs.effects import UNTHREADED, Effects, fire_bit, taken
from app.beliefs.part import Part, ReadyStep

MOST_BITS = 9
BLOCK = 64
ENTRY, PRODUCT, SET_UP, BUILD = 0.3, 0.04, 10000.0, 3.0
"""Nanoseconds, measured roughly: an operation on an entry, a product in a matrix, its set-up, a place in it."""


class Kernels:
    """The matrices of a part's steps, made when they pay. `efforts`: operations per vector entry without one."""

    def __init__(self, part: Part) -> None:
        self.part = part
        self._made = part.shared.matrices
        self._efforts = [sum(effort(state.effects) + 2 for state in ready.states) for ready in part.steps]

    def at(self, step: int, entries: int) -> Numbers | None:
        """The matrix of this step, or None where working through its effects is cheaper for so many vector entries."""
        ready = self.part.steps[step]
        own = len(ready.own_bits)
        if ready.alike < 0 or own > MOST_BITS:
            return None
        key = (ready.step.hypothesis, ready.own_bits)
        if key not in self._made:
            work = self._efforts[step]
            saved = entries * (ENTRY * work - PRODUCT * (1 << own))
            if saved <= SET_UP * work + BUILD * 4**own:
                return None
            self._made[key] = matrix(ready, ready.alike)
        return self._made[key]


def effort(effects: Effects) -> int:
    """Passes over the vector that these effects take."""
    inside = sum(3 + effort(switch.inside) for switch in effects.switches)
    return 2 * len(effects.bits) + inside


def matrix(ready: ReadyStep, column: int) -> Numbers:
    """M over the step's own bits, as seen by this column (one in which nothing of the hypothesis differs)."""
    own = {bit: at for at, bit in enumerate(ready.own_bits)}
    nothing = np.zeros((1 << len(own), 1, 1))
    nothing[0] = 1.0
    source = np.array([column])
    explains = np.zeros_like(nothing)
    for state in ready.states:
        explains += taken(nothing, state.weight, state.effects, (own, fire_bit), source)
    ways = np.append(_three_ways(explains[:, 0, 0], len(own)), 0.0)
    found: Numbers = ways[_places(len(own))]
    return found


def applied(
    kernel: Numbers, vector: Numbers, own: tuple[int, ...], position: Mapping[int, int], *, adjoint: bool = False
) -> Numbers:
    """The matrix, or its adjoint, on its own bits of a vector (2^w, halves, columns), wherever they stand."""
    rows = _rows(tuple(position[bit] for bit in own), len(position))
    tall = vector.reshape(vector.shape[0], -1)
    by_own_bits = (tall if rows is None else tall[rows]).reshape(kernel.shape[0], -1)
    product = np.zeros_like(by_own_bits)
    _add_product(kernel, by_own_bits, product, adjoint)
    if rows is None:
        return product.reshape(vector.shape)
    after = np.empty_like(tall)
    after[rows] = product.reshape(tall.shape)
    return after.reshape(vector.shape)


def _add_product(kernel: Numbers, vector: Numbers, onto: Numbers, adjoint: bool) -> None:
    """In blocks: the quarter that is always 0 is spared, and no product is so large that the library starts threads."""
    size = kernel.shape[0]
    if size > BLOCK:
        half = size // 2
        low, high = slice(0, half), slice(half, size)
        _add_product(kernel[low, low], vector[low], onto[low], adjoint)
        _add_product(kernel[high, high], vector[high], onto[high], adjoint)
        here, there = (high, low) if adjoint else (low, high)
        _add_product(kernel[high, low], vector[here], onto[there], adjoint)
        return
    block = kernel.T if adjoint else kernel
    width = UNTHREADED // (size * size)
    for start in range(0, vector.shape[1], width):
        onto[:, start : start + width] += block @ vector[:, start : start + width]


def _three_ways(explains: Numbers, bits: int) -> Numbers:
    """Per bit: not explained here, explained here, either; flat, the highest bit slowest."""
    for at in range(bits):
        halves = explains.reshape(3**at, 2, -1)
        explains = np.stack([halves[:, 0], halves[:, 1], halves[:, 0] + halves[:, 1]], axis=1)
    return explains.reshape(-1)


@lru_cache(maxsize=MOST_BITS + 1)
def _places(bits: int) -> Indices:
    """(2^bits, 2^bits): where M[U, V] stands among the three ways; the end for V not inside U."""
    end = 3**bits
    places = np.zeros((1, 1), dtype=np.int64)
    for at in range(bits):
        step = 3**at
        beyond = np.full_like(places, end)
        lifted = [np.where(places == end, end, places + way * step) for way in (1, 2)]
        places = np.block([[places, beyond], [lifted[0], lifted[1]]])
    return places


@lru_cache(maxsize=512)
def _rows(positions: tuple[int, ...], width: int) -> Indices | None:
    """The rows of a vector with these bits highest, in this order; None if they stand so already."""
    rest = [at for at in range(width) if at not in positions]
    order = (*rest, *positions)
    if order == tuple(range(width)):
        return None
    rows = np.zeros(1, dtype=np.int64)
    for at in order:
        rows = np.concatenate([rows, rows + (1 << at)])
    return rows

"""Opening and closing bits, and rescaling by powers of two, which loses no digit."""

from __future__ import annotations

import numpy as np

from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Indices
from app.beliefs.effects import spread

Weights = tuple[float | Numbers, float | Numbers]


def open_bit(vector: Numbers, leak: float) -> Numbers:
    """A new highest bit: explained by its leak, or not yet."""
    return _two(vector, 1.0 - leak, leak)


def close_bit(vector: Numbers, position: int, weights: Weights, source: Indices) -> Numbers:
    """Weigh the unexplained half and the explained half by the report, and forget the bit."""
    halves = vector.reshape(vector.shape[0] >> position + 1, 2, 1 << position, *vector.shape[1:])
    if_absent, if_present = weights
    kept = halves[:, 1] * spread(if_present, source)
    if isinstance(if_absent, np.ndarray) or if_absent != 0.0:
        kept += halves[:, 0] * spread(if_absent, source)
    return kept.reshape(vector.shape[0] // 2, *vector.shape[1:])


def unclose_bit(message: Numbers, position: int, weights: Weights, source: Indices) -> Numbers:
    """The adjoint of `close_bit`."""
    rest = message.reshape(-1, 1 << position, *message.shape[1:])
    halves = np.empty((rest.shape[0], 2, *rest.shape[1:]))
    np.multiply(rest, spread(weights[0], source), out=halves[:, 0])
    np.multiply(rest, spread(weights[1], source), out=halves[:, 1])
    return halves.reshape(-1, *message.shape[1:])


def unopen_bit(message: Numbers, leak: float) -> Numbers:
    """The adjoint of `open_bit`."""
    half = message.shape[0] // 2
    return (1.0 - leak) * message[:half] + leak * message[half:]


def exponents(vector: Numbers) -> Indices:
    """Per column the power of two of its largest entry; 0 where all is 0."""
    largest = vector.max(axis=(0, 1))
    powers: Indices = np.frexp(largest)[1].astype(np.int64)
    return powers


def scaled(vector: Numbers, powers: Indices) -> Numbers:
    """Each column times 2^power."""
    return vector * np.ldexp(1.0, powers)


def _two(vector: Numbers, low: float, high: float) -> Numbers:
    both = np.empty((2, *vector.shape))
    np.multiply(vector, low, out=both[0])
    np.multiply(vector, high, out=both[1])
    return both.reshape(-1, *vector.shape[1:])

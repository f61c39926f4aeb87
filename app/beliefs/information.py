"""What a test is worth: mutual information in bits."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from app.beliefs.asking import AskedReading
from app.beliefs.beliefs import Information, Numbers
from app.beliefs.solve import Solved


def informations(informing: Sequence[Sequence[AskedReading]], solved: Solved) -> tuple[Information, ...]:
    """For each series: the chain rule, sum over readings of P(all earlier normal) · I(reading | earlier normal)."""
    return tuple(_series(readings, solved) for readings in informing)


def _series(readings: Sequence[AskedReading], solved: Solved) -> Information:
    bits, reached = 0.0, 1.0
    for reading in readings:
        if reached <= 0.0:
            break
        bits += reached * _reading(reading, solved)
        reached *= float(solved.columns[reading.column, 0])
    return Information(bits, bool(readings) and all(reading.exact for reading in readings))


def _reading(reading: AskedReading, solved: Solved) -> float:
    """I(test; all its parents), or the sum of I(test; parent)."""
    table = solved.tables.get(reading.column)
    if table is not None:
        return mutual_bits(table)
    two_states = [pairs[0] for pairs in reading.parents if len(pairs) == 1]
    more = (mutual_bits(solved.masses[list(pairs), 1]) for pairs in reading.parents if len(pairs) != 1)
    return float(_bits(solved.masses[two_states]).sum()) + sum(more)


def mutual_bits(joint: Numbers) -> float:
    """I between the rows and columns of a table of joint chances (Shannon 1948), in bits."""
    return float(_bits(joint))


def _bits(joint: Numbers) -> Numbers:
    """The same for each table of a stack."""
    independent = joint.sum(axis=-1, keepdims=True) * joint.sum(axis=-2, keepdims=True)
    ratio = np.divide(joint, independent, out=np.ones_like(joint), where=(joint > 0.0) & (independent > 0.0))
    bits: Numbers = (joint * np.log2(ratio)).sum(axis=(-2, -1))
    return np.maximum(bits, 0.0)

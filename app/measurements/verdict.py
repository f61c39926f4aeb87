"""Whether a reading is within its limits, as a chance rather than a cliff."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

CERTAIN_ENOUGH = 0.95
"""From this chance on a reading counts as normal (or abnormal) outright; between it is uncertain (judgement, the usual
one-sided 95 % of conformity assessment, JCGM 106:2012 section 8, from memory)."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """`within`: chance that the true value lies within the limits. `outcome`: normal, abnormal or uncertain.

    `weights` (abnormal, normal): likelihoods of the reading, under a flat prior on the true value; they hold no base
    rate, so they may enter the network as soft evidence.
    """

    outcome: str
    within: float
    weights: tuple[float, float]


def verdict(
    value: float,
    *,
    low: float | None,
    high: float | None,
    resolution: float = 0.0,
    possible: tuple[float, float] = (-inf, inf),
) -> Verdict:
    """Judges value ± resolution (uniform over that interval) against limits in the same unit; a limit itself passes.

    A missing limit is open. `possible` bounds the true value: a loss read as 0 % is not half below nought.
    Raises ValueError for limits that cross and for a negative resolution.
    """
    floor, ceiling = -inf if low is None else low, inf if high is None else high
    if floor > ceiling or resolution < 0.0:
        raise ValueError("limits cross, or the resolution is negative")
    lowest, highest = max(value - resolution, possible[0]), min(value + resolution, possible[1])
    within = _share_within(lowest, highest, floor=floor, ceiling=ceiling)
    return Verdict(_outcome(within), within, (1.0 - within, within))


def _share_within(lowest: float, highest: float, *, floor: float, ceiling: float) -> float:
    """The part of [lowest, highest] that lies in [floor, ceiling]."""
    if highest <= lowest:
        return 1.0 if floor <= lowest <= ceiling else 0.0
    overlap = min(highest, ceiling) - max(lowest, floor)
    return min(1.0, max(0.0, overlap / (highest - lowest)))


def _outcome(within: float) -> str:
    if within >= CERTAIN_ENOUGH:
        return "normal"
    return "abnormal" if within <= 1.0 - CERTAIN_ENOUGH else "uncertain"

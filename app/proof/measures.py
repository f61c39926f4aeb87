"""What use is counted in, and amounts of use in each measure that is known."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import StrEnum

from app.evidence.case import ProofRun


class Measure(StrEnum):
    """In order of preference where two are known equally well: what a road test counts comes before the calendar."""

    KM = "km"
    MINUTES = "minutes"
    STARTS = "starts"
    CYCLES = "drive cycles"
    DAYS = "days"


Use = Mapping[Measure, float]
"""How much use, in the measures that are known."""

LEAST = 1.0
"""The finest step of every measure: a fault that came back at once came back within one of it."""

_ONE = {
    Measure.KM: "km",
    Measure.MINUTES: "minute",
    Measure.STARTS: "start",
    Measure.CYCLES: "drive cycle",
    Measure.DAYS: "day",
}


def use_of_run(run: ProofRun) -> Use:
    """What was noted of a run. Its day is no amount: a road test says nothing of the days around it."""
    amounts = {
        Measure.KM: run.km,
        Measure.MINUTES: run.minutes,
        Measure.STARTS: run.starts,
        Measure.CYCLES: run.cycles,
    }
    return {measure: amount for measure, amount in amounts.items() if amount is not None}


def total(uses: Iterable[Use]) -> Use:
    """The sum in every measure that any of them knows."""
    sums: dict[Measure, float] = {}
    for use in uses:
        for measure, amount in use.items():
            sums[measure] = sums.get(measure, 0.0) + amount
    return sums


def at_least(one: Use, other: Use) -> Use:
    """The larger of two counts of the same use, in every measure."""
    return {m: max(one.get(m, 0.0), other.get(m, 0.0)) for m in Measure if m in one or m in other}


def amount(value: float, measure: Measure) -> str:
    """ "1 start", "12 drive cycles", "164 km": whole steps, never less than there were."""
    count = round(value)
    return f"{count:,} {_ONE[measure] if count == 1 else measure.value}"

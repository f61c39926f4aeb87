"""Did you mean …? Readings near an unbelievable one that would be believable."""

from __future__ import annotations

from collections.abc import Iterator

from app.measurements.numbers import write_number
from app.measurements.quantities import Quantity
from app.measurements.units import convert

SLIPS = (0.1, 10.0, 0.01, 100.0, 0.001, 1000.0)
"""A decimal point one, two or three places off, the nearest first."""
MOST = 3


def did_you_mean(number: float, shown: str, quantity: Quantity) -> tuple[str, ...]:
    """At most three believable readings: the same number in another unit first, then a decimal slip in this unit."""
    found: list[str] = []
    for value, unit in _candidates(number, shown, quantity):
        reading = f"{write_number(value)} {unit}"
        if is_plausible(value, unit, quantity) and reading not in found:
            found.append(reading)
    return tuple(found[:MOST])


def is_plausible(number: float, shown: str, quantity: Quantity) -> bool:
    low, high = quantity.plausible
    return low <= convert(number, quantity.units[shown], quantity.units[quantity.unit]) <= high


def _candidates(number: float, shown: str, quantity: Quantity) -> Iterator[tuple[float, str]]:
    for unit, name in quantity.units.items():
        if name != quantity.units[shown]:
            yield number, unit
    for slip in SLIPS:
        yield float(f"{number * slip:.12g}"), shown

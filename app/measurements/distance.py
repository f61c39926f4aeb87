"""Distances as people write them on a work sheet: whole kilometres or miles."""

from __future__ import annotations

import re

from app.measurements.numbers import shortened
from app.measurements.units import convert
from app.problem import Problem

UNITS = {"km": "kilometer", "mi": "mile", "miles": "mile"}
FARTHEST_KM = 3_000_000.0
"""No road vehicle has gone farther (judgement; the record is said to be just above, from memory)."""


def read_distance(typed: str, field: str) -> float | Problem:
    """Kilometres of "84200 km" or "52300 mi". Refused: no unit, decimals and separators, more than 3 million km."""
    found = re.fullmatch(r"(.*?)\s*([a-zA-Z]*)", typed.strip(), re.DOTALL)
    number, unit = (found[1], found[2]) if found else (typed, "")
    if not re.fullmatch(r"[0-9]{1,9}", number, re.ASCII):
        return Problem(field, f"“{shortened(typed)}” is not a distance.", "Write whole digits and the unit: 84200 km.")
    if unit not in UNITS:
        said = f"“{unit}” is not km or mi" if unit else f"“{shortened(typed)}” has no unit"
        return Problem(field, f"{said}.", "Add km or mi.")
    distance = convert(float(number), UNITS[unit], "kilometer")
    if distance > FARTHEST_KM:
        return Problem(field, f"“{shortened(typed)}” is farther than any vehicle goes.", "Check the digits.")
    return distance

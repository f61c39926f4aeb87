"""A reading as people type it, turned into a value in its quantity's unit, or refused with a helpful sentence."""

from __future__ import annotations

import re
from dataclasses import dataclass

from app.measurements.numbers import read_number, shortened, write_number
from app.measurements.plausible import did_you_mean
from app.measurements.quantities import Quantity
from app.measurements.spellings import belongs_elsewhere, shown_unit
from app.measurements.units import convert, factor
from app.problem import Problem

_NUMBER_THEN_UNIT = re.compile(r"\s*([+\-−–]?[\d.,]+(?:[eE][+-]?\d+)?)\s*(.*)", re.ASCII | re.DOTALL)


@dataclass(frozen=True, slots=True)
class Measured:
    """A reading: as typed, and its value in `unit`. `resolution`: half the last typed digit's step, in `unit`."""

    typed: str
    value: float
    unit: str
    resolution: float


def read_reading(typed: str, quantity: Quantity, field: str, *, unit: str = "") -> Measured | Problem:
    """Reads "0.28 mm", or "0.28" with the unit given separately; the value comes back in the quantity's unit.

    Refused: no number, no unit, a unit the quantity does not have, a value outside the plausible range.
    """
    number_text, unit_text = _split(typed)
    if unit_text and unit and shown_unit(unit_text, quantity) != shown_unit(unit, quantity):
        sentence = f"“{shortened(typed)}” says another unit than {shortened(unit)}."
        return Problem(field, sentence, "Give the unit once.")
    number = read_number(number_text, field)
    if isinstance(number, Problem):
        return number
    shown = _known_unit(unit_text or unit, typed, quantity, field=field)
    if isinstance(shown, Problem):
        return shown
    value = float(f"{convert(number, quantity.units[shown], quantity.units[quantity.unit]):.12g}")
    low, high = quantity.plausible
    if not low <= value <= high:
        return _not_plausible(number, shown, quantity, field=field)
    step = factor(quantity.units[shown], quantity.units[quantity.unit])
    typed_whole = typed.strip() if unit_text else f"{typed.strip()} {unit.strip()}"
    return Measured(typed_whole, value, quantity.unit, abs(step) * resolution(number_text))


def _split(typed: str) -> tuple[str, str]:
    """The number's text and the unit's text of what was typed; no unit: ""."""
    found = _NUMBER_THEN_UNIT.fullmatch(typed)
    if found is None or found[2][:1].isdigit():
        return typed, ""
    return found[1], found[2].strip()


def _known_unit(unit: str, typed: str, quantity: Quantity, *, field: str) -> str | Problem:
    units = " or ".join(quantity.units)
    if not unit.strip():
        return Problem(field, f"“{shortened(typed)}” has no unit.", f"Add one: {units}.")
    shown = shown_unit(unit, quantity)
    if shown is not None:
        return shown
    other = belongs_elsewhere(unit, quantity)
    if other:
        sentence = f"{shortened(unit)} is a unit of {other}, not of {quantity.name}."
        return Problem(field, sentence, f"Give the reading in {units}.")
    return Problem(field, f"“{shortened(unit)}” is not a unit of {quantity.name}.", f"Use {units}.")


def _not_plausible(number: float, shown: str, quantity: Quantity, *, field: str) -> Problem:
    low, high = (write_number(end) for end in quantity.plausible)
    said = f"{write_number(number)} {shown}"
    sentence = f"{said} is not believable for {quantity.name} ({low} to {high} {quantity.unit})."
    meant = did_you_mean(number, shown, quantity)
    mend = f"Did you mean {' or '.join(meant)}?" if meant else "Check the reading and the unit."
    return Problem(field, sentence, mend)


def resolution(number_text: str) -> float:
    """Half a step of the last digit typed: 0.28 was read to the hundredth, so it stands for 0.275 to 0.285."""
    mantissa, _, exponent = number_text.lower().replace(",", ".").partition("e")
    decimals = len(mantissa.partition(".")[2])
    return float(0.5 * 10.0 ** (int(exponent or 0) - decimals))


def write_reading(value: float, unit: str) -> str:
    """A reading as it is shown and can be typed back: "0.28 mm"."""
    return f"{write_number(value)} {unit}"

"""The one Pint registry. No text typed by a user reaches its parser: only the unit names of the rules do."""

from __future__ import annotations

import re
from functools import cache

import pint

_NAME = r"[A-Za-z_]+(?: ?\*\* ?[2-4])?"
_UNIT = re.compile(rf"(?:1 ?/ ?)?{_NAME}(?: ?[*/] ?{_NAME})*", re.ASCII)


@cache
def registry() -> pint.UnitRegistry[float]:
    """Built once, at first use: it takes a third of a second."""
    return pint.UnitRegistry()


@cache
def unit_of(pint_name: str) -> pint.Unit:
    return registry().Unit(pint_name)


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """A value of one unit in another of the same dimension; both by their Pint names, temperatures as temperatures."""
    if from_unit == to_unit:
        return value
    return float(registry().Quantity(value, unit_of(from_unit)).to(unit_of(to_unit)).magnitude)


def factor(from_unit: str, to_unit: str) -> float:
    """How much of `to_unit` one step of `from_unit` is: for resolutions and differences, also of temperatures."""
    return convert(1.0, from_unit, to_unit) - convert(0.0, from_unit, to_unit)


def is_unit(pint_name: str) -> bool:
    """Whether Pint knows this name, which must look like a unit ("kgf/cm**2"), not like arithmetic."""
    if len(pint_name) > 60 or not _UNIT.fullmatch(pint_name):
        return False
    try:
        unit_of(pint_name)
    except pint.PintError:
        return False
    return True


def same_dimension(one: str, other: str) -> bool:
    """Whether two units can be converted into each other."""
    return unit_of(one).is_compatible_with(unit_of(other))

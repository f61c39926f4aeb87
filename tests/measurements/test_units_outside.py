"""Conversions against published factors.

NIST Special Publication 811 (2008), appendix B.8/B.9, https://www.nist.gov/pml/special-publication-811: the factors
cited from memory, recomputed from the exact definitions (1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s²).
Tolerance: the printed digits.
"""

from __future__ import annotations

import pytest

from app.measurements.units import convert, factor, is_unit, same_dimension


@pytest.mark.parametrize(
    ("value", "one", "other", "expected", "relative"),
    [
        (1.0, "psi", "kPa", 6.894757, 1e-6),
        (1.0, "bar", "psi", 14.503774, 1e-6),
        (1.0, "inch_Hg", "kPa", 3.386389, 1e-6),
        (1.0, "mmHg", "kPa", 0.1333224, 1e-6),
        (1.0, "kgf/cm**2", "bar", 0.980665, 1e-9),
        (1.0, "pound_force * foot", "newton * meter", 1.355818, 1e-6),
        (1.0, "pound_force * inch", "newton * meter", 0.1129848, 1e-6),
        (1.0, "kilogram_force * meter", "newton * meter", 9.80665, 1e-9),
        (1.0, "thou", "millimeter", 0.0254, 1e-9),
        (1.0, "inch", "millimeter", 25.4, 1e-9),
        (1.0, "mile", "kilometer", 1.609344, 1e-9),
        (212.0, "degF", "degC", 100.0, 1e-9),
        (-40.0, "degF", "degC", -40.0, 1e-9),
        (3000.0, "revolution / minute", "hertz * radian", 314.159265, 1e-6),
    ],
)
def test_factors_are_the_published_ones(value, one, other, expected, relative):
    assert convert(value, one, other) == pytest.approx(expected, rel=relative)


def test_a_difference_of_temperatures_is_not_a_temperature():
    """40 °F warmer is 22.2 °C warmer, not 4.4 °C (NIST SP 811, B.8: °F interval = 5/9 °C; from memory)."""
    assert 40.0 * factor("degF", "degC") == pytest.approx(22.2222222)


@pytest.mark.parametrize(
    "name", ["9**9**9", "5 mm", "frob", "", "mm; import os", "__import__('os')", "mm**", "a" * 100]
)
def test_what_is_no_unit_never_reaches_the_parser_as_arithmetic(name):
    assert not is_unit(name)


def test_units_of_one_kind_convert_and_others_do_not():
    assert same_dimension("bar", "psi")
    assert not same_dimension("bar", "millimeter")

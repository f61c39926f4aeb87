"""Readings with units: what they come to, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.measurements.quantities import Quantity
from app.measurements.reading import Measured, read_reading, resolution, write_reading
from app.problem import Problem

LASH = Quantity("valve-lash", "valve lash", "mm", {"mm": "mm", "in": "inch", "thou": "thou"}, (0.0, 1.5))
COMPRESSION = Quantity("compression", "compression", "bar", {"bar": "bar", "psi": "psi", "kPa": "kPa"}, (0.0, 45.0))
WARMTH = Quantity("temperature", "temperature", "°C", {"°C": "degC", "°F": "degF"}, (-60.0, 300.0))
VOLTAGE = Quantity("voltage", "voltage", "V", {"V": "volt", "mV": "millivolt"}, (-20.0, 60.0))
TORQUE = Quantity(
    "torque", "tightening torque", "Nm", {"Nm": "newton * meter", "lbf ft": "pound_force * foot"}, (0, 500)
)


@pytest.mark.parametrize(
    ("typed", "quantity", "value"),
    [
        ("0.28 mm", LASH, 0.28),
        ("0,28mm", LASH, 0.28),
        ("11 thou", LASH, 0.2794),
        ('0.011"', LASH, 0.2794),
        ("0.011 inches", LASH, 0.2794),
        ("180 psi", COMPRESSION, 12.410563127),
        ("1200 kpa", COMPRESSION, 12.0),
        ("212 °F", WARMTH, 100.0),
        ("212 F", WARMTH, 100.0),
        ("-40 °F", WARMTH, -40.0),
        ("350 mV", VOLTAGE, 0.35),
        ("74 lb ft", TORQUE, 100.330527),
    ],
)
def test_a_reading_comes_out_in_the_unit_of_its_quantity(typed, quantity, value):
    read = read_reading(typed, quantity, "reading")
    assert isinstance(read, Measured)
    assert (read.value, read.unit) == (pytest.approx(value), quantity.unit)
    assert read.typed == typed


def test_the_unit_may_be_given_apart():
    read = read_reading("0.28", LASH, "reading", unit="mm")
    assert isinstance(read, Measured)
    assert (read.typed, read.value) == ("0.28 mm", 0.28)
    assert isinstance(read_reading("0.28 mm", LASH, "reading", unit="mm"), Measured)
    assert isinstance(read_reading("0.28 mm", LASH, "reading", unit="thou"), Problem)


@pytest.mark.parametrize(
    ("typed", "quantity", "says", "mend"),
    [
        ("0.28", LASH, "“0.28” has no unit.", "Add one: mm or in or thou."),
        ("0.28 frob", LASH, "“frob” is not a unit of valve lash.", "Use mm or in or thou."),
        ("0.28 bar", LASH, "bar is a unit of pressure, not of valve lash.", "mm or in or thou"),
        ("5 mm mm", LASH, "“mm mm”", "mm"),
        ("mm", LASH, "is not a number", "digits"),
        ("", LASH, "There is no number.", "0.25"),
        ("nan mm", LASH, "is not a number", "digits"),
        ("1e400 mm", LASH, "too big", "exponent"),
        ("1,234.5 mm", LASH, "more than one way", "thousands"),
        ("9**9**9**2", LASH, "is not a unit", "mm"),
        ("28 mm", LASH, "28 mm is not believable for valve lash (0 to 1.5 mm).", "Did you mean 28 thou or 0.28 mm"),
        ("8 mm", LASH, "not believable", "8 thou"),
        ("12 in", LASH, "not believable", "12 thou"),
        ("175 bar", COMPRESSION, "not believable", "175 psi"),
        ("-1 mm", LASH, "not believable", "Check the reading"),
        ("90000 °C", WARMTH, "not believable", "90 °C"),
    ],
)
def test_a_reading_that_cannot_be_taken_is_refused_with_a_way_out(typed, quantity, says, mend):
    problem = read_reading(typed, quantity, "reading")
    assert isinstance(problem, Problem)
    assert says in problem.sentence
    assert mend in problem.mend


def test_the_resolution_is_half_the_last_digit_in_the_quantitys_unit():
    """An instrument's last digit stands for half a step up and down (JCGM 100:2008, F.2.2.1; from memory)."""
    assert resolution("0.28") == pytest.approx(0.005)
    assert resolution("12") == 0.5
    assert resolution("1,5e-2") == pytest.approx(0.0005)
    read = read_reading("11 thou", LASH, "reading")
    assert isinstance(read, Measured)
    assert read.resolution == pytest.approx(0.0127)


@given(st.integers(min_value=0, max_value=1500).map(lambda thousandths: thousandths / 1000))
def test_a_written_reading_reads_back(value):
    read = read_reading(write_reading(value, "mm"), LASH, "reading")
    assert isinstance(read, Measured)
    assert read.value == pytest.approx(value)


@given(st.text(max_size=40), st.text(max_size=20))
def test_whatever_is_typed_gives_a_believable_reading_or_a_problem(typed, unit):
    read = read_reading(typed, LASH, "reading", unit=unit)
    assert isinstance(read, Problem) or 0.0 <= read.value <= 1.5

"""The quantities of the shipped rules: believable readings of the trade pass, classic slips do not."""

from __future__ import annotations

import pytest

from app.measurements.plausible import did_you_mean
from app.measurements.reading import Measured, read_reading
from app.problem import Problem
from tests.rules.texts import shipped


@pytest.mark.parametrize(
    ("typed", "quantity"),
    [("0.25 mm", "valve-lash"), ("10 thou", "valve-lash"), ("12.5 bar", "compression"), ("12.6 V", "voltage"),
     ("25 mA", "rest-current"), ("0.04 mm", "runout"), ("8 %", "leak-rate"), ("90 °C", "temperature")],
)  # fmt: skip
def test_ordinary_readings_of_the_trade_are_believable(typed, quantity):
    """Common practice: figures any workshop meets, no maker's."""
    assert isinstance(read_reading(typed, shipped().quantities[quantity], "reading"), Measured)


@pytest.mark.parametrize(("typed", "quantity"), [("25 mm", "valve-lash"), ("126 V", "voltage"), ("120 %", "leak-rate")])
def test_classic_slips_are_not(typed, quantity):
    assert isinstance(read_reading(typed, shipped().quantities[quantity], "reading"), Problem)


def test_another_unit_is_offered_before_a_decimal_slip():
    assert did_you_mean(10.0, "mm", shipped().quantities["valve-lash"])[0] == "10 thou"

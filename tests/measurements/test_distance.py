"""Distances on a work sheet."""

from __future__ import annotations

import pytest

from app.measurements.distance import read_distance
from app.problem import Problem


def test_kilometres_and_miles_are_taken():
    assert read_distance("84200 km", "odometer") == 84200.0
    assert read_distance("0km", "odometer") == 0.0


def test_a_mile_is_1609_344_metres():
    """International mile, exact (NIST SP 811, appendix B; citation from memory)."""
    assert read_distance("100000 mi", "odometer") == pytest.approx(160934.4)


@pytest.mark.parametrize(
    "typed", ["84200", "84,200 km", "84.200 km", "84 200 km", "-5 km", "far", "", "5 m", "99999999 km"]
)
def test_what_is_not_plain_is_refused(typed):
    assert isinstance(read_distance(typed, "odometer"), Problem)

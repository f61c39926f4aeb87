"""Whether a reading is within its limits."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.measurements.verdict import verdict


def test_well_within_is_normal_and_well_outside_abnormal():
    assert verdict(0.30, low=0.28, high=0.32, resolution=0.005).outcome == "normal"
    assert verdict(0.40, low=0.28, high=0.32, resolution=0.005).outcome == "abnormal"
    assert verdict(0.40, low=0.28, high=0.32, resolution=0.005).weights == (1.0, 0.0)


def test_at_the_limit_the_reading_is_half_within_and_uncertain():
    """A uniform error of ± a about the reading: the guard-band picture of JCGM 106:2012, 8.3 (from memory)."""
    judged = verdict(0.28, low=0.28, high=0.32, resolution=0.005)
    assert judged.outcome == "uncertain"
    assert judged.within == pytest.approx(0.5)
    assert judged.weights == pytest.approx((0.5, 0.5))


def test_without_resolution_the_limit_itself_passes():
    assert verdict(20.0, low=None, high=20.0).outcome == "normal"
    assert verdict(20.1, low=None, high=20.0).outcome == "abnormal"
    assert verdict(3.0, low=3.0, high=None).outcome == "normal"


def test_a_value_at_its_physical_bound_is_not_half_below_it():
    assert verdict(0.0, low=0.0, high=20.0, resolution=0.5, possible=(0.0, 100.0)).outcome == "normal"


def test_a_feeler_gauge_that_passes_at_15_and_not_at_18_stands_for_the_interval():
    """me-feeler-go-nogo of the outside checks: go 0.15, no-go 0.18, middle 0.165 (published; citation from memory)."""
    judged = verdict(0.165, low=0.17, high=None, resolution=0.015)
    assert judged.within == pytest.approx(1 / 3)
    assert judged.outcome == "uncertain"


def test_limits_that_cross_and_negative_resolutions_are_refused():
    with pytest.raises(ValueError, match="limits cross"):
        verdict(1.0, low=2.0, high=1.0)
    with pytest.raises(ValueError, match="negative"):
        verdict(1.0, low=None, high=1.0, resolution=-0.1)


readings = st.floats(min_value=-10.0, max_value=10.0)


@given(readings, readings, st.floats(min_value=0.0, max_value=5.0), st.floats(min_value=0.0, max_value=3.0))
def test_the_chance_is_a_chance_and_the_weights_share_it(value, low, width, resolution):
    judged = verdict(value, low=low, high=low + width, resolution=resolution)
    assert 0.0 <= judged.within <= 1.0
    assert sum(judged.weights) == pytest.approx(1.0)


@given(readings, st.floats(min_value=0.01, max_value=3.0), st.floats(min_value=0.0, max_value=3.0))
def test_a_lower_reading_is_never_less_likely_within_an_upper_limit(value, resolution, less):
    here = verdict(value, low=None, high=0.0, resolution=resolution)
    lower = verdict(value - less, low=None, high=0.0, resolution=resolution)
    assert lower.within >= here.within - 1e-9

"""Silent use: the worked figures of the issue, the e-Handbook's tables, and what must hold for any waits."""

from __future__ import annotations

from math import exp, inf

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import chi2, gamma

from app.proof.silence import (
    Waits,
    chance_silent,
    chance_silent_plug_in,
    chance_still_there,
    length_factor,
    longest_mean_excluded,
    silent_chance_for,
    use_needed,
)

TWO = Waits((10.0, 25.0))
USES = st.lists(st.floats(0.5, 5_000.0), min_size=1, max_size=6).map(tuple)


def test_two_known_intervals_leave_fourteen_per_cent_after_sixty_silent_km():
    """The gamma–Poisson figure by hand: (35 / 95)^2 = 0.1357; the plug-in exponential says exp(-2·60/35) = 0.0324."""
    assert chance_silent(TWO, 60.0) == pytest.approx(0.1357, abs=5e-5)
    assert chance_silent_plug_in(TWO, 60.0) == pytest.approx(0.0324, abs=5e-5)
    assert use_needed(TWO, 0.03) == pytest.approx(167.1, abs=0.05)


@pytest.mark.parametrize(
    ("confidence", "factors"),
    [
        (0.60, [0.916, 2.02, 3.11, 4.18, 5.24, 6.29]),
        (0.80, [1.61, 2.99, 4.28, 5.52, 6.72, 7.91]),
        (0.90, [2.30, 3.89, 5.32, 6.68, 7.99, 9.27]),
        (0.95, [3.00, 4.74, 6.30, 7.75, 9.15, 10.51]),
    ],
)
def test_length_factors_are_those_of_the_handbook(confidence, factors):
    """NIST/SEMATECH e-Handbook of Statistical Methods, 8.3.1.1, test length guide table (three digits printed)."""
    for failures, factor in enumerate(factors):
        assert length_factor(confidence, failures) == pytest.approx(factor, abs=0.006)


def test_without_a_failure_only_a_lower_bound_exists():
    """NIST/SEMATECH e-Handbook 8.4.5.1, zero-fails case: 1000 h without failure at 50, 80 and 95 %."""
    for confidence, bound in [(0.5, 1442.695), (0.8, 621.3349), (0.95, 333.8082)]:
        assert longest_mean_excluded(1000.0, confidence) == pytest.approx(bound, abs=1e-3)


def test_nothing_is_said_where_no_return_is_known():
    assert chance_silent(Waits(()), 100.0) is None
    assert chance_silent_plug_in(Waits(()), 100.0) is None
    assert use_needed(Waits((), quiet=(500.0,)), 0.03) is None


@given(USES, st.floats(0.0, 10_000.0), st.floats(0.3, 3.0))
def test_being_unsure_of_the_rate_never_makes_silence_prove_more(returns, silent, shape):
    waits = Waits(returns, shape=shape)
    known, unsure = chance_silent_plug_in(waits, silent), chance_silent(waits, silent)
    assert known is not None
    assert unsure is not None
    assert 0.0 <= known <= unsure + 1e-12 <= 1.0 + 1e-12


@given(USES, st.floats(0.001, 0.9), st.floats(0.5, 2.0))
def test_the_use_needed_is_just_enough(returns, at_most, shape):
    waits = Waits(returns, shape=shape)
    needed = use_needed(waits, at_most)
    assert needed is not None
    assert chance_silent(waits, needed) == pytest.approx(at_most, rel=1e-6)


@given(USES, st.floats(1.0, 1000.0))
def test_quiet_use_before_a_return_makes_the_fault_rarer(returns, quiet):
    with_quiet, without = chance_silent(Waits(returns, (quiet,)), 50.0), chance_silent(Waits(returns), 50.0)
    assert with_quiet is not None
    assert without is not None
    assert with_quiet >= without


@given(st.floats(0.01, 0.99), st.floats(0.001, 1.0))
def test_silence_never_speaks_for_the_fault(worked, silent):
    assert chance_still_there(worked, silent) <= 1.0 - worked + 1e-12


@given(st.floats(0.05, 0.95), st.floats(0.01, 0.5))
def test_the_silence_asked_for_leaves_the_chance_asked_for(worked, wanted):
    silent = silent_chance_for(worked, wanted)
    left = chance_still_there(worked, silent)
    assert left == pytest.approx(wanted, rel=1e-9) or (silent == 1.0 and left <= wanted)


def test_no_use_is_enough_for_a_chance_of_nothing():
    assert use_needed(TWO, 0.0) == inf
    assert use_needed(Waits((10.0,), shape=0.3), 1e-300) == inf


def test_a_repair_that_cannot_have_worked_is_never_proven_by_silence():
    assert chance_still_there(0.0, 0.0) == 1.0


@given(st.integers(0, 8), st.floats(0.05, 0.99))
def test_length_factors_are_half_the_chi_square_quantile(failures, confidence):
    """As the e-Handbook writes it: the quantile of chi-square with 2r + 2 degrees of freedom, halved."""
    assert length_factor(confidence, failures) == pytest.approx(chi2.ppf(confidence, 2 * failures + 2) / 2, rel=1e-9)


@given(USES, st.floats(1.0, 500.0))
def test_the_mixture_is_the_average_of_the_exponential_over_the_gamma(returns, silent):
    """By numerical integration over the rate: gamma with shape n and rate T (here in units of 1/T)."""
    waits = Waits(returns)
    average, _ = quad(lambda x: exp(-x * silent / waits.total) * gamma.pdf(x, waits.count), 0, inf, limit=200)
    assert chance_silent(waits, silent) == pytest.approx(average, rel=1e-4, abs=1e-9)

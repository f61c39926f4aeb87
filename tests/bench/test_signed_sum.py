"""The sum with many digits agrees with visiting every combination, and with a case worked by hand."""

from __future__ import annotations

from decimal import localcontext

import pytest

from app.bench.large_networks import Size, large
from app.bench.signed_sum import DIGITS, SignedSum
from app.bench.visiting import Visited
from app.network.noisy_or import Finding, Hypothesis, Leaf, NoisyOr, Report, State

TINY = Size(8, 3, 4, 2, reach=4, parents=(2, 4))


@pytest.fixture(autouse=True)
def _many_digits():
    with localcontext(prec=DIGITS):
        yield


@pytest.mark.parametrize("seed", range(4))
def test_posteriors_ratios_and_evidence_are_those_of_visiting_everything(seed):
    network = large(seed, TINY)
    exact, visited = SignedSum(network), Visited(network)
    whole = visited.chance()
    assert float(exact.evidence()) == pytest.approx(whole, rel=1e-13)
    for h in range(TINY.hypotheses):
        assert exact.posterior(h) == pytest.approx(visited.chance(state=(h, 1)) / whole, rel=1e-13)
    for test in range(TINY.positives + TINY.negatives, len(network.findings)):
        for h, joint in exact.joints(test):
            on = [visited.chance(state=(h, 1), test=test, present=present) for present in (True, False)]
            off = [visited.chance(state=(h, 0), test=test, present=present) for present in (True, False)]
            assert joint.lr_plus == pytest.approx((on[0] / sum(on)) / (off[0] / sum(off)), rel=1e-12)
            assert joint.lr_minus == pytest.approx((on[1] / sum(on)) / (off[1] / sum(off)), rel=1e-12)


def test_one_cause_of_one_finding_is_bayes_rule():
    """By hand: 0.2 x 0.9 / (0.2 x 0.9 + 0.8 x 0.05), the leak being 0.05 and 1 - 0.95 x (1 - q) = 0.9."""
    leaf = Leaf(0, 1.0 - 0.1 / 0.95)
    network = NoisyOr((Finding(0.05, Report.PRESENT),), (Hypothesis((State(0.8), State(0.2, (leaf,)))),))
    assert SignedSum(network).posterior(0) == pytest.approx(0.18 / 0.22, rel=1e-15)

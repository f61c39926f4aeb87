"""The engine against worked examples printed in textbooks; page numbers are from memory, the figures were recomputed.

Each network is written as the book has it; where two causes of the book hang together, their joint states are the
states of one hypothesis here.
"""

from __future__ import annotations

import pytest

from app.beliefs.beliefs import Beliefs
from app.beliefs.infer import infer
from app.network.noisy_or import Finding, Hypothesis, Leaf, NoisyOr, Questions, Report, Soft, State


def answers(network: NoisyOr, questions: Questions | None = None) -> Beliefs:
    beliefs = infer(network, questions or Questions())
    assert isinstance(beliefs, Beliefs)
    return beliefs


def cause(prior: float, *leaves: Leaf) -> Hypothesis:
    return Hypothesis((State(1.0 - prior), State(prior, leaves)))


@pytest.mark.parametrize(
    ("cold", "flu", "malaria", "fever"),
    [
        (0, 0, 0, 0.0),
        (0, 0, 1, 0.9),
        (0, 1, 0, 0.8),
        (0, 1, 1, 0.98),
        (1, 0, 0, 0.4),
        (1, 0, 1, 0.94),
        (1, 1, 0, 0.88),
        (1, 1, 1, 0.988),
    ],
)
def test_the_noisy_or_table_for_fever(cold: int, flu: int, malaria: int, fever: float) -> None:
    """Russell and Norvig, Artificial Intelligence: A Modern Approach, 3rd ed., chapter 14, noisy-OR table for Fever."""
    network = NoisyOr(
        (Finding(leak=0.0),),
        (cause(cold, Leaf(0, 0.4)), cause(flu, Leaf(0, 0.8)), cause(malaria, Leaf(0, 0.9))),
    )
    assert answers(network, Questions(tests=(0,))).tests[0].yes == pytest.approx(fever, abs=1e-12)


def test_the_burglar_alarm_by_odds() -> None:
    """Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, section 2.1: ratio 95, posterior 0.00941."""
    strength = 1.0 - (1.0 - 0.95) / (1.0 - 0.01)
    network = NoisyOr((Finding(0.01, Report.PRESENT),), (cause(0.0001, Leaf(0, strength)),))
    assert answers(network).states[0][1] == pytest.approx(0.00941, abs=5e-6)


def no_start(meter: Soft | None) -> NoisyOr:
    """The car that does not start: empty tank 0.02, dirty plugs 0.04; started with 0.99 when both are right."""
    dirty = 1.0 - 0.01 / 0.99
    return NoisyOr(
        (Finding(0.01, Report.PRESENT), Finding(0.0, meter)),
        (cause(0.02, Leaf(0, 1.0), Leaf(1, 1.0)), cause(0.04, Leaf(0, dirty))),
    )


def test_the_car_that_does_not_start() -> None:
    """Jensen, Bayesian Networks and Decision Graphs, section 2.3: no fuel 0.29, plugs dirty 0.58."""
    states = answers(no_start(None)).states
    assert states[0][1] == pytest.approx(0.29, abs=0.005)
    assert states[1][1] == pytest.approx(0.58, abs=0.005)


def test_the_fuel_meter_reads_half_and_the_plugs_take_the_blame() -> None:
    """Same section: with the meter at half, no fuel 0.001 and plugs dirty 0.804 (explaining away)."""
    states = answers(no_start(Soft(present=0.001, absent=0.60))).states
    assert states[0][1] == pytest.approx(0.001, abs=0.0005)
    assert states[1][1] == pytest.approx(0.804, abs=0.001)


def wet_grass(rain: bool | None = None) -> NoisyOr:
    """Cloudy ties sprinkler and rain together: their four joint states are one hypothesis."""
    weights = {
        (s, r): 0.5 * (0.1 if s else 0.9) * (0.8 if r else 0.2) + 0.5 * 0.5 * (0.2 if r else 0.8)
        for s in (0, 1)
        for r in (0, 1)
    }
    states = tuple(
        State(weight if rain is None or r == rain else 0.0, (Leaf(0, 0.9),) * (s + r))
        for (s, r), weight in weights.items()
    )
    return NoisyOr((Finding(0.0, Report.PRESENT),), (Hypothesis(states),))


def test_the_sprinkler_and_the_rain() -> None:
    """Murphy, A Brief Introduction to Graphical Models and Bayesian Networks, 1998: 0.6471, 0.430, 0.708, 0.1945."""
    found = answers(wet_grass())
    _, rain, sprinkler, both = found.states[0]
    assert 2.718281828459045**found.log_evidence == pytest.approx(0.6471, abs=5e-5)
    assert sprinkler + both == pytest.approx(0.430, abs=5e-4)
    assert rain + both == pytest.approx(0.708, abs=5e-4)
    given_rain = answers(wet_grass(rain=True)).states[0]
    assert given_rain[3] + given_rain[2] == pytest.approx(0.1945, abs=5e-5)

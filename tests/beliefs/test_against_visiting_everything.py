"""The engine against plain enumeration of every state and switch on random small networks."""

from __future__ import annotations

import pytest

from app.beliefs.beliefs import Beliefs, Contradiction
from app.beliefs.infer import infer
from app.bench.networks import flat, grouped
from app.bench.visiting import Visited
from app.network.noisy_or import NoisyOr, Questions

near = pytest.approx


def close(value: float):
    return near(value, rel=1e-11, abs=1e-13)


def asked(seed: int) -> tuple[NoisyOr, Questions, Visited, Beliefs | None, float]:
    network, questions = grouped(seed)
    visited = Visited(network)
    beliefs = infer(network, questions)
    whole = visited.chance()
    if whole == 0.0:
        assert isinstance(beliefs, Contradiction)
        return network, questions, visited, None, whole
    assert isinstance(beliefs, Beliefs)
    return network, questions, visited, beliefs, whole


@pytest.mark.parametrize("seed", range(60))
def test_states_events_and_documents_agree(seed):
    network, _, visited, beliefs, whole = asked(seed)
    if beliefs is None:
        return
    for h, hypothesis in enumerate(network.hypotheses):
        for s in range(len(hypothesis.states)):
            assert beliefs.states[h][s] == close(visited.chance(state=(h, s)) / whole)
    for e, chance in enumerate(beliefs.events):
        assert chance.yes == close(visited.chance(event=e) / whole)
        assert chance.yes + chance.no == close(1.0)
    for d, chance in enumerate(beliefs.documents):
        assert chance == close(visited.chance(true=d) / whole)


@pytest.mark.parametrize("seed", range(60))
def test_tests_and_retests_agree(seed):
    _, questions, visited, beliefs, whole = asked(seed)
    if beliefs is None:
        return
    for t in questions.tests:
        assert beliefs.tests[t].no == close(visited.chance(test=t) / whole)
        same_masses(visited, beliefs.masses, t, frozenset(), whole)
    for findings, retest in zip(questions.retests, beliefs.retests, strict=True):
        removed = frozenset(findings)
        without = visited.chance(removed)
        for e, chance in retest.events.items():
            assert chance.yes == close(visited.chance(removed, event=e) / without)
        for f in findings:
            assert retest.predicted[f].yes == close(visited.chance(removed, test=f, present=True) / without)
            same_masses(visited, retest.masses, f, removed, without)


def same_masses(visited, masses, test, removed, whole):
    for e in range(len(visited.network.events)):
        found = masses[test, e]
        for present, on, off in (
            (True, found.on_present, found.off_present),
            (False, found.on_absent, found.off_absent),
        ):
            both = visited.chance(removed, test=test, present=present) / whole
            on_expected = visited.chance(removed, event=e, test=test, present=present) / whole
            assert on == close(on_expected)
            assert off == close(both - on_expected)


@pytest.mark.parametrize("seed", range(60))
def test_blame_agrees(seed):
    _, questions, visited, beliefs, whole = asked(seed)
    if beliefs is None:
        return
    for blamed, chance in zip(questions.blamed, beliefs.blamed, strict=True):
        assert chance.no == close(visited.nobody_fires(frozenset(blamed), questions.complaint) / whole)
        assert chance.yes == close(1.0 - chance.no)


@pytest.mark.parametrize("seed", range(40))
def test_information_of_readings_one_after_another_agrees(seed):
    network, questions, visited, beliefs, _ = asked(seed)
    if beliefs is None:
        return
    for series, found in zip(questions.informing, beliefs.informing, strict=True):
        assert found.exact
        bits, reached = 0.0, 1.0
        for j, test in enumerate(series):
            if reached == 0.0:
                break
            parents = [h for h, hypothesis in enumerate(network.hypotheses) if touches(hypothesis, test)]
            more, absent = visited.bits(test, parents, series[:j])
            bits, reached = bits + reached * more, reached * absent
        assert found.bits == near(bits, abs=1e-12)


def touches(hypothesis, finding) -> bool:
    def inside(effects):
        for effect in effects:
            if hasattr(effect, "acts"):
                yield from inside(effect.effects) if effect.acts > 0.0 else ()
            else:
                yield effect.finding

    return any(finding in inside(state.effects) for state in hypothesis.states if state.weight > 0.0)


@pytest.mark.parametrize("seed", range(6))
def test_eleven_flat_hypotheses_agree(seed):
    network, questions = flat(seed, hypotheses=11, findings=10, parents=6)
    visited, beliefs = Visited(network), infer(network, questions)
    assert isinstance(beliefs, Beliefs)
    whole = visited.chance()
    for h in range(len(network.hypotheses)):
        assert beliefs.states[h][1] == close(visited.chance(state=(h, 1)) / whole)

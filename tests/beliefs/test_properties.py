"""What must hold of any network."""

from __future__ import annotations

from dataclasses import replace
from math import exp, log
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.beliefs import infer as asking_all
from app.beliefs.beliefs import Beliefs, Contradiction
from app.beliefs.infer import infer
from app.bench.networks import flat, grouped
from app.network.noisy_or import (
    Document,
    Event,
    Finding,
    Group,
    Hypothesis,
    Leaf,
    NoisyOr,
    Questions,
    Report,
    Soft,
    State,
    Without,
)

seeds = st.integers(0, 10_000)
quick = settings(derandomize=True, max_examples=30, deadline=None)


def believed(network: NoisyOr, questions: Questions = Questions()) -> Beliefs:  # noqa: B008
    beliefs = infer(network, questions)
    assert isinstance(beliefs, Beliefs)
    return beliefs


def with_report(network: NoisyOr, finding: int, report) -> NoisyOr:
    findings = list(network.findings)
    findings[finding] = replace(findings[finding], report=report)
    return replace(network, findings=tuple(findings))


def yes_or_no(prior: float, *effects) -> Hypothesis:
    return Hypothesis((State(1.0 - prior), State(prior, effects)))


@quick
@given(seeds)
def test_an_absent_finding_never_raises_its_parents(seed):
    """True of an only parent whatever else is reported; of several, where nothing sets them against each other."""
    network, questions = flat(seed)
    dice = Random(seed)
    h = dice.randrange(len(network.hypotheses))
    own = len(network.findings)
    state = network.hypotheses[h].states[1]
    more = replace(state, effects=(*state.effects, Leaf(own, 0.7)))
    hypotheses = list(network.hypotheses)
    hypotheses[h] = Hypothesis((hypotheses[h].states[0], more))
    findings = (*network.findings, Finding(0.1, Report.ABSENT))
    after = believed(replace(network, findings=findings, hypotheses=tuple(hypotheses)))
    assert after.states[h][1] < believed(network).states[h][1]
    for test in questions.tests[:1]:
        calm = replace(network, findings=tuple(replace(x, report=None) for x in network.findings))
        before, after = believed(calm), believed(with_report(calm, test, Report.ABSENT))
        assert all(b[1] <= a[1] * (1 + 1e-12) for a, b in zip(before.states, after.states, strict=True))


@quick
@given(seeds)
def test_the_order_of_hypotheses_and_findings_does_not_matter(seed):
    network, _ = grouped(seed)
    turned = reversed_network(network)
    there, here = infer(network), infer(turned)
    if isinstance(there, Contradiction):
        assert isinstance(here, Contradiction)
        return
    assert here.log_evidence == pytest.approx(there.log_evidence, abs=1e-11)
    for h, states in enumerate(there.states):
        assert list(here.states[len(there.states) - 1 - h]) == pytest.approx(list(states), rel=1e-11)


def reversed_network(network: NoisyOr):
    last = len(network.findings) - 1

    def turn(effect):
        if isinstance(effect, Leaf):
            return Leaf(last - effect.finding, effect.strength)
        return Group(effect.acts, tuple(turn(inner) for inner in reversed(effect.effects)))

    hypotheses = [
        Hypothesis(tuple(State(s.weight, tuple(turn(e) for e in reversed(s.effects))) for s in hypothesis.states))
        for hypothesis in network.hypotheses
    ]
    documents = tuple(replace(d, findings=tuple(last - f for f in d.findings)) for d in network.documents)
    return NoisyOr(tuple(reversed(network.findings)), tuple(reversed(hypotheses)), documents)


@quick
@given(seeds, seeds)
def test_two_networks_side_by_side_are_answered_as_each_alone(one, other):
    first, second = flat(one)[0], flat(other)[0]
    shift = len(first.findings)
    moved = [
        Hypothesis(
            (
                h.states[0],
                State(h.states[1].weight, tuple(Leaf(e.finding + shift, e.strength) for e in h.states[1].effects)),
            )
        )
        for h in second.hypotheses
    ]
    both = believed(NoisyOr(first.findings + second.findings, (*first.hypotheses, *moved)))
    apart = believed(first), believed(second)
    assert both.log_evidence == pytest.approx(apart[0].log_evidence + apart[1].log_evidence, abs=1e-11)
    expected = [states[1] for beliefs in apart for states in beliefs.states]
    assert [states[1] for states in both.states] == pytest.approx(expected, rel=1e-12)


@quick
@given(seeds)
def test_a_hypothesis_that_explains_both_ties_two_networks_together_exactly(seed):
    """Taken by components or with an impossible link that makes one component of all: the same answers."""
    network, questions = flat(seed, parents=2)
    present = [f for f, x in enumerate(network.findings) if x.report is Report.PRESENT]
    never = Hypothesis((State(1.0), State(1e-300, tuple(Leaf(f, 0.5) for f in present))))
    tied = replace(network, hypotheses=(*network.hypotheses, never))
    apart, together = believed(network, questions), believed(tied, questions)
    for h in range(len(network.hypotheses)):
        assert together.states[h][1] == pytest.approx(apart.states[h][1], rel=1e-12)
    for key, masses in apart.masses.items():
        assert together.masses[key].on_absent == pytest.approx(masses.on_absent, rel=1e-11, abs=1e-300)
        assert together.masses[key].off_present == pytest.approx(masses.off_present, rel=1e-11, abs=1e-300)


@quick
@given(seeds)
def test_a_switch_that_always_acts_is_no_switch(seed):
    network, questions = flat(seed)
    wrapped = [
        Hypothesis((h.states[0], State(h.states[1].weight, (Group(1.0, h.states[1].effects),))))
        for h in network.hypotheses
    ]
    plain, inside = believed(network, questions), believed(replace(network, hypotheses=tuple(wrapped)), questions)
    assert [s[1] for s in inside.states] == pytest.approx([s[1] for s in plain.states], rel=1e-12)
    for test in questions.tests:
        assert inside.tests[test].yes == pytest.approx(plain.tests[test].yes, rel=1e-12)


@quick
@given(seeds)
def test_what_is_left_out_counts_as_not_reported(seed):
    network, _ = grouped(seed)
    if isinstance(infer(network), Contradiction):
        return
    left_out = [f for f, x in enumerate(network.findings) if x.report is not None][:2]
    retest = believed(network, Questions(retests=(tuple(left_out),))).retests[0]
    bare = network
    for finding in left_out:
        bare = with_report(bare, finding, None)
    documents = tuple(replace(d, findings=tuple(f for f in d.findings if f not in left_out)) for d in network.documents)
    without = believed(replace(bare, documents=documents))
    for e, chance in retest.events.items():
        assert chance.yes == pytest.approx(without.events[e].yes, rel=1e-11, abs=1e-300)


def test_impossible_reports_are_named_with_nothing_that_does_not_clash():
    findings = [Finding(0.01, Report.PRESENT), Finding(0.0, Report.PRESENT), Finding(0.0, Report.ABSENT), Finding(0.1)]
    sure = Leaf(2, 1.0)
    network = NoisyOr(tuple(findings), (yes_or_no(0.1, Leaf(0, 0.5), Leaf(1, 0.9), sure), yes_or_no(0.2, Leaf(0, 0.5))))
    found = infer(network)
    assert found == Contradiction((1, 2))


def test_a_hypothesis_without_any_possible_state_contradicts_everything():
    assert infer(NoisyOr((), (Hypothesis((State(0.0),)),))) == Contradiction(())


def test_a_paper_that_may_be_made_up_never_contradicts():
    findings = (Finding(0.0, Report.PRESENT), Finding(0.02, Report.ABSENT))
    network = NoisyOr(findings, (yes_or_no(0.1, Leaf(1, 0.9)),), (Document(0.8, 0.9, (0, 1)),))
    beliefs = believed(network)
    assert beliefs.documents == (0.0,)
    assert beliefs.states[0][1] == pytest.approx(0.1)


def test_evidence_of_1e_minus_200_keeps_its_digits():
    """Twelve findings, each leaking 1e-17 and explained by one rare cause of its own: all by hand."""
    count, leak, prior, strength = 12, 1e-17, 2e-17, 0.5
    findings = tuple(Finding(leak, Report.PRESENT) for _ in range(count))
    shared = yes_or_no(1e-250, *(Leaf(f, 0.9) for f in range(count)))
    network = NoisyOr(findings, (*(yes_or_no(prior, Leaf(f, strength)) for f in range(count)), shared))
    beliefs = believed(network)
    alone = (1.0 - prior) * leak + prior * (leak + (1.0 - leak) * strength)
    assert exp(beliefs.log_evidence / count) == pytest.approx(alone, rel=1e-12)
    assert beliefs.log_evidence < log(1e-180)
    expected = prior * (leak + (1.0 - leak) * strength) / alone
    for h in range(count):
        assert beliefs.states[h][1] == pytest.approx(expected, rel=1e-12)


def test_a_tiny_leak_keeps_the_digits_of_a_rare_outcome():
    """By hand: a test that almost never fires; its four masses to the last digits, though P(present) is 2e-9."""
    leak, prior, strength = 1e-12, 1e-8, 0.2
    network = NoisyOr((Finding(leak),), (yes_or_no(prior, Leaf(0, strength)),), events=(Event(((0, 1),)),))
    beliefs = believed(network, Questions(tests=(0,)))
    masses = beliefs.masses[0, 0]
    assert masses.on_present == pytest.approx(prior * (leak + (1 - leak) * strength), rel=1e-13)
    assert masses.off_present == pytest.approx((1 - prior) * leak, rel=1e-13)


def test_reports_that_say_nothing_change_nothing():
    network, questions = flat(7)
    vague = with_report(network, questions.tests[0], Soft(0.4, 0.4))
    plain, told = believed(network), believed(vague)
    assert told.log_evidence == pytest.approx(plain.log_evidence + log(0.4), abs=1e-12)
    assert [s[1] for s in told.states] == pytest.approx([s[1] for s in plain.states], rel=1e-12)


def test_a_large_network_agrees_with_itself_taken_in_another_order():
    """Forty hypotheses, wide enough that the engine works with matrices; every kind of question."""
    dice = Random(5)
    network, _ = flat(11, hypotheses=40, findings=40, parents=9)
    reports = [Report.PRESENT if f < 7 else Report.ABSENT if f < 14 else None for f in range(40)]
    network = replace(
        network,
        findings=tuple(replace(x, report=r) for x, r in zip(network.findings, reports, strict=True)),
        events=tuple(Event(tuple((h, 1) for h in dice.sample(range(40), 3))) for _ in range(30)),
    )
    questions = Questions(tuple(range(14, 40)), ((0,), (8, 9)), None, (0,), ((1,), (2, 3), tuple(range(40))))
    there = believed(network, questions)
    turned = replace(
        network,
        hypotheses=tuple(reversed(network.hypotheses)),
        events=tuple(Event(tuple((39 - h, s) for h, s in event.any_of)) for event in network.events),
    )
    blamed = tuple(tuple(39 - h for h in group) for group in questions.blamed)
    here = believed(turned, replace(questions, blamed=blamed))
    for key, masses in there.masses.items():
        other = here.masses[key]
        for part in ("on_present", "on_absent", "off_present", "off_absent"):
            assert getattr(other, part) == pytest.approx(getattr(masses, part), rel=1e-11)
    assert [c.yes for c in here.blamed] == pytest.approx([c.yes for c in there.blamed], rel=1e-11)


def test_chances_without_a_report_are_those_of_its_retest():
    network, _ = grouped(3)
    reported = tuple(f for f, x in enumerate(network.findings) if x.report is not None)[:2]
    beliefs = believed(network, Questions(retests=(reported,), without=(Without(reported), Without(reported, (1,)))))
    assert beliefs.without[0] == beliefs.retests[0].events
    assert beliefs.without[1] == {1: beliefs.retests[0].events[1]}


def test_only_the_events_asked_for_are_answered():
    network, _ = grouped(3)
    assert believed(network, Questions(events=(2, 0))).events == tuple(believed(network).events[e] for e in (2, 0))


def test_what_would_take_too_long_is_left_out_and_said():
    network, _ = flat(11, hypotheses=30, findings=20, parents=6)
    reported = tuple(f for f, x in enumerate(network.findings) if x.report is not None)
    tests = tuple(f for f, x in enumerate(network.findings) if x.report is None)
    questions = Questions(tests, (reported[:1], reported[1:4]), informing=(tests[:3], tests[3:4]))
    all_of_it, some = believed(network, questions), infer(network, questions, most_work=5e4)
    assert isinstance(some, Beliefs)
    assert all_of_it.left_out is None
    assert some.left_out is not None
    assert some.left_out.startswith("Left out, because it would have taken too long: ")
    assert [s[1] for s in some.states] == pytest.approx([s[1] for s in all_of_it.states], rel=1e-12)
    assert len(some.tests) < len(tests)
    for test, chance in some.tests.items():
        assert chance.yes == pytest.approx(all_of_it.tests[test].yes, rel=1e-11)


def test_a_web_too_tight_to_be_worked_out_sets_reports_aside_and_says_so():
    """Thirty findings that all hypotheses share: two to the thirty sets of explained findings would not fit."""
    findings = tuple(Finding(0.01, Report.PRESENT) for _ in range(30))
    everything = tuple(Leaf(f, 0.3) for f in range(30))
    beliefs = believed(NoisyOr(findings, tuple(yes_or_no(0.1, *everything) for _ in range(4))))
    assert beliefs.left_out is not None
    assert "set aside" in beliefs.left_out
    assert all(0.0 < states[1] < 1.0 for states in beliefs.states)


def test_where_what_is_never_left_out_would_take_too_long_reports_are_set_aside_and_counted(monkeypatch):
    """Nine findings that all hypotheses share, and events over many of them: each event is followed a long way."""
    leaves = tuple(Leaf(f, 0.3) for f in range(9))
    hypotheses = tuple(yes_or_no(0.02, *leaves[n % 5 :]) for n in range(20))
    events = tuple(Event(tuple((h, 1) for h in range(first, 20, 3))) for first in range(12))
    network = NoisyOr(tuple(Finding(0.01, Report.PRESENT) for _ in leaves), hypotheses, events=events)
    whole = believed(network)
    monkeypatch.setattr(asking_all, "MOST_NEEDED", 5e5)
    some = believed(network)
    assert not whole.set_aside
    assert whole.left_out is None
    assert some.set_aside
    assert some.left_out is not None
    assert some.left_out.startswith(f"{len(some.set_aside)} reports were set aside")
    findings = tuple(replace(x, report=None) if f in some.set_aside else x for f, x in enumerate(network.findings))
    without = believed(replace(network, findings=findings))
    assert [e.yes for e in some.events] == pytest.approx([e.yes for e in without.events], rel=1e-12)


@pytest.mark.parametrize("seed", range(25))
def test_the_reports_named_as_clashing_do_clash_and_none_could_be_spared(seed):
    network, _ = grouped(seed)
    found = infer(network)
    if isinstance(found, Beliefs):
        return

    def only(reports) -> NoisyOr:
        findings = tuple(replace(x, report=x.report if f in reports else None) for f, x in enumerate(network.findings))
        papers = tuple(replace(d, findings=tuple(f for f in d.findings if f in reports)) for d in network.documents)
        return replace(network, findings=findings, documents=papers)

    assert isinstance(infer(only(found.findings)), Contradiction)
    for spared in found.findings:
        assert isinstance(infer(only(set(found.findings) - {spared})), Beliefs)

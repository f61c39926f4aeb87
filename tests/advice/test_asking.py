"""Whether it is gone once some faults are put right, against what inference says when asked plainly."""

from __future__ import annotations

from dataclasses import replace
from math import exp

import numpy as np
import pytest

from app.advice.asking import Complaint, gone
from app.advice.believed import OTHER, believed
from app.beliefs.infer import infer
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
)

C1, C2, OLD, T1, T2, PAPER = range(6)
LEAK = 1e-6


def a_network() -> NoisyOr:
    """Four causes of a complaint at two places, one with an earlier visit behind it, two readings of a test to come."""
    return NoisyOr(
        findings=(
            Finding(LEAK, Report.PRESENT),
            Finding(LEAK, Report.PRESENT),
            Finding(LEAK, Soft(0.9, 0.1)),
            Finding(0.02),
            Finding(0.05),
            Finding(0.02, Report.ABSENT),
        ),
        hypotheses=(
            _cause(0.02, Group(0.8, (Leaf(C1, 0.9), Leaf(C2, 0.9), Leaf(OLD, 0.9))), Group(0.9, (Leaf(T1, 0.9),))),
            _cause(0.05, Leaf(C1, 0.7), Leaf(T1, 0.92)),
            _cause(0.04, Leaf(C2, 0.6), Leaf(OLD, 0.5), Leaf(T2, 0.95), Leaf(PAPER, 0.9)),
            _cause(0.03, Group(0.5, (Leaf(C1, 0.8), Group(0.7, (Leaf(C2, 0.8),)))), Leaf(T2, 0.3), Leaf(T1, 0.2)),
        ),
        documents=(Document(0.8, 0.9, (PAPER,)),),
    )


def _cause(prior: float, *effects: Leaf | Group) -> Hypothesis:
    return Hypothesis((State(1.0 - prior), State(prior, effects)))


def complaint(network: NoisyOr) -> Complaint:
    """Hypotheses 0 and 1 are one fault each, 2 and 3 one together."""
    return Complaint(network, frozenset({C1, C2}), {0: 0, 1: 1, 2: 2, 3: 2}, {}, {})


SETS = tuple(frozenset(s) for s in ((), (0,), (1,), (2,), (0, 1), (1, 2), (0, 2), (0, 1, 2)))


def plainly(network: NoisyOr, put_right: frozenset[int]) -> float:
    """P(no live leaf of what is left fires on the complaint)."""
    fault_of = complaint(network).fault_of
    left = tuple(number for number, fault in fault_of.items() if fault not in put_right)
    if not left:
        return 1.0
    return infer(network, Questions(complaint=(C1, C2), blamed=(left,))).blamed[0].no


def reported(network: NoisyOr, **outcomes: Report) -> NoisyOr:
    names = {"t1": T1, "t2": T2}
    findings = list(network.findings)
    for name, report in outcomes.items():
        findings[names[name]] = replace(findings[names[name]], report=report)
    return replace(network, findings=tuple(findings))


def test_without_a_test_the_chances_are_those_of_the_blame_questions():
    now, rows = gone(complaint(a_network()), SETS)
    assert rows == []
    assert now == pytest.approx([plainly(a_network(), s) for s in SETS], rel=1e-9, abs=1e-12)


OUTCOMES = (
    {"t1": Report.ABSENT, "t2": Report.ABSENT},
    {"t1": Report.PRESENT},
    {"t1": Report.ABSENT, "t2": Report.PRESENT},
)


def test_readings_taken_until_the_first_abnormal_one_are_joined_exactly_with_what_is_gone():
    network = a_network()
    _, (row,) = gone(complaint(network), SETS, ((T1, T2),))
    before = infer(network).log_evidence
    for joint, outcome in zip(row, OUTCOMES, strict=True):
        seen = reported(network, **outcome)
        chance = exp(infer(seen).log_evidence - before)
        assert joint[-1] == pytest.approx(chance, rel=1e-9)
        assert joint[:-1] == pytest.approx([chance * plainly(seen, s) for s in SETS], rel=1e-8, abs=1e-12)


def test_a_fault_that_is_no_longer_there_keeps_nothing_up():
    """Its states: there before the work only, and there still."""
    network = a_network()
    both = Hypothesis((State(0.9), State(0.08, (Leaf(C1, 0.7), Leaf(T1, 0.92))), State(0.02, (Leaf(C1, 0.7),))))
    network = replace(network, hypotheses=(network.hypotheses[0], both, *network.hypotheses[2:]))
    asked = complaint(network)
    (still,), _ = gone(asked, (frozenset({0, 2}),))
    (mended,), _ = gone(replace(asked, there={1: frozenset({2})}), (frozenset({0, 2}),))
    posterior = infer(network).states[1]
    assert still < mended < 1.0
    assert mended > 1.0 - posterior[2] - 1e-9


def test_what_a_damage_has_destroyed_has_to_be_renewed_as_well():
    network = a_network()
    culprit = _cause(0.02, Group(0.8, (Leaf(C1, 0.9), Leaf(C2, 0.9)), turns_on=(0,)))
    network = replace(network, hypotheses=(culprit, *network.hypotheses[1:]), events=(Event(()),))
    asked = complaint(network)
    alone, _ = gone(asked, (frozenset({0}), frozenset({0, 1})))
    both, _ = gone(replace(asked, victims={0: frozenset({1})}), (frozenset({0}), frozenset({0, 1})))
    assert both[0] < alone[0]
    assert both[1] == pytest.approx(alone[1])


def test_what_was_destroyed_stays_so_when_its_culprit_is_gone():
    """The culprit was put right by a job since (no state of it is there now); the part it destroyed was not renewed."""
    network = a_network()
    culprit = _cause(0.02, Group(0.8, (Leaf(C1, 0.9), Leaf(C2, 0.9)), turns_on=(0,)))
    network = replace(network, hypotheses=(culprit, *network.hypotheses[1:]), events=(Event(()),))
    asked = replace(complaint(network), there={0: frozenset()})
    (by_itself, renewed), _ = gone(replace(asked, victims={0: frozenset({1})}), (frozenset(), frozenset({1})))
    (forgotten, _), _ = gone(asked, (frozenset(), frozenset({1})))
    assert by_itself < forgotten
    assert renewed > by_itself


def test_reports_that_cannot_all_be_true_have_no_answer():
    findings = (replace(a_network().findings[0], leak=0.0), *a_network().findings[1:])
    assert gone(complaint(replace(a_network(), findings=findings, hypotheses=())), SETS[:1]) is None


def test_the_table_holds_every_likely_combination_and_the_rest_as_one_that_nothing_here_cures():
    network = a_network()
    found = believed(complaint(network), ("a", "b", "c"), {"row": (T1, T2)})
    table = found.table
    assert found.gone == pytest.approx(plainly(network, frozenset()), abs=1e-9)
    assert table.faults == ("a", "b", "c", OTHER)
    assert table.chances.sum() == pytest.approx(1.0)
    assert table.cured({"a", "b"}) == pytest.approx(plainly(network, frozenset({0, 1})), abs=0.005)
    assert table.shown["row"].sum(axis=0) == pytest.approx(np.ones(len(table.worlds)))
    assert 0.0 <= 1.0 - table.cured({"a", "b", "c"}) < 0.02


def test_where_asking_about_combinations_or_tests_is_too_much_single_faults_are_still_told(monkeypatch):
    network, whole = a_network(), gone

    def small(complaint, sets, rows=()):
        return None if rows or max(map(len, sets)) > 1 else whole(complaint, sets, rows)

    monkeypatch.setattr("app.advice.believed.gone", small)
    found = believed(complaint(network), ("a", "b", "c"), {"row": (T1, T2)})
    assert found.table.shown == {}
    assert {int(world).bit_count() for world in found.table.worlds} == {1}
    assert found.table.chances.sum() == pytest.approx(1.0)


def test_a_row_that_takes_too_long_is_left_out_and_the_others_are_weighed(monkeypatch):
    """The work allowed lets some beginnings of rows go unanswered: here the last row's."""

    def less(network, questions):
        beliefs = infer(network, questions)
        last = max(beliefs.tests, default=None)
        return replace(beliefs, tests={test: chance for test, chance in beliefs.tests.items() if test != last})

    _, whole = gone(complaint(a_network()), SETS, ((T1,), (T1, T2)))
    monkeypatch.setattr("app.advice.asking.infer", less)
    _, rows = gone(complaint(a_network()), SETS, ((T1,), (T1, T2)))
    assert rows[0] == pytest.approx(whole[0])
    assert rows[1] is None
    found = believed(complaint(a_network()), ("a", "b", "c"), {"one": (T1,), "two": (T1, T2)})
    assert set(found.table.shown) == {"one"}

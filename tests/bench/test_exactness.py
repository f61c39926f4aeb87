"""The bench of exactness finds no difference, and would find one."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from app.beliefs.infer import infer
from app.bench import exactness as bench
from app.bench import oracle
from app.bench.differences import POSTERIORS, Worst, relative
from app.bench.exactness import exactness, oracle_files
from app.bench.page import untimed
from tests.bench.small import SMALL


def a_little_off(network, questions):
    beliefs = infer(network, questions)
    states = tuple(np.array(state) * (1.0 + 1e-11) for state in getattr(beliefs, "states", ()))
    return replace(beliefs, states=states) if states else beliefs


def test_nothing_is_beyond_the_tolerances_and_the_same_seed_says_the_same():
    report = exactness(SMALL)
    assert [goal.met for goal in report.goals] == [True, True, True]
    assert report.goals[0].found == 0
    networks = {row[0]: row[1] for row in report.tables[0].rows}
    assert networks["stored exact answers, schema 1"] == 20
    assert networks["stored exact answers, schema 2"] == 14
    assert all(row[2] > 0 for row in report.tables[0].rows)
    assert untimed(exactness(SMALL)) == untimed(report)


def test_answers_that_are_a_little_off_are_found(monkeypatch):
    monkeypatch.setattr(bench, "infer", a_little_off)
    monkeypatch.setattr(oracle, "infer", a_little_off)
    report = exactness(SMALL)
    assert report.failed
    assert all(row[-1] > 0 for row in report.tables[0].rows)


def test_rare_reports_are_as_rare_as_they_should_be():
    """ENGINE.md: any P(evidence) down to 1e-200."""
    chances = [bench.rare_chances(replace(SMALL, seed=seed))[0] for seed in range(4)]
    assert all(-205.0 < chance < -140.0 for chance in chances)


def test_a_folder_without_exact_answers_is_refused(tmp_path):
    with pytest.raises(FileNotFoundError, match="give their folder"):
        oracle_files(str(tmp_path))


def test_a_difference_is_relative_and_what_is_defined_for_one_alone_is_infinitely_far():
    assert relative(1.0 + 1e-9, 1.0) == pytest.approx(1e-9, rel=1e-6)
    assert relative(None, None) == 0.0
    assert relative(None, 0.5) == float("inf")
    assert relative(1e-300, 0.0) == float("inf")


def test_what_is_not_a_number_counts_as_beyond():
    worst = Worst()
    worst.chance(float("nan"), 0.5)
    worst.chance(0.5 * (1.0 + 0.1 * POSTERIORS), 0.5)
    assert (worst.compared, worst.beyond) == (2, 1)

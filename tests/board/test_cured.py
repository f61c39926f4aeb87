"""The chance that the repairs done have cured the complaint, before any use."""

from __future__ import annotations

import pytest

from app.board.build import build_board
from app.board.cured import chance_cured
from app.evidence.case import Source
from tests.cases import Story, a_case, real_rules, row

COMPLAINT = ("misfire-counted", "cyl-3")


def story() -> Story:
    return a_case(*COMPLAINT).visit("2026-03-02", 84_000).complains(*COMPLAINT)


def cured(told: Story) -> float:
    return chance_cured(told.case, real_rules())


def test_before_any_repair_next_to_nothing_has_cured_it():
    assert cured(story()) < 0.01


def test_one_renewed_part_cures_about_as_much_as_it_is_to_blame_for():
    """A renewed coil takes away 98 of 100 coil faults (kappa) and, seen here, was surely renewed."""
    blame = row(build_board(story().case, real_rules()), "coil-failing", "cyl-3").to_blame
    assert cured(story().job("renew-coil", "cyl-3")) == pytest.approx(0.98 * blame, abs=0.03)


def test_a_job_only_told_cures_less_than_one_seen_here():
    assert cured(story().job("renew-coil", "cyl-3", source=Source.TOLD)) < cured(story().job("renew-coil", "cyl-3"))


def test_the_better_the_cause_was_known_the_surer_its_repair_is():
    known = story().result("leak-down", "cyl-3", "abnormal")
    assert cured(known.job("renew-coil", "cyl-3")) < cured(story().job("renew-coil", "cyl-3"))


def test_work_on_something_else_cures_nothing():
    assert cured(story().job("renew-coil", "cyl-1")) < 0.02

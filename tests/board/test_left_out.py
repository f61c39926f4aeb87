"""Where the cap on multiply-adds is reached the board says what was left out (ENGINE.md: "instead of hanging")."""

from __future__ import annotations

from functools import partial

import pytest

from app.beliefs.infer import infer
from app.board import ahead, build
from app.board.build import Ranked, build_board, look_back, look_further, rank
from app.evidence.case_file import read_case_file
from app.seed.demo import DEMO
from tests.cases import real_rules

SAID = "Left out, because it would have taken too long: "


@pytest.fixture
def case():
    found, _ = read_case_file((DEMO / "yellow-pickup.yaml").read_text("utf-8"), "yellow-pickup.yaml", real_rules())
    return found


def test_a_usual_board_leaves_nothing_out(case):
    assert build_board(case, real_rules()).left_out is None


def test_old_results_that_would_take_too_long_are_named_and_the_ranking_stays(case, monkeypatch):
    whole = build_board(case, real_rules())
    monkeypatch.setattr(build, "infer", partial(infer, most_work=1.0))
    board = look_further(look_back(rank(case, real_rules())))
    assert board.left_out is not None
    assert board.left_out.startswith(SAID)
    assert "old result" in board.left_out
    assert [group.cause for group in board.groups][:5] == [group.cause for group in whole.groups][:5]
    assert board.groups[0].to_blame == pytest.approx(whole.groups[0].to_blame)
    assert board.not_listed == pytest.approx(whole.not_listed)


def test_next_steps_that_would_take_too_long_are_named(case, monkeypatch):
    looked_back = look_back(rank(case, real_rules()))
    assert isinstance(looked_back, Ranked)
    assert looked_back.board.left_out is None
    monkeypatch.setattr(ahead, "infer", partial(infer, most_work=1.0))
    board = look_further(looked_back)
    assert board.left_out is not None
    assert board.left_out.startswith(SAID)
    assert "the worth of" in board.left_out
    assert "would show" in board.left_out

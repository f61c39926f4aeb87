"""Where the cap on multiply-adds is reached the board says what was left out (ENGINE.md: "instead of hanging")."""

from __future__ import annotations

import pytest

from app.beliefs import narrow
from app.board import ahead, build
from app.board.build import Ranked, build_board, build_matrix, look_back, look_further, rank
from app.board.entry_words import entry_words
from app.evidence.case_file import read_case_file
from app.evidence.observe import observe
from app.network.build import build_network
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
    monkeypatch.setattr(build, "RANKING", 1.0)
    monkeypatch.setattr(build, "LOOKING_BACK", 1.0)
    board = look_further(look_back(rank(case, real_rules())))
    assert board.left_out is not None
    assert board.left_out.startswith(SAID)
    assert "old result" in board.left_out
    assert board.left_out.count(SAID) == 1
    assert not any(result.cannot_show for result in board.results)
    assert [group.cause for group in board.groups][:5] == [group.cause for group in whole.groups][:5]
    assert board.groups[0].to_blame == pytest.approx(whole.groups[0].to_blame)
    assert board.not_listed == pytest.approx(whole.not_listed)


def test_next_steps_that_would_take_too_long_are_named(case, monkeypatch):
    looked_back = look_back(rank(case, real_rules()))
    assert isinstance(looked_back, Ranked)
    assert looked_back.board.left_out is None
    monkeypatch.setattr(ahead, "NEXT_STEPS", 1.0)
    board = look_further(looked_back)
    assert board.left_out is not None
    assert board.left_out.startswith(SAID)
    assert "the worth of" in board.left_out
    assert "would show" in board.left_out


def test_a_matrix_says_which_tests_would_take_too_long_and_claims_nothing_of_them(case, monkeypatch):
    looked_back = look_back(rank(case, real_rules()))
    whole = build_matrix(looked_back)
    monkeypatch.setattr(ahead, "EVERY_TEST", 1.0)
    matrix = build_matrix(looked_back)
    assert whole.left_out is None
    assert matrix.left_out is not None
    assert matrix.left_out.startswith(SAID)
    assert "would show" in matrix.left_out
    marks = {id(column): column for column in matrix.columns}
    assert len(marks) == len(whole.columns)
    for now, then in zip(matrix.columns, whole.columns, strict=True):
        assert now.cells.keys() <= then.cells.keys()
        assert all(now.cells[row] == then.cells[row] for row in now.cells)


def test_reports_set_aside_for_the_ranking_stay_aside_for_what_comes_after(case, monkeypatch):
    monkeypatch.setattr(narrow, "MOST_WORK", 50.0)
    ranked = rank(case, real_rules())
    assert isinstance(ranked, Ranked)
    aside = ranked.answers.beliefs.set_aside
    assert aside
    assert all(ranked.answers.network.noisy_or.findings[finding].report is None for finding in aside)
    to_come = ahead.with_tests(ranked.answers, ranked.answers.network.lines.possible[:1])
    assert all(to_come.noisy_or.findings[finding].report is None for finding in aside)
    board = look_further(look_back(ranked))
    assert board.left_out is not None
    assert board.left_out.count("set aside") == 1
    words = entry_words(build_network(case, observe(case, real_rules()), real_rules()), case, real_rules())
    assert all(words[finding] in board.left_out.split("Not used: ")[1] for finding in aside)

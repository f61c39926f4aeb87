"""Chances in words, what moved, contradictory entries, the JSON form."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.board.as_json import board_as_json
from app.board.build import build_board
from app.board.moved import what_moved
from app.board.words import chance_figure, chance_in_words, chance_word
from app.evidence.case import CodeState
from tests.cases import FOUR, Story, a_case, real_rules


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.0, "practically excluded (less than 1 in 1,000)"),
        (0.7, "more likely than not (about 7 in 10)"),
        (0.8, "likely (about 8 in 10)"),
        (0.025, "unlikely (about 1 in 40)"),
        (0.9999, "practically certain (more than 999 in 1,000)"),
    ],
)
def test_a_chance_is_said_as_a_word_and_a_count(chance: float, words: str) -> None:
    assert chance_in_words(chance) == words


@settings(derandomize=True)
@given(st.floats(0.0, 1.0))
def test_every_chance_has_a_word_and_a_figure(chance: float) -> None:
    assert chance_word(chance)
    assert any(digit.isdigit() for digit in chance_figure(chance))


@settings(derandomize=True)
@given(st.floats(0.051, 0.949))
def test_the_figure_is_never_further_than_a_tenth_from_the_chance(chance: float) -> None:
    figure = chance_figure(chance).removeprefix("about ")
    count, of = figure.split(" in ")
    assert abs(int(count) / int(of) - chance) <= 0.051


def one_misfire() -> Story:
    return a_case("rough-running", "engine", FOUR).visit("2026-02-01", 90000).code("P0302")


def test_a_result_moves_what_it_shows_and_says_so() -> None:
    before = build_board(one_misfire().case, real_rules())
    after = build_board(one_misfire().result("coil-swap", "cyl-2", "abnormal").case, real_rules())
    moved = {m.cause: m for m in what_moved(before, after)}
    assert moved["coil-failing"].steps >= 0
    assert "went up" in moved["coil-failing"].sentence or "confirmed" in moved["coil-failing"].sentence


def test_nothing_new_moves_nothing() -> None:
    board = build_board(one_misfire().case, real_rules())
    assert what_moved(board, board) == ()


def test_the_json_form_has_every_row_once_and_is_json() -> None:
    board = build_board(one_misfire().result("leak-down", "cyl-2", "normal").case, real_rules())
    plain = json.loads(json.dumps(board_as_json(board)))
    rows = [(h["cause"], h["place"], h["epoch"]) for h in plain["hypotheses"]]
    assert len(rows) == len(set(rows)) > 50
    assert plain["results"][0]["cannot_show"]
    assert {"cause", "place", "reason"} == set(plain["results"][0]["cannot_show"][0])
    assert plain["next"][0]["information_bits"] > 0
    blame = [h["to_blame"] for h in plain["hypotheses"]]
    assert blame == sorted(blame, reverse=True)


def test_a_board_without_any_word_of_the_complaint_still_stands() -> None:
    story = a_case("rough-running", "engine", FOUR).visit("2026-02-01", 90000).code("P0303", state=CodeState.ABSENT)
    board = build_board(story.case, real_rules())
    assert board.groups
    assert any("Reproduce the complaint" in step for step in board.first_of_all) or board.first_of_all

"""A complaint that nothing listed can make on this vehicle: noise of a cooling that it does not have."""

from __future__ import annotations

from dataclasses import replace

from app.advice.prices import supplied_prices
from app.board.advise import build_advice
from app.board.as_json import board_as_json
from app.board.build import build_board, build_matrix, look_back, rank
from tests.cases import FOUR, a_case, real_rules

RULES = real_rules()
WITHOUT = replace(FOUR, traits={**FOUR.traits, "air conditioning": "none", "cooling fan": "belt driven"})
CASE = a_case("ac-noise", "vehicle", WITHOUT).visit("2026-05-01", 90_000).complains("ac-noise", "vehicle")


def test_the_board_says_that_nothing_listed_explains_it():
    board = build_board(CASE.case, RULES)
    assert (board.groups, board.confirmed, board.ruled_out, board.next) == ((), (), (), ())
    assert board.not_listed > 0.99
    assert board_as_json(board)["hypotheses"] == []


def test_no_test_is_judged_and_no_repair_is_advised():
    assert build_matrix(look_back(rank(CASE.case, RULES))).columns == ()
    steps = build_advice(CASE.case, RULES, supplied_prices(RULES)).steps
    assert steps is None or (steps.tests, steps.repairs) == ((), ())

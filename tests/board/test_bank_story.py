"""The bank story: misfire on every cylinder of one bank, valve gear opened at another shop before.

The story's orderings are common practice of the trade, told by the project's user; the layout is a V6 of our own.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.board.board import Board, Mark, Status
from app.board.build import build_board, build_matrix, look_back, rank
from app.evidence.case import CodeState, Source
from app.rules.library import Rules
from tests.cases import Story, a_case, group, leaders, real_rules, row

TIGHT = "exhaust-lash-too-tight"
SETTLES = (Mark.RULES_IN, Mark.RULES_OUT, Mark.BOTH)
BANK = ("cyl-1", "cyl-3", "cyl-5")


def the_story() -> Story:
    return (
        a_case("rough-running", "engine")
        .visit("2026-02-01", 90000, here=False, shop="Harbour Garage")
        .complains("rough-running", "engine", source=Source.TOLD)
        .job("adjust-valve-lash", "engine", source=Source.PAPER)
        .visit("2026-03-01", 91000)
        .code("P0301", "P0303", "P0305")
        .code("P0302", "P0304", "P0306", state=CodeState.ABSENT)
    )


def with_results(test: str, outcome: str, places: tuple[str, ...]) -> Story:
    """Each reading taken as it should be: none of the situations that would blind the test."""
    story = the_story()
    as_it_should_be = {blind.situation: False for blind in real_rules().tests[test].blind_when}
    for place in places:
        story = story.result(test, place, outcome, situations=as_it_should_be)
    return story


@pytest.fixture(scope="module")
def board() -> Board:
    return build_board(the_story().case, real_rules())


def without_damage_to_valves(rules: Rules) -> Rules:
    tight = rules.causes[TIGHT]
    kept = tuple(damage for damage in tight.damages if damage.victim != "valve-burnt-or-not-sealing")
    return replace(rules, causes={**rules.causes, TIGHT: replace(tight, damages=kept)})


def test_tight_exhaust_lash_of_that_bank_leads(board: Board) -> None:
    assert leaders(board, 1) == [TIGHT]
    assert row(board, TIGHT, "bank-1").to_blame > 10 * row(board, TIGHT, "bank-2").to_blame


def test_cam_timing_and_the_upstream_sensor_of_that_bank_are_among_the_first_six(board: Board) -> None:
    assert {"cam-timing-off-one-bank", "o2-upstream-biased"} <= set(leaders(board, 6))
    for cause in ("cam-timing-off-one-bank", "o2-upstream-biased"):
        assert row(board, cause, "bank-1").to_blame > row(board, cause, "bank-2").to_blame


def test_three_independent_coil_faults_are_not(board: Board) -> None:
    assert "coil-failing" not in leaders(board, 6)


def test_what_nothing_listed_explains_keeps_at_least_a_thousandth(board: Board) -> None:
    assert board.not_listed >= 0.001


def test_a_leak_down_within_limits_is_marked_as_blind_to_tight_lash_with_the_physics_of_why() -> None:
    told = build_board(with_results("leak-down", "normal", BANK).case, real_rules())
    for result in told.results:
        spots = {(spot.row.cause, spot.row.place): spot.reason for spot in result.cannot_show}
        assert "lash" in spots[TIGHT, result.place]


def test_a_leak_down_within_limits_leaves_tight_lash_where_it_was_but_lowers_a_burnt_valve() -> None:
    rules = without_damage_to_valves(real_rules())
    before = build_board(the_story().case, rules)
    after = build_board(with_results("leak-down", "normal", BANK).case, rules)
    assert 0.9 <= odds(group(after, TIGHT).probability) / odds(group(before, TIGHT).probability) <= 1.1
    burnt = "valve-burnt-or-not-sealing"
    for place in BANK:
        assert row(after, burnt, place).probability < 0.3 * row(before, burnt, place).probability


def test_only_measuring_the_lash_confirms_it_or_rules_it_out() -> None:
    matrix = build_matrix(look_back(rank(the_story().case, real_rules()))).columns
    settling = {
        column.test
        for column in matrix
        for seen, cell in column.cells.items()
        if seen.cause == TIGHT and seen.place in ("bank-1", *BANK) and cell.mark in SETTLES
    }
    assert settling == {"valve-lash-exhaust"}
    confirmed = build_board(with_results("valve-lash-exhaust", "abnormal", BANK).case, real_rules())
    assert row(confirmed, TIGHT, "cyl-1").status is Status.CONFIRMED


def test_two_cylinders_of_the_bank_measured_right_rule_out_the_banks() -> None:
    one = build_board(with_results("valve-lash-exhaust", "normal", BANK[:1]).case, real_rules())
    two = build_board(with_results("valve-lash-exhaust", "normal", BANK[:2]).case, real_rules())
    assert row(one, TIGHT, "bank-1").status is not Status.RULED_OUT
    assert row(two, TIGHT, "bank-1").status is Status.RULED_OUT


def test_a_cam_gear_seen_on_its_mark_rules_the_timing_out() -> None:
    timing = "cam-timing-off-one-bank"
    before = build_board(the_story().case, real_rules())
    assert row(before, timing, "bank-1").probability < 0.6
    after = build_board(with_results("cam-gear-mark-seen", "normal", ("bank-1",)).case, real_rules())
    assert row(after, timing, "bank-1").status is Status.RULED_OUT


def odds(chance: float) -> float:
    return chance / (1.0 - chance)

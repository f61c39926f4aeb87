"""The bench of boards on a few cases; no times are asserted."""

from __future__ import annotations

import shutil
from dataclasses import astuple

import pytest

from app.bench import boards as bench
from app.bench.board_stages import forget, measured
from app.bench.boards import LAYOUTS, boards, demo_cases, drawn_cases
from app.bench.page import untimed
from app.bench.shelf import a_shelf
from app.board.build import build_board
from app.rules.priors import shares
from tests.bench.small import SMALL
from tests.cases import real_rules


@pytest.fixture
def _little(monkeypatch, tmp_path):
    shutil.copy(bench.DEMO / "yellow-pickup.yaml", tmp_path)
    monkeypatch.setattr(bench, "DEMO", tmp_path)
    monkeypatch.setattr(bench, "VISITS", (2,))


@pytest.mark.usefixtures("_little")
def test_every_layout_and_number_of_visits_has_its_row_and_the_same_seed_gives_the_same_tables():
    report = boards(SMALL)
    demo, sizes, *_ = report.tables
    assert [row[0] for row in demo.rows] == ["yellow-pickup"]
    assert [row[0] for row in sizes.rows] == [f"{at}, 2 visits" for at in LAYOUTS]
    assert untimed(boards(SMALL)) == untimed(report)


def test_all_demo_cases_are_read():
    assert len(list(demo_cases(real_rules()))) == 10


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("visits", [1, 2, 4])
def test_cases_are_drawn_for_the_layout_and_with_the_visits(layout, visits):
    cases = list(drawn_cases(real_rules(), layout, visits, count=3, seed=5))
    assert {case.vehicle.layout.banks for case in cases} == {LAYOUTS[layout][0]}
    assert {len(case.visits) for case in cases} == {visits}


def test_stages_make_up_the_whole_and_nothing_is_kept_before_the_cold_board():
    case = next(iter(drawn_cases(real_rules(), "V6", 2, count=1, seed=1)))
    with a_shelf() as shelf:
        one = measured(case, real_rules(), shelf)
    assert one is not None
    assert one.hypotheses > 0
    assert one.positives > 0
    assert one.cold.whole == pytest.approx(sum(astuple(one.cold)))
    assert shares.cache_info().currsize > 0
    forget()
    assert shares.cache_info().currsize == 0


@pytest.mark.parametrize("visits", [1, 4])
def test_a_case_read_from_the_rows_has_the_board_of_the_case_that_was_filed(visits):
    case = next(iter(drawn_cases(real_rules(), "V6", visits, count=1, seed=2)))
    with a_shelf() as shelf:
        read = shelf.history.case(shelf.file(case))
    boards = [build_board(one, real_rules()) for one in (case, read)]
    ranked = [[(group.cause, pytest.approx(group.to_blame)) for group in board.groups] for board in boards]
    assert ranked[0] == ranked[1]

"""The board against common practice: stories from the trade with what a master technician expects of them.

The stories and the expectations in `vignettes.yaml` are common practice of the trade. They were written by the
developers from general trade knowledge, before the board was asked; no published case stands behind them.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from app.board.board import Board
from app.board.build import build_board
from app.evidence.case import Case
from app.evidence.case_file import read_case_file
from app.rules.words import CauseId, FamilyId, SymptomId, TestId
from tests.cases import real_rules

FILE = Path(__file__).with_name("vignettes.yaml")
FIRST = 3
AT_LEAST = 40


@dataclass(frozen=True)
class Vignette:
    """A story and what is expected of its board; `cannot_show` holds pairs of an old test and a cause."""

    name: str
    family: FamilyId
    case_text: str
    first_three: tuple[CauseId, ...]
    cannot_show: frozenset[tuple[TestId, CauseId]]
    not_first: tuple[CauseId, ...]


def vignettes() -> Iterator[Vignette]:
    """Every scalar read as text, so that each case can go to the reader of case files as it stands."""
    written = yaml.load(FILE.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return (_vignette(entry) for entry in written["vignettes"])


def _vignette(entry: Mapping[str, Any]) -> Vignette:
    return Vignette(
        name=entry["name"],
        family=FamilyId(entry["family"]),
        case_text=json.dumps(entry["case"], ensure_ascii=False),
        first_three=tuple(entry["first three"]),
        cannot_show=frozenset((TestId(one["test"]), CauseId(one["cause"])) for one in entry["cannot show"]),
        not_first=tuple(entry.get("not first", ())),
    )


ALL = tuple(vignettes())
each_vignette = pytest.mark.parametrize("vignette", ALL, ids=[one.name for one in ALL])


@cache
def case_of(vignette: Vignette) -> Case:
    case, problems = read_case_file(vignette.case_text, vignette.name, real_rules())
    assert case is not None, "\n".join(map(str, problems))
    return case


def leading(board: Board) -> list[CauseId]:
    """Causes in the order of the board; what is confirmed stands first."""
    names = [row.id.cause for row in board.confirmed] + [group.cause for group in board.groups]
    return list(dict.fromkeys(names))


@each_vignette
def test_the_board_judges_as_common_practice_does(vignette: Vignette) -> None:
    board = build_board(case_of(vignette), real_rules())
    first = leading(board)[:FIRST]
    said = {(result.test, spot.row.cause) for result in board.results for spot in result.cannot_show}
    assert set(vignette.first_three) <= set(first)
    assert first[0] not in vignette.not_first
    assert vignette.cannot_show <= said


@each_vignette
def test_the_complaint_is_one_of_its_family(vignette: Vignette) -> None:
    """The complaint is a lead complaint of the family, or a kind of one."""
    rules = real_rules()
    lead = rules.families[vignette.family].lead
    complaint = SymptomId(case_of(vignette).complaint)
    assert any(complaint in rules.kinds(general) or complaint == general for general in lead)


def test_every_family_has_a_vignette_and_there_are_enough() -> None:
    assert {one.family for one in ALL} == set(real_rules().families)
    assert len({one.name for one in ALL}) == len(ALL) >= AT_LEAST


def test_what_is_expected_is_known_to_the_rules() -> None:
    """A slip in a name would make `not first` a check that cannot fail."""
    expected = {cause for one in ALL for cause in (*one.first_three, *one.not_first)}
    assert expected <= set(real_rules().causes)
    assert all(1 <= len(one.first_three) <= FIRST and one.cannot_show for one in ALL)

"""One test: how it is done, and for every cause on the board what it can show there, with the reason."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from app.board.board import Cell, Mark, Matrix, RowId
from app.board.words import capital, odds_in_words
from app.measurements.numbers import write_number
from app.rules.library import Rules
from app.rules.tests import Test
from app.rules.words import CauseId
from app.vehicle.layout import Layout
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.board_view import row_names
from app.web.views.case_page import complaint_name
from app.web.views.matrix import SHORT, MarkView, glyph
from app.web.views.said import at_place, sentence


@dataclass(frozen=True, slots=True)
class MarkLine:
    """What the test at a place can do to a cause at a place. `figures`: its likelihood ratios."""

    place: str
    cause: str
    mark: MarkView
    reason: str
    figures: str


@dataclass(frozen=True, slots=True)
class ByRule:
    """What the rules say of this test and a cause that this vehicle can have: how surely it shows it, or why not."""

    cause: str
    said: str


@dataclass(frozen=True, slots=True)
class TestPage:
    __test__ = False

    frame: Frame
    name: str
    back: str
    back_words: str
    record: str
    measures: str
    method: str
    good_when: str
    source: str
    minutes: str
    covers: str
    cautions: tuple[str, ...]
    false_alarms: tuple[str, ...]
    lines: tuple[MarkLine, ...]
    too_long: str
    shows: tuple[ByRule, ...]
    cannot_show: tuple[ByRule, ...]


def test_page(frame: Frame, scene: Scene, rules: Rules, *, test: Test, matrix: Matrix) -> TestPage:
    case = f"/cases/{scene.on_file.id}"
    return TestPage(
        frame=frame,
        name=capital(test.name),
        back=case,
        back_words=complaint_name(scene.on_file, rules),
        record=f"{case}?record=result&test={test.id}",
        measures=sentence(f"Measures {test.measures}") if test.measures else "",
        method=sentence(test.method),
        good_when=sentence(test.pass_rule),
        source=sentence(test.pass_source),
        minutes=_minutes(test),
        covers=", ".join(rules.covers[cover].name for cover in test.needs_open),
        cautions=tuple(sentence(one) for one in test.cautions),
        false_alarms=tuple(sentence(one) for one in test.false_alarm_why),
        lines=tuple(_lines(test, scene, matrix)),
        too_long=matrix.left_out or "",
        shows=_by_rule(((s.cause, s.strength.word) for s in test.shows), scene, rules),
        cannot_show=_by_rule(((c.cause, sentence(c.reason)) for c in test.cannot_show), scene, rules),
    )


def _minutes(test: Test) -> str:
    set_up, each = write_number(test.setup_minutes), write_number(test.minutes_per_place)
    return f"{set_up} minutes to set up, {each} at each place"


def _lines(test: Test, scene: Scene, matrix: Matrix) -> Iterator[MarkLine]:
    """What the matrix says of the test, then what its results so far could not show of the causes further down."""
    names, layout = row_names(scene.board), scene.around.layout
    told: set[tuple[str, RowId]] = set()
    for column in matrix.columns:
        for row, cell in column.cells.items() if column.test == test.id else ():
            if row in names:
                told.add((column.place, row))
                yield _line(
                    column.place_words, _cause(row, names, layout), cell.mark, cell.reason, figures=_figures(cell)
                )
    for result in scene.board.results:
        for spot in result.cannot_show if result.test == test.id else ():
            if spot.row in names and (result.place, spot.row) not in told:
                told.add((result.place, spot.row))
                yield _line(result.place_words, _cause(spot.row, names, layout), Mark.CANNOT_SHOW, spot.reason)


def _by_rule(said: Iterable[tuple[CauseId, str]], scene: Scene, rules: Rules) -> tuple[ByRule, ...]:
    """Only causes of this complaint that can act somewhere on this vehicle."""
    family, layout = rules.family_of(scene.case.complaint), scene.around.layout
    fitting = {c.id: c for c in rules.causes.values() if family.has(c) and c.can_act_at(layout)}
    return tuple(ByRule(capital(fitting[cause].name), words) for cause, words in said if cause in fitting)


def _cause(row: RowId, names: Mapping[RowId, str], layout: Layout) -> str:
    return f"{names[row]}{at_place(row.place, layout)}"


def _line(place: str, cause: str, mark: Mark, reason: str, *, figures: str = "") -> MarkLine:
    return MarkLine(place, cause, MarkView(glyph(mark), SHORT[mark], f"{SHORT[mark]}."), sentence(reason), figures)


def _figures(cell: Cell) -> str:
    """How far an abnormal and a normal outcome move the odds."""
    if cell.lr_plus is None or cell.lr_minus is None:
        return ""
    return f"abnormal: {odds_in_words(cell.lr_plus)}; normal: {odds_in_words(cell.lr_minus)}"

"""One test: how it is done, and for every cause on the board what it can show there, with the reason."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.board.board import Cell, RowId, TestColumn
from app.measurements.numbers import write_number
from app.rules.library import Rules
from app.rules.tests import Test
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.board_view import row_names
from app.web.views.case_page import complaint_name
from app.web.views.matrix import SHORT, MarkView, glyph
from app.web.views.said import sentence


@dataclass(frozen=True, slots=True)
class MarkLine:
    """What the test at a place can do to a cause at a place. `figures`: its likelihood ratios."""

    place: str
    cause: str
    mark: MarkView
    reason: str
    figures: str


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


def test_page(frame: Frame, scene: Scene, rules: Rules, *, test: Test) -> TestPage:
    case = f"/cases/{scene.on_file.id}"
    return TestPage(
        frame=frame,
        name=f"{test.name[:1].upper()}{test.name[1:]}",
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
        lines=tuple(_lines([c for c in scene.board.columns if c.test == test.id], row_names(scene.board), scene)),
    )


def _minutes(test: Test) -> str:
    set_up, each = write_number(test.setup_minutes), write_number(test.minutes_per_place)
    return f"{set_up} minutes to set up, {each} at each place"


def _lines(columns: list[TestColumn], names: Mapping[RowId, str], scene: Scene) -> Iterator[MarkLine]:
    layout = scene.around.layout
    for column in columns:
        for row, cell in column.cells.items():
            if row in names:
                cause = f"{names[row]}, {layout.in_words(row.place)}"
                mark = MarkView(glyph(cell.mark), SHORT[cell.mark], f"{SHORT[cell.mark]}")
                yield MarkLine(column.place_words, cause, mark, sentence(cell.reason), _figures(cell))


def _figures(cell: Cell) -> str:
    """How far an abnormal and a normal outcome move the odds."""
    if cell.lr_plus is None or cell.lr_minus is None:
        return ""
    return f"abnormal × {_factor(cell.lr_plus)}, normal × {_factor(cell.lr_minus)}"


def _factor(value: float) -> str:
    return "over 1,000" if value > 1000 else f"{value:.2g}" if value < 100 else f"{value:.0f}"

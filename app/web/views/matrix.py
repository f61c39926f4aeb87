"""The matrix tests × hypotheses: what each test can do to each row now, as a mark with its word."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.board.board import Board, Cell, Mark, Matrix, RowId, TestColumn
from app.vehicle.layout import Layout
from app.web.showing import Frame
from app.web.views.board_causes import row_anchor
from app.web.views.said import is_whole

ROWS_SHOWN = 12
STRENGTH = (Mark.BOTH, Mark.RULES_IN, Mark.RULES_OUT, Mark.LEANS, Mark.CANNOT_SHOW)
SHORT = {
    Mark.BOTH: "in and out",
    Mark.RULES_IN: "rules in",
    Mark.RULES_OUT: "rules out",
    Mark.LEANS: "leans",
    Mark.CANNOT_SHOW: "cannot show",
}


@dataclass(frozen=True, slots=True)
class MarkView:
    """A mark as shape and word. `about`: the whole sentence, for whoever cannot see row and column."""

    glyph: str
    word: str
    about: str


@dataclass(frozen=True, slots=True)
class LineView:
    """A cause at a place as the head of a line. `address`: where the board tells of it."""

    address: str
    name: str
    place: str
    cells: tuple[MarkView, ...]


@dataclass(frozen=True, slots=True)
class HeadView:
    """A test as the head of a column. `address`: all its marks with their reasons."""

    name: str
    done: bool
    address: str


@dataclass(frozen=True, slots=True)
class MatrixView:
    """`left_out`: how many rows further down are not in the table; `too_long`: what was not worked out; "" for none."""

    heads: tuple[HeadView, ...]
    lines: tuple[LineView, ...]
    legend: tuple[MarkView, ...]
    left_out: str
    too_long: str


@dataclass(frozen=True, slots=True)
class MatrixPage:
    """The matrix on a page of its own, for whoever comes without script."""

    frame: Frame
    back: str
    back_words: str
    matrix: MatrixView


def matrix_view(board: Board, matrix: Matrix, layout: Layout, case_id: str) -> MatrixView:
    """The first rows that were judged against every test that can do something to one; a test's places together."""
    rows = [(group.name, row) for group in board.groups for row in group.rows]
    judged = frozenset(row for column in matrix.columns for row in column.cells)
    shown = [(name, row) for name, row in rows if row.id in judged][:ROWS_SHOWN]
    others = len(rows) - len(shown)
    tests = _tests(matrix.columns, [row.id for _, row in shown])
    return MatrixView(
        heads=tuple(
            HeadView(columns[0].name, any(c.done for c in columns), f"/cases/{case_id}/tests/{columns[0].test}")
            for columns in tests
        ),
        lines=tuple(
            LineView(
                address=f"/cases/{case_id}#{row_anchor(row.id)}",
                name=name,
                place="" if is_whole(row.id.place) else layout.in_words(row.id.place),
                cells=tuple(_mark(strongest(columns, row.id), columns[0].name, name) for columns in tests),
            )
            for name, row in shown
        ),
        legend=(*(MarkView(glyph(mark), SHORT[mark], MEANINGS[mark]) for mark in STRENGTH), MarkView("", "–", NO_MARK)),
        left_out=f"{others} less likely rows are not in this table." if others else "",
        too_long=matrix.left_out or "",
    )


MEANINGS = {
    Mark.BOTH: "An abnormal outcome can confirm it, a normal one can rule it out.",
    Mark.RULES_IN: "An abnormal outcome can confirm it; a normal one does not clear it.",
    Mark.RULES_OUT: "A normal outcome can rule it out; an abnormal one may have other reasons.",
    Mark.LEANS: "Moves it, but does not settle it.",
    Mark.CANNOT_SHOW: "Says nothing about it; touch the test’s name for the reason.",
}


NO_MARK = "These rules say nothing of this pair, or it was not worked out."


def strongest(columns: Sequence[TestColumn], row: RowId) -> Cell | None:
    """The best this test can do to the row at any of its places."""
    cells = [column.cells[row] for column in columns if row in column.cells]
    return min(cells, key=lambda cell: STRENGTH.index(cell.mark), default=None)


def glyph(mark: Mark) -> str:
    return mark.value.replace(" ", "-")


def _mark(cell: Cell | None, test: str, row: str) -> MarkView:
    if cell is None:
        return MarkView("", "–", f"{test}, {row}: no mark.")
    reason = f" {cell.reason}" if cell.reason else ""
    return MarkView(glyph(cell.mark), SHORT[cell.mark], f"{test}, {row}: {SHORT[cell.mark]}.{reason}")


def _tests(columns: Iterable[TestColumn], rows: Sequence[RowId]) -> list[list[TestColumn]]:
    """Columns by test; those that can settle most of the rows first, those that can do nothing to any left out."""
    by_test: dict[str, list[TestColumn]] = {}
    for column in columns:
        by_test.setdefault(column.test, []).append(column)
    weighed = [(_use(group, rows), group) for group in by_test.values()]
    return [group for use, group in sorted(weighed, key=lambda pair: -pair[0]) if use > 0]


def _use(columns: Sequence[TestColumn], rows: Sequence[RowId]) -> float:
    worth = {Mark.BOTH: 3.0, Mark.RULES_IN: 2.0, Mark.RULES_OUT: 2.0, Mark.LEANS: 0.5, Mark.CANNOT_SHOW: 0.0}
    cells = [strongest(columns, row) for row in rows]
    done = 0.1 if any(column.done for column in columns) else 0.0
    return done + sum(worth[cell.mark] for cell in cells if cell)

"""The matrix: every test at every place, with its mark for every row it has to do with."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from functools import cache

from app.board.ahead import Ahead
from app.board.answered import Answered
from app.board.board import Cell, Mark, RowId, TestColumn
from app.board.marks import cell
from app.board.old_results import changed_since, row_id
from app.board.words import capital
from app.network.lines import TestLine
from app.rules.words import CauseId
from app.vehicle.layout import PlaceId

NumberedRow = tuple[int, RowId]


def columns(answered: Answered, ahead: Ahead) -> tuple[TestColumn, ...]:
    """Tests to come, and those done on the present state, marked for the leading rows as if not yet done."""
    rows_near = _Near(answered, ahead)
    latest: dict[tuple[str, str], TestColumn] = {}
    for line in (*answered.network.lines.tests, *ahead.lines):
        latest[line.test.id, line.place] = _column(line, rows_near, ahead, answered)
    return tuple(latest.values())


class _Near:
    """The rows about now of one cause that have to do with a place; asked for again and again, found once."""

    def __init__(self, answered: Answered, ahead: Ahead) -> None:
        self._layout = answered.case.vehicle.layout
        self._rows: dict[CauseId, list[NumberedRow]] = defaultdict(list)
        for number, row in enumerate(answered.network.rows):
            if row.place is not None and number in ahead.rows:
                self._rows[row.cause].append((number, row_id(row)))
        self.at = cache(self._at)

    def _at(self, cause: CauseId, place: PlaceId) -> Sequence[NumberedRow]:
        return [(number, row) for number, row in self._rows[cause] if self._layout.related(row.place, place)]


def _column(line: TestLine, near: _Near, ahead: Ahead, answered: Answered) -> TestColumn:
    return TestColumn(
        test=line.test.id,
        place=line.place,
        name=capital(line.test.name),
        place_words=answered.case.vehicle.layout.in_words(line.place),
        done=line.result is not None,
        cells={**_blind_cells(line, near), **_linked_cells(line, near, ahead, answered)},
    )


def _blind_cells(line: TestLine, near: _Near) -> Mapping[RowId, Cell]:
    """What the rules say this test cannot show, at the rows around its place."""
    cells: dict[RowId, Cell] = {}
    for named in line.test.cannot_show:
        blind = Cell(Mark.CANNOT_SHOW, None, None, named.reason)
        cells.update((row, blind) for _, row in near.at(named.cause, line.place))
    return cells


def _linked_cells(line: TestLine, near: _Near, ahead: Ahead, answered: Answered) -> Mapping[RowId, Cell]:
    """No mark at all where it would have taken too long to find out."""
    if line.finding in ahead.unjudged or (line.result is not None and not answered.judged(line.finding)):
        return {}
    return {
        row: _cell(line, number, ahead, answered)
        for shows in line.test.shows
        for number, row in near.at(shows.cause, line.place)
    }


def _cell(line: TestLine, number: int, ahead: Ahead, answered: Answered) -> Cell:
    row = answered.network.rows[number]
    changed = changed_since(line, row, answered) if line.result is not None else None
    if changed is not None and changed.job is not None:
        operation = answered.rules.operations[changed.job.job.operation].name
        why = f"Taken before {operation} at visit {changed.job.visit.number}; take it again."
        return Cell(Mark.CANNOT_SHOW, None, None, why)
    masses = ahead.tests.get((line.finding, number)) if line.result is None else answered.masses(line.finding, number)
    return cell(line, row, masses, answered)

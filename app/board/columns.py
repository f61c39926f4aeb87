"""The matrix: every test at every place, with its mark for every row it has to do with."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from app.board.answered import Answered
from app.board.board import Cell, Mark, RowId, TestColumn
from app.board.marks import cell, no_link_reason
from app.board.old_results import changed_since, row_id
from app.board.words import capital
from app.network.lines import TestLine
from app.network.rows import RowMembers


def columns(answered: Answered) -> tuple[TestColumn, ...]:
    """Tests to come, and those done on the present state, marked as if their own results were not known."""
    rows: dict[str, list[tuple[int, RowMembers]]] = defaultdict(list)
    for number, row in enumerate(answered.network.rows):
        if row.place is not None and row.job is None:
            rows[row.cause].append((number, row))
    latest: dict[tuple[str, str], TestColumn] = {}
    for line in answered.network.lines.tests:
        latest[line.test.id, line.place] = _column(line, rows, answered)
    return tuple(latest.values())


def _column(line: TestLine, rows: Mapping[str, list[tuple[int, RowMembers]]], answered: Answered) -> TestColumn:
    layout = answered.case.vehicle.layout
    spoken_of = [*(s.cause for s in line.test.shows), *(c.cause for c in line.test.cannot_show)]
    cells: dict[RowId, Cell] = {}
    for cause in spoken_of:
        for number, row in rows.get(cause, ()):
            if row.place is not None and layout.related(row.place, line.place):
                cells[row_id(row)] = _cell(line, number, row, answered)
    return TestColumn(
        test=line.test.id,
        place=line.place,
        name=capital(line.test.name),
        place_words=layout.in_words(line.place),
        done=line.result is not None,
        cells=cells,
    )


def _cell(line: TestLine, number: int, row: RowMembers, answered: Answered) -> Cell:
    changed = changed_since(line, row, answered) if line.result is not None else None
    if changed is not None and changed.job is not None:
        operation = answered.rules.operations[changed.job.job.operation].name
        why = f"Taken before {operation} at visit {changed.job.visit.number}; take it again."
        return Cell(Mark.CANNOT_SHOW, None, None, why)
    masses = answered.masses(line.finding, number)
    if masses is None and not any(s.cause == row.cause for s in line.test.shows):
        return Cell(Mark.CANNOT_SHOW, None, None, no_link_reason(line.test, row.cause))
    return cell(line, row, masses, answered)

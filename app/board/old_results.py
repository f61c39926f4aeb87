"""Results already taken: what each shows about each row, and what it could not have shown and why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.board.answered import Answered
from app.board.board import BlindSpot, Mark, OldResult, RowId
from app.board.entry_words import outcome_words
from app.board.marks import cell, speaks_in, speaks_out
from app.board.words import capital, joined
from app.evidence.case import Outcome
from app.network.candidates import Cut
from app.network.lines import TestLine
from app.network.rows import RowMembers


@dataclass(frozen=True, slots=True)
class Settles:
    """Whether a result, taken with its repeats and blind mates, can rule a row in or out."""

    rules_in: bool
    rules_out: bool


def row_id(row: RowMembers) -> RowId:
    """A row about a place; the head has none and is not an id."""
    if row.place is None:
        raise ValueError("the head of a group has no place")
    return RowId(row.cause, row.place, row.job)


def settles(finding: int, row: int, answered: Answered) -> Settles:
    """By the joint factor of the result and all that is taken together with it for this row."""
    factor = answered.factor(row, answered.asked.retest_for(finding, answered.network.rows[row].place))
    return Settles(speaks_in(factor), speaks_out(factor))


def old_results(answered: Answered) -> tuple[OldResult, ...]:
    return tuple(_old_result(line, answered) for line in answered.network.lines.tests if line.result is not None)


def _old_result(line: TestLine, answered: Answered) -> OldResult:
    result = line.result
    assert result is not None
    layout = answered.case.vehicle.layout
    blind: list[BlindSpot] = []
    rules_in: list[RowId] = []
    rules_out: list[RowId] = []
    changed: dict[str, list[str]] = {}
    for number, row in _rows_near(line, answered):
        cut = changed_since(line, row, answered)
        if cut is not None and cut.job is not None:
            _note_change(changed, cut, row, answered)
            continue
        seen = cell(line, row, answered.masses(line.finding, number), answered)
        settled = settles(line.finding, number, answered)
        if seen.mark is Mark.CANNOT_SHOW:
            blind.append(_blind_spot(line, row, seen.reason))
        elif result.source.here and result.result.outcome is Outcome.ABNORMAL and settled.rules_in:
            rules_in.append(row_id(row))
        elif result.source.here and result.result.outcome is Outcome.NORMAL and settled.rules_out:
            rules_out.append(row_id(row))
    return OldResult(
        entry=result.entry,
        visit=result.at.visit,
        test=line.test.id,
        name=capital(line.test.name),
        place=line.place,
        place_words=layout.in_words(line.place),
        outcome=result.result.outcome,
        outcome_words=outcome_words(line.test, result.result.outcome),
        source=result.source,
        cannot_show=tuple(blind),
        rules_in=tuple(rules_in),
        rules_out=tuple(rules_out),
        stale=tuple(f"{why}: {joined(sorted(set(names)))}." for why, names in changed.items()),
    )


def _rows_near(line: TestLine, answered: Answered) -> Iterable[tuple[int, RowMembers]]:
    """Rows about now whose place has to do with the test's place, of causes the test speaks about at all."""
    layout = answered.case.vehicle.layout
    spoken_of = {s.cause for s in line.test.shows} | {c.cause for c in line.test.cannot_show}
    for number, row in enumerate(answered.network.rows):
        if row.job is None and row.place and row.cause in spoken_of and layout.related(row.place, line.place):
            yield number, row


def changed_since(line: TestLine, row: RowMembers, answered: Answered) -> Cut | None:
    """The first job after the result that may have changed what the row is about."""
    cuts = [
        cut
        for member in row.members
        for cut in answered.network.candidates[member].cuts
        if cut.at > line.at and cut.job is not None
    ]
    return min(cuts, key=lambda cut: cut.at, default=None)


def _note_change(changed: dict[str, list[str]], cut: Cut, row: RowMembers, answered: Answered) -> None:
    if cut.job is None:
        return
    operation = answered.rules.operations[cut.job.job.operation].name
    taken = f"Taken before {operation} at visit {cut.job.visit.number}"
    why = f"{taken}, it no longer speaks about what that may have changed"
    changed.setdefault(why, []).append(answered.rules.causes[row.cause].name)


def _blind_spot(line: TestLine, row: RowMembers, reason: str) -> BlindSpot:
    result = line.result
    assert result is not None
    return BlindSpot(row_id(row), line.test.id, line.place, result.at.visit, result.result.outcome, reason)

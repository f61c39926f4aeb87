"""Results already taken: what each shows about each row, and what it could not have shown and why."""

from __future__ import annotations

from collections.abc import Iterable

from app.board.answered import Answered
from app.board.board import BlindSpot, Mark, OldResult, RowId
from app.board.entry_words import outcome_words
from app.board.marks import cell
from app.board.words import capital, joined
from app.evidence.case import Outcome
from app.network.candidates import Cut
from app.network.lines import TestLine
from app.network.rows import RowMembers
from app.rules.thresholds import CAN_RULE_IN, CAN_RULE_OUT


def row_id(row: RowMembers) -> RowId:
    """A row about a place; the head has none and is not an id."""
    if row.place is None:
        raise ValueError("the head of a group has no place")
    return RowId(row.cause, row.place, row.job)


def rules_in(finding: int, row: int, answered: Answered) -> bool:
    """Whether a result, with all that is taken together with it for this row, moves its odds far enough up."""
    factor = answered.factor(finding, row)
    return factor is not None and factor >= CAN_RULE_IN


def rules_out(finding: int, row: int, answered: Answered) -> bool:
    """The same, far enough down."""
    factor = answered.factor(finding, row)
    return factor is not None and factor <= CAN_RULE_OUT


def old_results(answered: Answered) -> tuple[OldResult, ...]:
    return tuple(_old_result(line, answered) for line in answered.network.lines.tests if line.result is not None)


def _old_result(line: TestLine, answered: Answered) -> OldResult:
    result = line.result
    assert result is not None
    layout = answered.case.vehicle.layout
    blind: list[BlindSpot] = []
    ruled_in: list[RowId] = []
    ruled_out: list[RowId] = []
    changed: dict[str, list[str]] = {}
    seen_here = result.result.outcome if result.source.here else None
    for number, row in _rows_near(line, answered):
        cut = changed_since(line, row, answered)
        if cut is not None and cut.job is not None:
            _note_change(changed, cut, row, answered)
            continue
        seen = cell(line, row, answered.masses(line.finding, number), answered)
        if seen.mark is Mark.CANNOT_SHOW and answered.judged(line.finding):
            blind.append(_blind_spot(line, row, seen.reason))
        elif seen_here is Outcome.ABNORMAL and rules_in(line.finding, number, answered):
            ruled_in.append(row_id(row))
        elif seen_here is Outcome.NORMAL and rules_out(line.finding, number, answered):
            ruled_out.append(row_id(row))
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
        rules_in=tuple(ruled_in),
        rules_out=tuple(ruled_out),
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

"""Rows grouped by cause, ordered by how far they are to blame for the complaint."""

from __future__ import annotations

from collections.abc import Sequence

from app.board.answered import Answered
from app.board.board import BlindSpot, CauseGroup, OldResult, Row, Speaks, Status
from app.board.old_results import row_id
from app.board.sayings import likely_culprits, sayings
from app.board.status import status_of
from app.board.words import capital
from app.network.rows import RowMembers

ROWS_EXPLAINED = 10
SPEAKS_FROM = 1.2
"""A factor nearer to 1 than this is not worth a line."""


def groups(answered: Answered, results: Sequence[OldResult]) -> tuple[CauseGroup, ...]:
    """All causes now, the most to blame first."""
    blind = [spot for result in results for spot in result.cannot_show]
    heads = [(n, row) for n, row in enumerate(answered.network.rows) if row.place is None]
    heads.sort(key=lambda head: -answered.to_blame(head[0]))
    return tuple(_group(n, row, blind, answered, explained=i < ROWS_EXPLAINED) for i, (n, row) in enumerate(heads))


def earlier(answered: Answered) -> tuple[Row, ...]:
    """Earlier epochs that a job ended by renewing something: "the old coil"."""
    rows = [(n, row) for n, row in enumerate(answered.network.rows) if row.job is not None]
    return tuple(_row(n, row, [], answered, explained=False) for n, row in rows)


def _group(
    head: int, members: RowMembers, blind: Sequence[BlindSpot], answered: Answered, *, explained: bool
) -> CauseGroup:
    cause = answered.rules.causes[members.cause]
    numbered = [
        (n, row)
        for n, row in enumerate(answered.network.rows)
        if row.cause == cause.id and row.place is not None and row.job is None
    ]
    numbered.sort(key=lambda pair: -answered.to_blame(pair[0]))
    rows = tuple(_row(n, row, blind, answered, explained=explained and i == 0) for i, (n, row) in enumerate(numbered))
    return CauseGroup(
        cause=cause.id,
        name=capital(cause.name),
        why=cause.why,
        probability=answered.chance(head).yes,
        to_blame=answered.to_blame(head),
        status=_status_of_group(head, rows, answered),
        rows=rows,
        which_place=_which_place(rows),
        cautions=cause.cautions,
        said=sayings(head, answered),
    )


def _status_of_group(head: int, rows: Sequence[Row], answered: Answered) -> Status:
    statuses = {row.status for row in rows}
    if Status.CONFIRMED in statuses:
        return Status.CONFIRMED
    if statuses == {Status.RULED_OUT}:
        return Status.RULED_OUT
    return status_of(head, answered)


def _which_place(rows: Sequence[Row]) -> str:
    if len(rows) < 2:
        return ""
    first, second = rows[0], rows[1]
    if first.to_blame >= 2.0 * second.to_blame:
        return f"Most likely at {first.place_words}."
    return "Which place is not yet known; one reading there tells."


def _row(number: int, row: RowMembers, blind: Sequence[BlindSpot], answered: Answered, *, explained: bool) -> Row:
    identity = row_id(row)
    cause = answered.rules.causes[row.cause]
    network = answered.network
    killable = number in network.killed
    speaks = _speaks(number, answered) if explained else []
    return Row(
        id=identity,
        name=capital(cause.name),
        place_words=answered.case.vehicle.layout.in_words(identity.place),
        probability=answered.chance(number).yes,
        to_blame=answered.to_blame(number),
        by_itself=answered.chance(network.by_itself[number]).yes if killable else None,
        killed=answered.chance(network.killed[number]).yes if killable else None,
        culprits=tuple(likely_culprits(number, answered)) if killable and explained else (),
        status=status_of(number, answered),
        speaks_for=tuple(s for s in speaks if s.factor > 1.0),
        speaks_against=tuple(s for s in reversed(speaks) if s.factor < 1.0),
        blind_spots=tuple(spot for spot in blind if spot.row == identity),
        said=sayings(number, answered),
    )


def _speaks(number: int, answered: Answered) -> list[Speaks]:
    """What speaks for (largest factor first) and against, singly and by kind."""
    asked = answered.asked
    singles = [
        Speaks(answered.words[finding], factor, entry=answered.network.book.entries[finding])
        for finding, retest in asked.of_single.items()
        if (factor := answered.factor(number, retest)) is not None
    ]
    kinds = [
        Speaks(capital(words), factor, whole_kind=True)
        for words, retest in asked.of_kind.items()
        if (factor := answered.factor(number, retest)) is not None
    ]
    told = [s for s in (*singles, *kinds) if s.factor >= SPEAKS_FROM or s.factor <= 1.0 / SPEAKS_FROM]
    return sorted(told, key=lambda s: -s.factor)

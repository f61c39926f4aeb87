"""Rows grouped by cause, ordered by how far they are to blame for the complaint."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from app.board.ahead import InOrder
from app.board.answered import TIED, Answered
from app.board.board import BlindSpot, CauseGroup, OldResult, Row, RowId, Speaks, Status
from app.board.old_results import row_id
from app.board.sayings import likely_culprits, sayings
from app.board.status import status_of
from app.board.words import capital
from app.network.rows import RowMembers
from app.rules.words import CauseId


def in_order(answered: Answered) -> list[tuple[int, list[int]]]:
    """The head of every cause with its rows about places, the most to blame first."""
    heads = [(n, row) for n, row in enumerate(answered.network.rows) if row.place is None]
    heads.sort(key=lambda head: -round(answered.to_blame(head[0]), TIED))
    at_places: dict[CauseId, list[int]] = defaultdict(list)
    for number, row in enumerate(answered.network.rows):
        if row.place is not None and row.job is None:
            at_places[row.cause].append(number)
    return [(n, _most_to_blame_first(at_places[row.cause], answered)) for n, row in heads]


def groups(
    answered: Answered, results: Sequence[OldResult], ordered: InOrder, speaks: Mapping[int, Sequence[Speaks]]
) -> tuple[CauseGroup, ...]:
    """All causes now, in this order; `speaks`: what moves the odds of a row, as far as that is worked out."""
    blind: dict[RowId, list[BlindSpot]] = defaultdict(list)
    for result in results:
        for spot in result.cannot_show:
            blind[spot.row].append(spot)
    return tuple(_group(head, rows, blind, speaks, answered) for head, rows in ordered)


def earlier(answered: Answered) -> tuple[Row, ...]:
    """Earlier epochs that a job ended by renewing something: "the old coil"."""
    rows = [(n, row) for n, row in enumerate(answered.network.rows) if row.job is not None]
    return tuple(_row(n, row, {}, {}, answered) for n, row in rows)


def _most_to_blame_first(numbers: Iterable[int], answered: Answered) -> list[int]:
    return sorted(numbers, key=lambda number: -round(answered.to_blame(number), TIED))


Blind = Mapping[RowId, Sequence[BlindSpot]]
Spoken = Mapping[int, Sequence[Speaks]]


def _group(head: int, numbers: Sequence[int], blind: Blind, spoken: Spoken, answered: Answered) -> CauseGroup:
    network = answered.network
    cause = answered.rules.causes[network.rows[head].cause]
    rows = tuple(_row(number, network.rows[number], blind, spoken, answered) for number in numbers)
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


def _row(number: int, row: RowMembers, blind: Blind, spoken: Spoken, answered: Answered) -> Row:
    identity = row_id(row)
    cause = answered.rules.causes[row.cause]
    by_itself, killed = answered.by_itself(number), answered.killed(number)
    told = spoken.get(number, ())
    return Row(
        id=identity,
        name=capital(cause.name),
        place_words=answered.case.vehicle.layout.in_words(identity.place),
        probability=answered.chance(number).yes,
        to_blame=answered.to_blame(number),
        by_itself=None if by_itself is None else by_itself.yes,
        killed=None if killed is None else killed.yes,
        culprits=() if killed is None or number not in spoken else tuple(likely_culprits(number, answered)),
        status=status_of(number, answered),
        speaks_for=tuple(s for s in told if s.factor > 1.0),
        speaks_against=tuple(s for s in reversed(told) if s.factor < 1.0),
        blind_spots=tuple(blind.get(identity, ())),
        said=sayings(number, answered),
    )

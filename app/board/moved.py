"""What changed between two boards of one case, in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.board.board import Board, CauseGroup, Status
from app.board.words import chance_figure
from app.rules.words import CauseId

WORTH_SAYING = 0.02


@dataclass(frozen=True, slots=True)
class Moved:
    """One cause whose standing changed: `steps` places up (> 0) or down, and a sentence."""

    cause: CauseId
    steps: int
    status: Status | None
    sentence: str


def what_moved(before: Board, after: Board) -> tuple[Moved, ...]:
    """Causes that rose, fell, or were settled, in the order of the board now."""
    then = {group.cause: (place, group) for place, group in enumerate(before.groups)}
    found = [_moved(then, place, group) for place, group in enumerate(after.groups)]
    return (*_settled(before, after), *(moved for moved in found if moved is not None))


def _moved(then: Mapping[CauseId, tuple[int, CauseGroup]], place: int, group: CauseGroup) -> Moved | None:
    if group.cause not in then:
        return Moved(group.cause, 0, group.status, f"{group.name} is open again.")
    old_place, old = then[group.cause]
    if abs(group.to_blame - old.to_blame) < WORTH_SAYING:
        return None
    direction = "up" if group.to_blame > old.to_blame else "down"
    sentence = (
        f"{group.name} went {direction}: to blame {chance_figure(group.to_blame)}, "
        f"before {chance_figure(old.to_blame)}."
    )
    return Moved(group.cause, old_place - place, None, sentence)


def _settled(before: Board, after: Board) -> tuple[Moved, ...]:
    then = {row.id for row in (*before.confirmed, *before.ruled_out)}
    new = (row for row in (*after.confirmed, *after.ruled_out) if row.id not in then)
    return tuple(
        Moved(row.id.cause, 0, row.status, f"{row.name}, {row.place_words}: {row.status.value}.") for row in new
    )

"""The half-page "where we stand" for the advisor: known and how, not known, next, minutes, spent so far."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.board.board import Board, OldResult, Row
from app.board.words import chance_figure, chance_word
from app.history.values import Spent
from app.measurements.numbers import write_number
from app.rules.library import Rules
from app.vehicle.layout import VEHICLE
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.case_page import complaint_name, vehicle_words
from app.web.views.driving import driving_advice
from app.web.views.entries import moment
from app.web.views.said import SOURCES, sentence

CAUSES_NAMED = 4
STEPS_NAMED = 3
RESULTS_NAMED = 8


@dataclass(frozen=True, slots=True)
class NextLine:
    what: str
    minutes: str


@dataclass(frozen=True, slots=True)
class StandingPage:
    frame: Frame
    back: str
    vehicle: str
    customer: str
    complaint: str
    words: str
    at: str
    may_drive: tuple[str, ...]
    known: tuple[str, ...]
    looked_at: tuple[str, ...]
    not_known: tuple[str, ...]
    next: tuple[NextLine, ...]
    spent: tuple[str, ...]


def standing_page(frame: Frame, scene: Scene, rules: Rules, *, spent: Spent, now: datetime) -> StandingPage:
    board, on_file = scene.board, scene.on_file
    drive = (*board.may_drive, *driving_advice(on_file.details.may_drive))
    return StandingPage(
        frame=frame,
        back=f"/cases/{on_file.id}",
        vehicle=vehicle_words(on_file),
        customer=on_file.vehicle.customer.name if on_file.vehicle.customer else "",
        complaint=complaint_name(on_file, rules),
        words=on_file.complaint_words,
        at=moment(now),
        may_drive=tuple(dict.fromkeys(drive)),
        known=_known(board),
        looked_at=_looked_at(board),
        not_known=_not_known(board),
        next=tuple(
            NextLine(_step(s.name, s.place_words, whole=s.places == (VEHICLE,)), f"{s.minutes:.0f} min")
            for s in board.next[:STEPS_NAMED]
        ),
        spent=_spent(spent),
    )


def _known(board: Board) -> tuple[str, ...]:
    """Confirmed and ruled out, each with the result that says so."""
    lines = [f"{_named(row)}: {row.status.value}{_because(row)}." for row in (*board.confirmed, *board.ruled_out)]
    return tuple(lines) or ("Nothing is confirmed or ruled out yet.",)


def _because(row: Row) -> str:
    told = row.speaks_for if row.status.value == "confirmed" else row.speaks_against
    first = next((one for one in told if not one.whole_kind), None)
    return f", by {first.what}" if first else ""


def _looked_at(board: Board) -> tuple[str, ...]:
    results = board.results[-RESULTS_NAMED:]
    return tuple(f"{_step(r.name, r.place_words, whole=r.place == VEHICLE)}: {_outcome(r)}." for r in results)


def _outcome(result: OldResult) -> str:
    return f"{result.outcome_words} ({SOURCES[result.source]}, visit {result.visit})"


def _not_known(board: Board) -> tuple[str, ...]:
    if board.contradiction:
        return ("The entries contradict each other; they are being checked.",)
    open_causes = tuple(
        sentence(
            f"{group.name}: {chance_word(group.to_blame)} to produce the complaint ({chance_figure(group.to_blame)})"
        )
        for group in board.groups[:CAUSES_NAMED]
    )
    rest = f"Not explained by anything listed: {chance_word(board.not_listed)} ({chance_figure(board.not_listed)})."
    return (*open_causes, rest)


def _spent(spent: Spent) -> tuple[str, ...]:
    at_least = "" if spent.minutes_known else "at least "
    time = (
        f"{at_least}{write_number(spent.minutes)} minutes over {spent.visits} visit{'s' if spent.visits != 1 else ''}."
    )
    costs = [f"{'Our workshop' if c.here else c.shop or 'Another shop'}: {c.words}." for c in spent.costs if c.words]
    return (sentence(time), *costs)


def _step(name: str, place: str, *, whole: bool) -> str:
    return name if whole else f"{name}, {place}"


def _named(row: Row) -> str:
    return row.name if row.id.place == VEHICLE else f"{row.name}, {row.place_words}"

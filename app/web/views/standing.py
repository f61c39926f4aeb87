"""The half-page "where we stand" for the advisor: known and how, not known, next, minutes, spent so far."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from app.board.board import Board, OldResult, Row
from app.board.words import chance_figure, chance_word, least_in_words
from app.history.values import Spent
from app.measurements.numbers import write_number
from app.rules.library import Rules
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.board_view import row_names
from app.web.views.case_page import complaint_name, vehicle_words
from app.web.views.driving import drive_view
from app.web.views.entries import moment
from app.web.views.old_results import ResultWords, alike_results
from app.web.views.said import SOURCES, is_whole, sentence

CAUSES_NAMED = 3
STEPS_NAMED = 3
RESULTS_NAMED = 2
LINES_KNOWN = 3


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
    words = ResultWords(rules, scene.around.layout, row_names(board))
    known = _known(board, words)
    drive = drive_view(board.may_drive, on_file.details.may_drive, case_id=on_file.id)
    return StandingPage(
        frame=frame,
        back=f"/cases/{on_file.id}",
        vehicle=vehicle_words(on_file),
        customer=on_file.vehicle.customer.name if on_file.vehicle.customer else "",
        complaint=complaint_name(on_file, rules),
        words=on_file.complaint_words,
        at=moment(now),
        may_drive=drive.advice or tuple(filter(None, (drive.unasked,))),
        known=known,
        looked_at=_looked_at(board, words, known=known),
        not_known=_not_known(board),
        next=tuple(
            NextLine(s.name if is_whole(s.places[0]) else f"{s.name}, {s.place_words}", f"{s.minutes:.0f} min")
            for s in board.next[:STEPS_NAMED]
        ),
        spent=spent_in_words(spent),
    )


def _known(board: Board, words: ResultWords) -> tuple[str, ...]:
    """Confirmed and ruled out, each with the results that say so."""
    groups = alike_results(board.results)
    lines = [
        f"{verb}: {words.causes([row.id for row in rows], most=CAUSES_NAMED)}{_by([groups[n] for n in how], words)}."
        for verb, settled in (("Confirmed", board.confirmed), ("Ruled out", board.ruled_out))
        for how, rows in _by_results(settled, board).items()
    ]
    more = (f"{len(lines) - LINES_KNOWN} further groups of causes ruled out; see the board.",)
    shown = (*lines[:LINES_KNOWN], *(more if len(lines) > LINES_KNOWN else ()))
    return shown or ("Nothing is confirmed or ruled out yet.",)


def _by_results(settled: Sequence[Row], board: Board) -> dict[tuple[int, ...], list[Row]]:
    """The rows by the numbers of the results that settle them; what follows for a bank is not said again."""
    found: dict[tuple[int, ...], list[Row]] = {}
    groups = alike_results(board.results)
    for row in settled:
        how = tuple(n for n, alike in enumerate(groups) if any(row.id in (*r.rules_in, *r.rules_out) for r in alike))
        found.setdefault(how, []).append(row)
    said = {row.id.cause for how, rows in found.items() if how for row in rows}
    if () in found:
        found[()] = [row for row in found[()] if row.id.cause not in said]
    return {how: rows for how, rows in found.items() if rows}


def _by(how: Sequence[Sequence[OldResult]], words: ResultWords) -> str:
    said = [f"{words.said(alike)} ({_source(alike[0])})" for alike in how]
    return f". Known from: {'; '.join(said)}" if said else ""


def _looked_at(board: Board, words: ResultWords, *, known: Sequence[str]) -> tuple[str, ...]:
    """The latest results that have not been named yet, those alike together."""
    said = [f"{words.said(alike)} ({_source(alike[0])})" for alike in alike_results(board.results)]
    new = [one for one in said if not any(one in line for line in known)]
    return tuple(f"{one}." for one in new[-RESULTS_NAMED:])


def _source(result: OldResult) -> str:
    return f"{SOURCES[result.source]}, visit {result.visit}"


def _not_known(board: Board) -> tuple[str, ...]:
    if board.contradiction:
        return ("The entries contradict each other; they are being checked.",)
    open_causes = tuple(
        sentence(
            f"{group.name}: {chance_word(group.to_blame)} to produce the complaint ({chance_figure(group.to_blame)})"
        )
        for group in board.groups[:CAUSES_NAMED]
    )
    rest = f"Not explained by anything listed: {least_in_words(board.not_listed)}."
    return (*open_causes, rest)


def spent_in_words(spent: Spent) -> tuple[str, ...]:
    """Minutes and costs of all visits of a case."""
    at_least = "" if spent.minutes_known else "at least "
    time = (
        f"{at_least}{write_number(spent.minutes)} minutes over {spent.visits} visit{'s' if spent.visits != 1 else ''}."
    )
    costs = [f"{'Our workshop' if c.here else c.shop or 'Another shop'}: {c.words}." for c in spent.costs if c.words]
    return (sentence(time), *costs)

"""A board as lines of text for the command line."""

from __future__ import annotations

from collections.abc import Iterator

from app.board.board import Board, CauseGroup, NextStep, Row
from app.board.words import chance_in_words, chance_word, least_in_words, odds_in_words
from app.evidence.case import Case
from app.rules.library import Rules

MOST_CAUSES = 10
MOST_STEPS = 5
WORTH_A_LINE = 0.002
"""Rows below this chance of being to blame are counted, not listed."""


def board_as_text(board: Board, case: Case, rules: Rules) -> str:
    """The board in order: complaint, safety, what is to blame, what is settled, what old tests cannot show, next."""
    return "\n".join(
        [
            *_heading(board, case, rules),
            *_open(board),
            *_settled(board),
            *_blind(board, rules),
            *_next(board),
            *_footnotes(board),
        ]
    )


def _heading(board: Board, case: Case, rules: Rules) -> Iterator[str]:
    place = case.vehicle.layout.in_words(case.complaint_place)
    vehicle = case.vehicle.name or "vehicle without a name"
    yield f"{vehicle}: {rules.symptoms[case.complaint].name}, {place}"
    yield f"Visits: {len(case.visits)}; rules {board.rules_version}"
    for sentence in board.contradiction:
        yield f"CONTRADICTION: {sentence}"
    for sentence in board.may_drive:
        yield f"DRIVING: {sentence}"
    for sentence in board.first_of_all:
        yield f"First of all: {sentence}"


def _open(board: Board) -> Iterator[str]:
    if not board.groups:
        return
    yield ""
    yield "What can still be to blame"
    worth = [group for group in board.groups if group.to_blame >= WORTH_A_LINE][:MOST_CAUSES]
    for number, group in enumerate(worth, 1):
        yield from _group(number, group)
    rest = len(board.groups) - len(worth)
    if rest:
        yield f"    … and {rest} more, each less likely than these."
    yield f"    Not explained by anything listed: {least_in_words(board.not_listed)}"


def _group(number: int, group: CauseGroup) -> Iterator[str]:
    yield f"{number:>3} {group.name}"
    there = chance_in_words(group.probability)
    yield f"      to blame {chance_in_words(group.to_blame)}; there {there}; {group.status}"
    yield f"      {group.why}"
    if group.which_place:
        yield f"      {group.which_place}"
    shown = [row for row in group.rows if row.to_blame >= WORTH_A_LINE or row.probability >= WORTH_A_LINE]
    for row in shown:
        yield from _row(row)
    told = {sentence for row in shown for sentence in row.said}
    for sentence in (*group.said, *(f"Caution: {caution}" for caution in group.cautions)):
        if sentence not in told:
            yield f"      {sentence}"


def _row(row: Row) -> Iterator[str]:
    yield f"      - {row.place_words}: to blame {chance_word(row.to_blame)}, there {chance_word(row.probability)}"
    for heading, told in (("for it", row.speaks_for), ("against it", row.speaks_against)):
        if told:
            yield f"          {heading}: " + "; ".join(
                f"{speaks.what} ({odds_in_words(speaks.factor)})" for speaks in told
            )
    for sentence in row.said:
        yield f"          {sentence}"


def _settled(board: Board) -> Iterator[str]:
    for heading, rows in (("Confirmed", board.confirmed), ("Ruled out", board.ruled_out), ("Earlier", board.earlier)):
        if rows:
            yield ""
            yield heading
            for row in rows:
                yield f"    {row.name}, {row.place_words} ({chance_in_words(row.probability)})"


def _blind(board: Board, rules: Rules) -> Iterator[str]:
    blind = [result for result in board.results if result.cannot_show]
    if blind:
        yield ""
        yield "What the tests so far cannot show"
    for result in blind:
        yield f"    Visit {result.visit}, {result.name}, {result.place_words}: {result.outcome_words} ({result.source})"
        reasons: dict[str, list[str]] = {}
        for spot in result.cannot_show:
            reasons.setdefault(spot.reason, []).append(rules.causes[spot.row.cause].name)
        for reason, causes in reasons.items():
            yield f"      {', '.join(dict.fromkeys(causes))}: {reason}"
        for sentence in result.stale:
            yield f"      {sentence}"


def _next(board: Board) -> Iterator[str]:
    if board.next:
        yield ""
        yield "Next tests"
    for number, step in enumerate(board.next[:MOST_STEPS], 1):
        yield from _step(number, step)


def _step(number: int, step: NextStep) -> Iterator[str]:
    about = "" if step.exact else "about "
    yield f"{number:>3} {step.name}, {step.place_words}: {step.minutes:.0f} min, {about}{step.information_bits:.2f} bit"
    yield f"      {step.because}"
    for caution in step.cautions:
        yield f"      Caution: {caution}"


def _footnotes(board: Board) -> Iterator[str]:
    notes = [f"Not in the rules: {what}" for what in board.missing]
    if board.left_out:
        notes.append(board.left_out)
    if notes:
        yield ""
        yield from notes

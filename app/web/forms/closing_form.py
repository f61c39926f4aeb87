"""Closing a case: the confirmed cause, the result that decided, minutes; and saying what is off or open."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.board.board import Board, Row, RowId
from app.evidence.case import Result
from app.history.values import CaseOnFile, Closing, Entry, Introduced
from app.problem import Problem
from app.rules.words import CauseId, CoverId
from app.vehicle.layout import PlaceId
from app.web.forms.evidence_fields import About, one_of, read_minutes
from app.web.forms.fields import LONGEST_TEXT, NONE, Field, FieldMaker, Problems, Sent, too_long
from app.web.forms.job_form import jobs_on_file
from app.web.views.said import say

NOTHING_FOUND = "nothing"
INTRODUCED = (
    (Introduced.BY_A_JOB.value, "yes, by a job"),
    (Introduced.NOT_BY_A_JOB.value, "no"),
    (Introduced.NOT_KNOWN.value, "not known"),
)


class ClosingSent(Sent):
    cause: str = ""
    deciding: str = ""
    introduced: str = ""
    job: str = ""
    minutes: str = ""
    note: str = ""
    left_open_why: str = ""
    version: str = ""


@dataclass(frozen=True, slots=True)
class ClosingFields:
    cause: Field
    deciding: Field
    introduced: Field
    job: Field
    minutes: Field
    note: Field
    left_open: tuple[str, ...]
    left_open_why: Field
    version: str


def closing_fields(
    sent: ClosingSent,
    around: About,
    *,
    board: Board,
    version: int,
    left_open: Sequence[str],
    problems: Problems = NONE,
    believed: str = "",
) -> ClosingFields:
    """Causes in the board's order, the confirmed ones first; the confirmed one is preset, for a person to accept.

    `left_open`: what is not put back or not ticked. `believed`: the cause that the case went under proof with; it comes
    before what the board says.
    """
    make = FieldMaker("closing", problems, focus_on="cause")
    usual = believed or (row_value(board.confirmed[0].id) if board.confirmed else "")
    results, jobs = (_named_entries(some, around) for some in (results_on_file(around), jobs_on_file(around)))
    return ClosingFields(
        cause=_cause(make, board, sent.cause or usual),
        deciding=make.choice(
            "deciding", "Which result decided?", options=[("", "none, or not recorded"), *results], chosen=sent.deciding
        ),
        introduced=make.choice(
            "introduced",
            "Was it brought in by earlier work?",
            options=INTRODUCED,
            chosen=sent.introduced or Introduced.NOT_KNOWN.value,
        ),
        job=make.choice("job", "By which job?", options=[("", "not said"), *jobs], chosen=sent.job),
        minutes=make.line("minutes", "Minutes spent in all", value=sent.minutes),
        note=make.line("note", "Note", value=sent.note),
        left_open=tuple(left_open),
        left_open_why=_why(make, sent),
        version=sent.version or str(version),
    )


def _cause(make: FieldMaker, board: Board, chosen: str) -> Field:
    options = [("", "choose"), *cause_options(board), (NOTHING_FOUND, "no cause was found")]
    return make.choice("cause", "What was it?", options=options, chosen=chosen)


def _why(make: FieldMaker, sent: ClosingSent) -> Field:
    label, hint = "Why is it closed all the same?", "It is kept with the case."
    return make.line("left_open_why", label, value=sent.left_open_why, hint=hint)


def read_closing(sent: ClosingSent, around: About, *, board: Board, left_open: Sequence[str]) -> Closing | Problems:
    """How the case ended, or everything that is wrong. What is left open needs a reason."""
    problems = [*too_long("note", sent.note, limit=LONGEST_TEXT)]
    problems += too_long("left_open_why", sent.left_open_why, limit=LONGEST_TEXT)
    if left_open and not sent.left_open_why.strip():
        items = f"{len(left_open)} thing{'s are' if len(left_open) > 1 else ' is'} still open."
        problems.append(Problem("left_open_why", items, "Say why it is closed all the same, or tick what is done."))
    if board.contradiction:
        clash = "Some entries of this case cannot all be true, so nothing can be confirmed."
        problems.append(Problem("cause", clash, "Look at the board and strike out what is wrong first."))
    found = read_cause(sent.cause, board)
    if found is None and sent.cause != NOTHING_FOUND:
        problems.append(Problem("cause", "The cause is missing.", "Choose it; “no cause was found” is an answer."))
    if sent.deciding and sent.deciding not in {entry.id for entry in results_on_file(around)}:
        problems.append(Problem("deciding", "This result is not part of the case.", "Choose one of the list."))
    introduced = one_of(Introduced, sent.introduced)
    if introduced is None:
        problems.append(Problem("introduced", "It is not said whether earlier work brought it in.", "Choose one."))
    if sent.job and (introduced is not Introduced.BY_A_JOB or sent.job not in {e.id for e in jobs_on_file(around)}):
        problems.append(Problem("job", "The job does not fit the answer above.", "Choose both, or neither."))
    minutes = read_minutes(sent.minutes, problems)
    if problems or introduced is None:
        return Problems(problems)
    return Closing(
        cause=found[0] if found else None,
        place=found[1] if found else None,
        deciding_result=sent.deciding or None,
        introduced=introduced,
        introduced_by_job=sent.job or None,
        minutes=minutes,
        note=sent.note.strip(),
        left_open=tuple(left_open),
        left_open_why=sent.left_open_why.strip() if left_open else "",
    )


def row_value(row: RowId) -> str:
    return f"{row.cause}@{row.place}"


def results_on_file(around: About) -> tuple[Entry, ...]:
    entries = [entry for visit in around.timeline.visits if visit.id in around.visit_ids for entry in visit.entries]
    ours = (None, around.case_id)
    return tuple(e for e in entries if isinstance(e.said, Result) and e.struck is None and e.at.case in ours)


def _named_entries(entries: Sequence[Entry], around: About) -> list[tuple[str, str]]:
    return [(entry.id, say(entry.said, around.layout, around.rules)) for entry in entries]


def _rows(board: Board) -> tuple[Row, ...]:
    """Confirmed causes, then those that a job has put out, then the open ones in order, and what is ruled out by now.

    After the repair the cause itself is often ruled out: it was there before.
    """
    put_out = sorted(board.earlier, key=lambda row: -row.to_blame)
    still_open = [row for group in board.groups for row in group.rows]
    rows: dict[str, Row] = {}
    for row in (*board.confirmed, *put_out, *still_open, *board.ruled_out):
        rows.setdefault(row_value(row.id), row)
    return tuple(rows.values())


def cause_options(board: Board) -> tuple[tuple[str, str], ...]:
    """Causes at their places, to choose what was to blame."""
    return tuple((row_value(row.id), _named(row)) for row in _rows(board))


def read_cause(chosen: str, board: Board) -> tuple[CauseId, PlaceId] | None:
    """The cause and place behind an option; None where it is none of them."""
    row = next((row.id for row in _rows(board) if row_value(row.id) == chosen), None)
    return None if row is None else (row.cause, row.place)


def _named(row: Row) -> str:
    return row.name if row.place_words in ("", "vehicle", "engine") else f"{row.name}, {row.place_words}"


class CoversSent(Sent):
    """Covers come as `cover_<id>`."""

    version: str = ""


@dataclass(frozen=True, slots=True)
class CoversEntry:
    covers: Field
    version: str
    theirs: str


def covers_entry(sent: CoversSent, on_file: CaseOnFile, around: About, *, shown: bool, theirs: str = "") -> CoversEntry:
    """What is off or open; `shown`: the ticks come from the form, not from the case."""
    chosen = sent.ticked("cover_") if shown else on_file.details.open_covers
    options = [(cover.id, cover.name) for cover in around.rules.covers.values()]
    make = FieldMaker("covers", focus_on="cover_")
    covers = make.choice(
        "cover_",
        "What is off or open now?",
        options=options,
        chosen=chosen,
        hint="A test behind an open cover costs nothing more to reach.",
    )
    return CoversEntry(covers, str(on_file.version), theirs)


def read_covers(sent: CoversSent, around: About) -> tuple[CoverId, ...]:
    ticked = sent.ticked("cover_")
    return tuple(id for id in around.rules.covers if id in ticked)

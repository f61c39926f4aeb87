"""Putting a case under proof: what is believed to be mended."""

from __future__ import annotations

from dataclasses import dataclass

from app.board.board import Board
from app.history.values import Belief
from app.problem import Problem
from app.web.forms.closing_form import cause_options, read_cause
from app.web.forms.fields import LONGEST_TEXT, NONE, Field, FieldMaker, Problems, Sent, too_long
from app.web.forms.proof_fields import AfterRepair

NOT_KNOWN = "nothing"

CAME_BACK = Problem("repair", "It came back after the last repair.", "It can go under proof after the next one.")


class StartSent(Sent):
    cause: str = ""
    note: str = ""
    version: str = ""


@dataclass(frozen=True, slots=True)
class StartEntry:
    cause: Field
    note: Field
    version: str


def start_entry(
    sent: StartSent, about: AfterRepair, *, board: Board, version: int, problems: Problems = NONE
) -> StartEntry:
    """What is believed to be mended: the causes that the last repair renews or sets, the likeliest first."""
    make = FieldMaker("start", problems)
    causes = [one for one in cause_options(board) if one[0].split("@")[0] in about.mended]
    options = [("", "choose"), *causes, (NOT_KNOWN, "not known, or none of these")]
    return StartEntry(
        cause=make.choice("cause", "What was mended?", options=options, chosen=sent.cause),
        note=make.line("note", "Note on the repair", value=sent.note),
        version=sent.version or str(version),
    )


def read_start(sent: StartSent, about: AfterRepair, *, board: Board, worked: float | None) -> Belief | Problems:
    problems = [*too_long("note", sent.note, limit=LONGEST_TEXT)]
    if about.came_back:
        problems.append(CAME_BACK)
    found = read_cause(sent.cause, board)
    if found is None and sent.cause != NOT_KNOWN:
        mend = "Choose it; “not known” is an answer."
        problems.append(Problem("cause", "It is not said what was mended.", mend))
    if problems:
        return Problems(problems)
    cause, place = found or (None, None)
    return Belief(about.repairs[0][0], cause, place, worked, sent.note.strip())

"""Striking an entry out: a reason, and the version it was read with."""

from __future__ import annotations

from dataclasses import dataclass

from app.problem import Problem
from app.web.forms.fields import NONE, Field, FieldMaker, Problems, Sent, too_long

LONGEST_REASON = 500


class VoidSent(Sent):
    why: str = ""
    version: str = ""
    case: str = ""


@dataclass(frozen=True, slots=True)
class VoidEntry:
    """`theirs`: what somebody else did to it in the meantime ("" when nothing)."""

    what: str
    stands: bool
    struck: str
    theirs: str
    version: str
    why: Field
    case: str
    action: str
    back: str


def why_field(sent: VoidSent, problems: Problems = NONE) -> Field:
    return FieldMaker("void", problems, focus_on="why").line(
        "why", "Why is it wrong?", value=sent.why, hint="A few words; it stays readable beside the entry."
    )


def read_why(sent: VoidSent) -> str | Problems:
    problems = list(too_long("why", sent.why, limit=LONGEST_REASON))
    if not sent.why.strip():
        problems.append(Problem("why", "The reason is missing.", "Write it in a few words."))
    return Problems(problems) if problems else sent.why.strip()


def version_of(sent: str) -> int:
    """The version a form was shown with; anything else counts as an old one, so that the write is refused."""
    return int(sent) if sent.isascii() and sent.isdigit() and len(sent) < 9 else -1

"""Recording a trouble code with its state and freeze frame, and that codes were cleared."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime

from app.evidence.case import CodesCleared, CodeSeen, CodeState, Source
from app.measurements.numbers import read_number
from app.problem import Problem
from app.web.forms.evidence_fields import (
    About,
    EvidenceFields,
    EvidenceSent,
    Known,
    evidence_fields,
    one_of,
    read_common,
)
from app.web.forms.fields import LONGEST_TEXT, NONE, Field, FieldMaker, Problems, too_long

CODE = re.compile(r"[PBCU][0-9A-F]{4}(-[0-9A-F]{2})?")
STATES = {
    CodeState.CONFIRMED: "confirmed",
    CodeState.PENDING: "pending",
    CodeState.PERMANENT: "permanent",
    CodeState.ABSENT: "looked for, not stored",
}
WHERE = (
    ("here", "here"),
    ("another shop", "another shop"),
    ("by the customer", "by the customer"),
    ("not known", "not known"),
)
MOST_LINES = 40


class CodeSent(EvidenceSent):
    code: str = ""
    state: str = ""
    freeze_frame: str = ""


@dataclass(frozen=True, slots=True)
class CodeEntry:
    code: Field
    state: Field
    freeze_frame: Field
    common: EvidenceFields


def code_entry(sent: CodeSent, around: About, *, problems: Problems = NONE) -> CodeEntry:
    make = FieldMaker("code", problems, focus_on="code")
    return CodeEntry(
        code=make.line("code", "Code", value=sent.code, hint="As read, such as P0301."),
        state=make.choice("state", "State", options=[(s.value, w) for s, w in STATES.items()], chosen=sent.state),
        freeze_frame=make.line(
            "freeze_frame", "Freeze frame", value=sent.freeze_frame, hint="One per line: name, colon, value with unit."
        ),
        common=evidence_fields(make, sent, around=around, usual=Source.MEASURED_HERE),
    )


def read_code(sent: CodeSent, around: About) -> tuple[CodeSeen, Known] | Problems:
    """The code with its visit. Its letters and digits follow SAE J2012 / ISO 15031-6."""
    known, problems = read_common(sent, around)
    code = sent.code.strip().upper().replace(" ", "")
    if not CODE.fullmatch(code):
        problems.append(
            Problem(
                "code",
                f"“{sent.code[:20]}” is not a trouble code." if code else "The code is missing.",
                "A letter P, B, C or U and four digits, such as P0301.",
            )
        )
    state = one_of(CodeState, sent.state)
    if state is None:
        problems.append(Problem("state", "The state is missing.", "Choose one."))
    frame = _frame(sent.freeze_frame, problems)
    if problems or state is None:
        return Problems(problems)
    return CodeSeen(code, state, known.source, freeze_frame=frame, note=known.note), known


def _frame(typed: str, problems: list[Problem]) -> dict[str, str]:
    problems += too_long("freeze_frame", typed, limit=LONGEST_TEXT)
    lines = [line.strip() for line in typed.splitlines() if line.strip()]
    bad = next((line for line in lines if ":" not in line), None)
    if bad is not None:
        problems.append(
            Problem("freeze_frame", f"“{bad[:40]}” has no colon.", "Write such as: engine speed: 820 1/min.")
        )
    if len(lines) > MOST_LINES:
        problems.append(Problem("freeze_frame", f"These are {len(lines)} lines.", f"At most {MOST_LINES}."))
    return {name.strip(): value.strip() for name, _, value in (line.partition(":") for line in lines)}


class ClearedSent(EvidenceSent):
    where: str = ""
    km_ago: str = ""
    day: str = ""


@dataclass(frozen=True, slots=True)
class ClearedEntry:
    where: Field
    km_ago: Field
    day: Field
    common: EvidenceFields


def cleared_entry(sent: ClearedSent, around: About, *, problems: Problems = NONE) -> ClearedEntry:
    make = FieldMaker("cleared", problems, focus_on="where")
    return ClearedEntry(
        where=make.choice("where", "Where were they cleared?", options=WHERE, chosen=sent.where),
        km_ago=make.line(
            "km_ago", "How far ago, in km?", value=sent.km_ago, hint="Driven since then; leave empty if not known."
        ),
        day=make.line("day", "On which day?", value=sent.day, hint="Leave empty if not known."),
        common=evidence_fields(make, sent, around=around, usual=Source.TOLD, noted=False),
    )


def read_cleared(sent: ClearedSent, around: About, *, now: datetime) -> tuple[CodesCleared, Known] | Problems:
    """That codes were cleared, with the visit at which they were read next and how that is known."""
    known, problems = read_common(sent, around)
    if sent.where not in dict(WHERE):
        problems.append(Problem("where", "It is not said where.", "Choose one; “not known” is an answer."))
    km_ago = _distance(sent.km_ago, problems)
    day = read_day("day", sent.day, now=now, problems=problems)
    return Problems(problems) if problems else (CodesCleared(sent.where, km_ago, day), known)


def _distance(typed: str, problems: list[Problem]) -> float | None:
    if not typed.strip():
        return None
    number = read_number(typed, "km_ago")
    if isinstance(number, Problem):
        problems.append(number)
        return None
    if not 0 <= number <= 1_000_000:
        problems.append(Problem("km_ago", f"{typed} km cannot be.", "Type the distance driven since then."))
    return number


def read_day(name: str, typed: str, *, now: datetime, problems: list[Problem]) -> date | None:
    """A day as the browser sends it; none is fine, a future one is not."""
    if not typed.strip():
        return None
    try:
        day = date.fromisoformat(typed.strip())
    except ValueError:
        problems.append(Problem(name, f"“{typed[:20]}” is not a date.", "Write year-month-day, such as 2026-03-31."))
        return None
    if day > now.astimezone().date():
        problems.append(Problem(name, f"{day:%-d %b %Y} lies in the future.", "Check the year."))
    elif day.year < 1950:
        problems.append(Problem(name, f"{day:%-d %b %Y} is too long ago.", "Check the year."))
    return day

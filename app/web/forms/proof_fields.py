"""What runs and scans after a repair share: after which repair, on which day, how it is known; and amounts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from app.evidence.case import Source
from app.measurements.numbers import read_number
from app.problem import Problem
from app.proof.conditions import Conditions
from app.rules.monitors import Monitor
from app.rules.words import CauseId
from app.web.forms.code_form import read_day
from app.web.forms.evidence_fields import About, EvidenceSent, one_of
from app.web.forms.fields import LONGEST_TEXT, Field, FieldMaker, too_long
from app.web.views.said import SOURCES


@dataclass(frozen=True, slots=True)
class AfterRepair:
    """What the forms of proof know of the case. `repairs`: id of the visit and the repair in words, the last first.

    `mended`: the causes that the last repair renews or sets. `shown`: ways in which the fault showed. `monitors`: those
    behind the complaint first, `behind` of them. `came_back`: the complaint was there again after the last repair.
    """

    around: About
    repairs: Sequence[tuple[str, str]]
    mended: frozenset[CauseId]
    shown: Sequence[Conditions]
    monitors: Sequence[Monitor]
    behind: int
    came_back: bool


def source_field(make: FieldMaker, chosen: str, sources: Sequence[Source]) -> Field:
    options = [(source.value, SOURCES[source]) for source in sources]
    return make.choice("source", "How is it known?", options=options, chosen=chosen or sources[0].value)


@dataclass(frozen=True, slots=True)
class After:
    """The repair that something came after, and how it is known."""

    visit: str
    source: Source
    day: date | None


def read_after(
    sent: EvidenceSent, day: str, about: AfterRepair, *, now: datetime, problems: list[Problem], usual: Source
) -> After:
    problems += too_long("note", sent.note, limit=LONGEST_TEXT)
    visits = [id for id, _ in about.repairs]
    if sent.visit not in visits:
        problems.append(Problem("visit", "It is not said after which repair.", "Choose one of the list."))
    source = one_of(Source, sent.source)
    if source is None:
        problems.append(Problem("source", "It is not said how this is known.", "Choose one."))
    when = read_day("day", day, now=now, problems=problems)
    if when is not None and sent.visit in visits:
        problems += _repaired_again(when, sent.visit, visits, about.around)
    return After(sent.visit, source or usual, when)


def _repaired_again(day: date, visit: str, visits: Sequence[str], around: About) -> Sequence[Problem]:
    """A run after the next repair belongs to that one. `visits`: of the repairs, the last first."""
    later = [around.visit(id) for id in visits[: visits.index(visit)]]
    days = [one.day for one in later if one is not None and one.day is not None]
    if not days or day <= min(days):
        return ()
    return (Problem("day", f"It was repaired again on {min(days):%-d %b %Y}.", "Choose that repair, or mend the day."),)


def read_amount(name: str, typed: str, problems: list[Problem], *, most: float) -> float | None:
    """A number of 0 or more; None where nothing is typed or something is wrong with it."""
    if not typed.strip():
        return None
    number = read_number(typed, name)
    if isinstance(number, Problem):
        problems.append(number)
        return None
    if number < 0:
        problems.append(Problem(name, f"{typed.strip()[:20]} is less than nothing.", "Type what was driven."))
        return None
    if number > most:
        problems.append(Problem(name, f"{typed.strip()[:20]} cannot be.", "Check the figure."))
        return None
    return number

"""What every entry asks: the visit it belongs to, how we know it, minutes, a note; and how these are read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TypeVar

from app.evidence.case import Case, Source, Visit
from app.history.values import Timeline
from app.measurements.numbers import read_number
from app.problem import Problem
from app.rules.library import Rules
from app.vehicle.layout import Layout, Level, PlaceId
from app.web.forms.fields import LONGEST_TEXT, Field, FieldMaker, Sent, too_long
from app.web.views.entries import when
from app.web.views.said import SOURCES

YES_NO_UNKNOWN = (("yes", "yes"), ("no", "no"), ("", "not known"))
MOST_MINUTES = 10_000


class EvidenceSent(Sent):
    """The fields that every entry has."""

    visit: str = ""
    source: str = ""
    minutes: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class About:
    """What a form needs to know of the case it writes to. `visits`: the ids of its visits, in order of time."""

    case_id: str
    case: Case
    timeline: Timeline
    rules: Rules
    now_visit: str
    visit_ids: tuple[str, ...] = field(default=())

    @property
    def layout(self) -> Layout:
        return self.case.vehicle.layout

    def visit_options(self) -> tuple[tuple[str, str], ...]:
        """The case's visits, newest first."""
        by_id = {visit.id: visit for visit in self.timeline.visits}
        newest_first = [by_id[id] for id in reversed(self.visit_ids)]
        return tuple(
            (v.id, f"{'here' if v.stay.here else v.stay.shop or 'another shop'}, {when(v.stay)}") for v in newest_first
        )

    def visit(self, id: str) -> Visit | None:
        return next((visit for visit in self.case.visits if visit.entry == id), None)


def about(case_id: str, case: Case, *, timeline: Timeline, rules: Rules) -> About:
    """A new entry belongs to our latest visit of the case, or where there is none to the latest of all."""
    ids = tuple(visit.entry for visit in case.visits)
    ours = [visit.entry for visit in case.visits if visit.here]
    return About(case_id, case, timeline, rules, now_visit=(ours or list(ids) or [""])[-1], visit_ids=ids)


@dataclass(frozen=True, slots=True)
class EvidenceFields:
    """`minutes` only where the history keeps them (results and jobs), `note` where the entry has one."""

    visit: Field
    source: Field
    minutes: Field | None
    note: Field | None


def evidence_fields(
    make: FieldMaker, sent: EvidenceSent, *, around: About, usual: Source, timed: bool = False, noted: bool = True
) -> EvidenceFields:
    """The fields with what was sent, or with what is usual."""
    return EvidenceFields(
        visit=make.choice("visit", "Visit", options=around.visit_options(), chosen=sent.visit or around.now_visit),
        source=make.choice(
            "source",
            "How is it known?",
            options=[(source.value, words) for source, words in SOURCES.items()],
            chosen=sent.source or usual.value,
        ),
        minutes=make.line("minutes", "Minutes spent", value=sent.minutes) if timed else None,
        note=make.line("note", "Note", value=sent.note) if noted else None,
    )


@dataclass(frozen=True, slots=True)
class Known:
    """The common fields, read."""

    visit: str
    source: Source
    minutes: float | None
    note: str


def read_common(sent: EvidenceSent, around: About) -> tuple[Known, list[Problem]]:
    """The fields every entry has, and all that is wrong with them."""
    problems = [*too_long("note", sent.note, limit=LONGEST_TEXT)]
    visit = sent.visit or around.now_visit
    if visit not in around.visit_ids:
        problems.append(Problem("visit", "This visit is not part of the case.", "Choose one of the list."))
    source = one_of(Source, sent.source)
    if source is None:
        problems.append(Problem("source", "It is not said how this is known.", "Choose one."))
    minutes = read_minutes(sent.minutes, problems)
    return Known(visit, source or Source.TOLD, minutes, sent.note.strip()), problems


def read_minutes(typed: str, problems: list[Problem]) -> float | None:
    if not typed.strip():
        return None
    number = read_number(typed, "minutes")
    if isinstance(number, Problem):
        problems.append(number)
        return None
    if not 0 <= number <= MOST_MINUTES:
        problems.append(Problem("minutes", f"{typed} minutes cannot be.", "Type whole minutes, such as 25."))
        return None
    return number


Word = TypeVar("Word", bound=StrEnum)


def one_of(kind: type[Word], word: str) -> Word | None:
    """The member of an enum with this word."""
    return next((member for member in kind if member.value == word), None)


def place_options(layout: Layout, level: Level) -> Sequence[tuple[str, str]]:
    return [(place, layout.in_words(place)) for place in layout.places(level)]


def read_place(typed: str, layout: Layout, level: Level, *, name: str = "place") -> PlaceId | Problem:
    """A place of this level on this vehicle; where there is only one it need not be said."""
    places = layout.places(level)
    if len(places) == 1 and not typed:
        return places[0]
    if not typed:
        return Problem(name, "The place is missing.", "Choose where.")
    if typed not in places:
        where = "this vehicle" if level is Level.VEHICLE else f"the {level.value}s of this vehicle"
        return Problem(name, f"“{typed[:40]}” is not one of {where}.", "Choose one of the list.")
    return PlaceId(typed)

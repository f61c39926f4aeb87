"""What every entry of a visit in a case file has: a place, a source, a day, a distance."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.evidence.case import Source
from app.measurements.distance import read_distance
from app.problem import Problem
from app.rules.library import Rules
from app.rules.section import Section
from app.rules.tree import Text
from app.vehicle.layout import Layout, Level, PlaceId

VAGUE = "vague"
ALL = "all"


@dataclass(frozen=True, slots=True)
class VisitReading:
    """The visit being read. `usual`: the source of its entries unless they say another."""

    rules: Rules
    layout: Layout
    number: int
    here: bool
    usual: Source | None
    today: date | None


def read_source(section: Section, *, here: bool, usual: Source | None) -> Source:
    """How we know this; measured or seen here only at our own visits."""
    if not section.has("source") and usual is not None:
        return usual
    word = section.choice("source", list(Source), "source")
    source = Source(word) if word in list(Source) else Source.TOLD
    if source.here and not here:
        section.refuse("source", f"“{word}” was not here: this visit was at another shop.", "Say on paper or as told.")
    return source


def read_place(section: Section, key: str, level: Level, *, layout: Layout) -> PlaceId:
    """One place of this level; may be left out where the vehicle has one only."""
    return read_places(section, key, level, layout=layout)[0]


def read_places(section: Section, key: str, level: Level, *, layout: Layout) -> tuple[PlaceId, ...]:
    """One or more places of this level, or `all`; may be left out where the vehicle has one only. Never empty."""
    there = layout.places(level)
    texts = section.text_nodes(key)
    if not texts:
        if len(there) > 1:
            section.notes.refuse(
                section.where, f"{section.what.capitalize()} does not say where.", f"Add “{key}”: {', '.join(there)}."
            )
        return there[:1]
    if len(texts) == 1 and texts[0].value == ALL:
        return there
    return tuple(_place(text, section, level, there=there) for text in texts)


def place_among(section: Section, key: str, there: tuple[PlaceId, ...], *, layout: Layout) -> PlaceId:
    """One of these places, of whatever level; may be left out where there is only one."""
    typed = section.optional_text(key)
    if typed is None:
        if len(there) != 1:
            section.notes.refuse(section.where, f"{section.what.capitalize()} does not say where.", _listed(there, key))
        return there[0] if there else layout.all_places()[0]
    place = PlaceId(typed.casefold().replace(" ", "-").replace("cylinder-", "cyl-"))
    if place not in there:
        section.refuse(key, f"{section.what.capitalize()} cannot be at “{typed}”.", _listed(there, key))
    return place


def _listed(there: tuple[PlaceId, ...], key: str) -> str:
    return f"Use “{key}” with one of: {', '.join(there)}." if there else "This vehicle has no place for it."


def place_named(text: Text, section: Section, level: Level, *, layout: Layout) -> PlaceId:
    return _place(text, section, level, there=layout.places(level))


def _place(text: Text, section: Section, level: Level, *, there: tuple[PlaceId, ...]) -> PlaceId:
    place = PlaceId(text.value.casefold().replace(" ", "-").replace("cylinder-", "cyl-"))
    if place not in there:
        section.notes.refuse(
            text.where, f"This vehicle has no {level} “{text.value}”.", f"Its {level} places: {', '.join(there)}."
        )
        return there[0]
    return place


def read_day(section: Section, key: str, *, today: date | None) -> date | None:
    """A day as 2026-03-02, or None for `vague`."""
    typed = section.text(key)
    if typed in ("", VAGUE):
        return None
    try:
        day = date.fromisoformat(typed) if len(typed) == 10 else None
    except ValueError:
        day = None
    if day is None:
        section.refuse(key, f"“{typed}” is not a day.", "Write year-month-day as in 2026-03-02, or vague.")
    elif today is not None and day > today:
        section.refuse(key, f"{typed} lies in the future.", "Check the year.")
    return day


def read_km(section: Section, key: str) -> float | None:
    """Kilometres of a distance with its unit; None where the key is left out."""
    typed = section.optional_text(key)
    if typed is None:
        return None
    distance = read_distance(typed, section.line(key))
    if isinstance(distance, Problem):
        section.notes.problems.append(distance)
        return None
    return distance


def read_visit_number(section: Section, key: str, *, last: int) -> int | None:
    """The number of this visit or an earlier one; None where the key is left out."""
    typed = section.optional_text(key)
    if typed is None:
        return None
    if typed.isascii() and typed.isdigit() and 1 <= int(typed[:6]) <= last:
        return int(typed)
    section.refuse(key, f"“{typed}” is not a visit up to this one.", f"Give a number from 1 to {last}.")
    return None

"""What a hypothesis does to test results: each test one draw, readings that may be blind alike in one group."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from app.evidence.moments import Moment
from app.network.groups import group
from app.network.lines import Lines, TestLine
from app.network.noisy_or import Effect, Leaf
from app.rules.causes import Cause
from app.rules.library import Settings
from app.rules.words import SituationId, TestId
from app.vehicle.layout import Banks, Layout, Level, PlaceId

Situations = tuple[tuple[SituationId, float], ...]
"""Situations in which a reading may have been blind, each with how often it is met unasked."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A test line as one hypothesis sees it. `spread`: the hypothesis has several places at which the test is done."""

    finding: int
    test: TestId
    at: Moment
    strength: float
    spread: bool
    unknown: Situations


def readings_of(cause: Cause, place: PlaceId, lines: Lines, layout: Layout) -> tuple[Reading, ...]:
    """The lines of tests that show this cause, without those taken in a situation known to be blind to it."""
    return tuple(
        reading
        for line, strength in lines.showing.get(cause.id, ())
        if layout.related(place, line.place) and (reading := _reading(cause, place, line, strength, layout)) is not None
    )


def _reading(cause: Cause, place: PlaceId, line: TestLine, strength: float, layout: Layout) -> Reading | None:
    blind = [b for b in line.test.blind_when if b.cause == cause.id]
    known = line.result.situations if line.result else {b.situation: False for b in blind}
    if any(known.get(b.situation) for b in blind):
        return None
    unknown = tuple((b.situation, b.share.chance) for b in blind if b.situation not in known)
    spread = _places_inside(place, line.test.at, layout.banks) > 1
    return Reading(line.finding, line.test.id, line.at, strength, spread, unknown)


@cache
def _places_inside(place: PlaceId, level: Level, banks: Banks) -> int:
    layout = Layout(banks)
    return sum(layout.covers(place, inner) for inner in layout.places(level))


def reading_effects(readings: Iterable[Reading], settings: Settings) -> Iterable[Effect]:
    """What shows in a blind situation shows to all tests that share it; the rest hang on their own."""
    blind_together: dict[tuple[SituationId, float], list[Effect]] = defaultdict(list)
    for together in _taken_together(readings).values():
        shown = _one_draw(together, settings)
        for _, share in together[0].unknown[1:]:
            shown = group(1.0 - share, shown)
        if together[0].unknown:
            blind_together[together[0].unknown[0]].extend(shown)
        else:
            yield from shown
    for (_, share), shown_together in blind_together.items():
        yield from group(1.0 - share, tuple(shown_together))


def _taken_together(readings: Iterable[Reading]) -> Mapping[tuple[TestId, Situations], list[Reading]]:
    """Readings of one test on one state, taken in the same situations."""
    found: dict[tuple[TestId, Situations], list[Reading]] = defaultdict(list)
    for reading in readings:
        found[reading.test, reading.unknown].append(reading)
    return found


def _one_draw(readings: list[Reading], settings: Settings) -> tuple[Effect, ...]:
    """One reading is a leaf; the same test again on one state, or one fault's several places, is one draw."""
    strength = readings[0].strength
    if readings[0].spread:
        return group(strength, tuple(Leaf(reading.finding, settings.shows_again) for reading in readings))
    if len(readings) > 1:
        again = (1.0 + strength) / 2.0
        return group(strength / again, tuple(Leaf(reading.finding, again) for reading in readings))
    return (Leaf(readings[0].finding, strength),)

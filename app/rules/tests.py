"""Tests: what they measure, what they show, in which situations they are blind, and what they cannot show at all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.rules.words import CauseId, CoverId, FamilyId, Rated, SituationId, TestId
from app.vehicle.layout import Layout, Level, PlaceId, fits_at


@dataclass(frozen=True, slots=True)
class Shows:
    cause: CauseId
    strength: Rated


@dataclass(frozen=True, slots=True)
class Blind:
    """A situation in which the test misses a cause it normally shows; `share`: how often it is met unasked."""

    situation: SituationId
    cause: CauseId
    share: Rated
    reason: str


@dataclass(frozen=True, slots=True)
class CannotShow:
    cause: CauseId
    reason: str


@dataclass(frozen=True, slots=True)
class Test:
    """One test, done at places of level `at`.

    `fits`: trait -> values of vehicles it may be done on; a trait that is not known does not exclude it.
    `families`: those whose complaints it is used for, its home `family` first.
    `quantity`: id of what is read, None for a look or a yes/no. `pass_rule` and `pass_source` are sentences.
    `false_alarm`: chance of an abnormal outcome with nothing wrong, and why that happens.
    `normal_word`, `abnormal_word`: how the two outcomes are said ("stayed", "followed the part").
    """

    __test__ = False

    id: TestId
    family: FamilyId
    families: tuple[FamilyId, ...]
    name: str
    at: Level
    fits: Mapping[str, tuple[str, ...]]
    measures: str
    method: str
    quantity: str | None
    pass_rule: str
    pass_source: str
    setup_minutes: float
    minutes_per_place: float
    needs_open: tuple[CoverId, ...]
    cautions: tuple[str, ...]
    shows: tuple[Shows, ...]
    blind_when: tuple[Blind, ...]
    cannot_show: tuple[CannotShow, ...]
    false_alarm: Rated
    false_alarm_why: tuple[str, ...]
    normal_word: str
    abnormal_word: str

    def can_be_done_at(self, layout: Layout) -> tuple[PlaceId, ...]:
        """Every place of this vehicle at which the test may be done."""
        return tuple(place for place in layout.places(self.at) if fits_at(self.fits, place, layout))

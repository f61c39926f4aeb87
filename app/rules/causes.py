"""Causes: fault modes, where they act, what they give, what raises them and what they destroy."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.rules.words import CauseId, Course, DutyId, FamilyId, OperationId, Rated, SymptomId
from app.vehicle.layout import Layout, Level, PlaceId, fits_at


@dataclass(frozen=True, slots=True)
class Gives:
    """A symptom this cause gives, how reliably, and how it follows in time."""

    symptom: SymptomId
    how_often: Rated
    course: Course


@dataclass(frozen=True, slots=True)
class RaisedBy:
    """A duty of an operation that, left out or done wrong, brings this cause in at places of `at`."""

    operation: OperationId
    duty: DutyId
    at: Level
    how: Rated


@dataclass(frozen=True, slots=True)
class Damages:
    """This cause destroys a part: `how` in words; within this many months or km, whichever is given."""

    victim: CauseId
    how: Rated
    within_months: float | None
    within_km: float | None


@dataclass(frozen=True, slots=True)
class FixedBy:
    operation: OperationId
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Cause:
    """A fault mode.

    `system`: what it belongs to ("ignition"); a test may say of a whole system that it cannot show it.
    `acts_at`: level -> part of the share at that level (sums to 1). `how_common` is the weight that makes its share of
    first visits with the home family's lead complaint; None where `prior` (per year and place) is said directly.
    `fits`: trait -> values it can live with. `bad_part`: chance that a renewed part brings the fault in.
    `comes_with_part`: the wrong part itself is the fault. `wears_in_over_km`: what counts as early.
    """

    id: CauseId
    family: FamilyId
    name: str
    system: str
    acts_at: Mapping[Level, float]
    how_common: Rated | None
    prior: float | None
    why: str
    fits: Mapping[str, tuple[str, ...]]
    gives: tuple[Gives, ...]
    raised_by: tuple[RaisedBy, ...]
    damages: tuple[Damages, ...]
    fixed_by: tuple[FixedBy, ...]
    cautions: tuple[str, ...]
    bad_part: float
    comes_with_part: bool
    wears_in_over_km: float
    only_the_repair_tells: str | None

    def can_act_at(self, layout: Layout) -> tuple[PlaceId, ...]:
        """Every place on this vehicle where this cause can be; a trait that is not known does not exclude it."""
        return tuple(place for level in self.acts_at for place in layout.places(level) if self.fits_at(place, layout))

    def fits_at(self, place: PlaceId, layout: Layout) -> bool:
        """Whether nothing known of the build at this place excludes this cause."""
        return fits_at(self.fits, place, layout)

"""When something was so: the order of things within and between visits, and the use between them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum

from app.evidence.case import Case, Visit


class Phase(IntEnum):
    """Inside a visit, what was found comes before the work; then the work, then what was checked after it."""

    FOUND = 0
    WORK = 1
    AFTER_WORK = 2
    ON_THE_ROAD = 3
    TIME_PASSED = 4


@dataclass(frozen=True, slots=True, order=True)
class Moment:
    """A point on the case's timeline; `visit` is the visit's number."""

    visit: int
    phase: Phase


@dataclass(frozen=True, slots=True)
class Use:
    """How far and how long the vehicle was used between two visits; None: not known."""

    km: float | None
    years: float | None

    @property
    def months(self) -> float | None:
        return None if self.years is None else self.years * 12.0


DAYS_A_YEAR = 365.25


def use_between(case: Case, earlier: int, later: int) -> Use:
    """The use between two visits of the case, given by their numbers."""
    before, after = visit_of(case, earlier), visit_of(case, later)
    km = None
    if before.odometer_km is not None and after.odometer_km is not None:
        km = max(0.0, after.odometer_km - before.odometer_km)
    years = None
    if before.day is not None and after.day is not None:
        years = max(0.0, (after.day - before.day).days / DAYS_A_YEAR)
    return Use(km, years)


def visit_of(case: Case, number: int) -> Visit:
    return next(visit for visit in case.visits if visit.number == number)


def early_after(begins: Moment, case: Case, wears_in_over_km: float) -> Callable[[Moment], bool]:
    """Whether a later moment still lies in the first use after a job; where no distance is known, it does not."""

    def early(at: Moment) -> bool:
        if begins.visit < 1 or begins.phase is not Phase.WORK:
            return False
        km = use_between(case, begins.visit, at.visit).km
        return at.visit == begins.visit or (km is not None and km <= wears_in_over_km)

    return early

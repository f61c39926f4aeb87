"""What tests and repairs take on this vehicle from its present state, in minutes and money."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.advice.plan import Cover
from app.advice.prices import MINUTES_AN_HOUR, Prices
from app.advice.repairs import RepairHere
from app.evidence.case import Case
from app.rules.library import Rules
from app.rules.tests import Test
from app.rules.words import CoverId
from app.vehicle.layout import PlaceId


@dataclass(frozen=True, slots=True)
class Work:
    """What a step takes now.

    `minutes`: its own; `reach`, `restore`: of the `covers` still on. `parts`: money for the parts with a price;
    `unpriced`: parts without one, left out. `money`: all together.
    """

    minutes: float
    reach: float
    restore: float
    parts: float
    money: float
    covers: tuple[CoverId, ...]
    unpriced: tuple[str, ...] = ()

    @property
    def whole(self) -> float:
        return self.minutes + self.reach + self.restore


@dataclass(frozen=True, slots=True)
class TestHere:
    """A test at a place, or at places taken one after another until the first abnormal one."""

    __test__ = False

    test: Test
    places: tuple[PlaceId, ...]

    @property
    def id(self) -> str:
        return f"{self.test.id}@{'+'.join(self.places)}"


@dataclass(frozen=True, slots=True)
class Costs:
    """The case as it stands (its covers off now) under the shop's prices."""

    case: Case
    rules: Rules
    prices: Prices

    def of_test(self, here: TestHere) -> Work:
        return self.work(self.prices.minutes_of_test(here.test, len(here.places)), here.test.needs_open)

    def of_repair(self, repair: RepairHere) -> Work:
        minutes = self.prices.minutes_of_operation(repair.operation, len(repair.places))
        return self.work(minutes, repair.operation.opens, tuple(repair.parts), times=len(repair.places))

    def work(self, minutes: float, covers: Iterable[CoverId], parts: tuple[str, ...] = (), *, times: int = 1) -> Work:
        """`times`: so many of each part."""
        closed = tuple(cover for cover in covers if cover not in self.case.open_covers)
        both = [self.prices.minutes_of_cover(self.rules.covers[cover], self.case.vehicle.layout) for cover in closed]
        reach, restore = sum(one for one, _ in both), sum(other for _, other in both)
        known = sum(self.prices.parts[part] * times for part in parts if part in self.prices.parts)
        return Work(
            minutes=minutes,
            reach=reach,
            restore=restore,
            parts=known,
            money=self.prices.money(minutes + reach + restore) + known,
            covers=closed,
            unpriced=tuple(part for part in parts if part not in self.prices.parts),
        )

    def alone(self, work: Work) -> float:
        """Money for the step itself, without its covers."""
        return self.prices.money(work.minutes) + work.parts

    def covers(self) -> Mapping[str, Cover]:
        """What reaching and restoring each cover costs."""
        layout = self.case.vehicle.layout
        both = {name: self.prices.minutes_of_cover(cover, layout) for name, cover in self.rules.covers.items()}
        return {name: Cover(*(self.prices.money(minutes) for minutes in pair)) for name, pair in both.items()}

    def none_of_these(self) -> float:
        return self.prices.money(self.prices.none_of_these_hours * MINUTES_AN_HOUR)

"""What a shop pays for: its hour, its own minutes, its parts; what it has not said follows from the rules."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from app.rules.library import Rules
from app.rules.operations import Cover, Operation
from app.rules.tests import Test
from app.rules.words import CoverId, OperationId, TestId
from app.vehicle.layout import Layout

MINUTES_AN_HOUR = 60.0
CURRENCY = "EUR"
"""What a shop reckons in that has not said."""


@dataclass(frozen=True, slots=True)
class Prices:
    """`labour_rate` an hour, in `currency`. `none_of_these_hours`: searching on when all listed repairs were in vain.

    The shop's own minutes for this kind of vehicle: `operations` (at one place), `tests` (at one place, set-up
    included), `covers` (to reach and to restore). `parts`: price by the part's name as the rules say it.
    """

    labour_rate: float
    currency: str
    none_of_these_hours: float
    operations: Mapping[OperationId, float] = field(default_factory=dict)
    tests: Mapping[TestId, float] = field(default_factory=dict)
    covers: Mapping[CoverId, float] = field(default_factory=dict)
    parts: Mapping[str, float] = field(default_factory=dict)

    def money(self, minutes: float) -> float:
        return minutes / MINUTES_AN_HOUR * self.labour_rate

    def minutes_of_operation(self, operation: Operation, places: int) -> float:
        return self.operations.get(operation.id, operation.minutes) * places

    def minutes_of_test(self, test: Test, places: int) -> float:
        """The shop's figure is for the first place; each further one takes what the rules say."""
        first = self.tests.get(test.id, test.setup_minutes + test.minutes_per_place)
        return max(1.0, first + test.minutes_per_place * (places - 1))

    def minutes_of_cover(self, cover: Cover, layout: Layout) -> tuple[float, float]:
        """To reach and to restore; the shop's figure for both together is split as in the rules."""
        reach, restore = cover.minutes_on(layout)
        own = self.covers.get(cover.id)
        if own is None:
            return reach, restore
        share = reach / (reach + restore) if reach + restore > 0.0 else 0.5
        return own * share, own * (1.0 - share)


def supplied_prices(rules: Rules) -> Prices:
    """Of a shop that has said nothing yet."""
    return Prices(rules.settings.labour_rate, CURRENCY, rules.settings.hours_when_nothing_listed_helps)

"""A case's network and what inference said of it, together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from app.beliefs.beliefs import Beliefs, Chance, Masses
from app.board.asking import Asked
from app.evidence.case import Case
from app.network.build import CaseNetwork
from app.rules.library import Rules
from app.vehicle.layout import PlaceId

TIED = 12
"""What agrees to so many decimals is equal and stands as on the vehicle: places that mirror each other come so."""


@dataclass(frozen=True, slots=True)
class Answered:
    """Everything the parts of a board read from.

    First come the chances of the rows, and what settles them; what each result can show is only there once `further`
    is asked. `fates`: event -> its chance, that a row failed by itself and that it was destroyed. `unused`: the reports
    that were set aside, in words.
    """

    case: Case
    rules: Rules
    network: CaseNetwork
    asked: Asked
    beliefs: Beliefs
    fates: Mapping[int, Chance] = field(default_factory=dict)
    unused: tuple[str, ...] = ()
    _likeliest: dict[PlaceId, list[int]] = field(default_factory=dict)

    def likeliest_at(self, place: PlaceId) -> list[int]:
        """The rows about now that have to do with a place, the likeliest first."""
        if place not in self._likeliest:
            layout = self.case.vehicle.layout
            here = [
                number
                for number, row in enumerate(self.network.rows)
                if row.job is None and row.place is not None and layout.related(row.place, place)
            ]
            self._likeliest[place] = sorted(here, key=lambda number: -round(self.chance(number).yes, TIED))
        return self._likeliest[place]

    def chance(self, row: int) -> Chance:
        return self.beliefs.events[row]

    def to_blame(self, row: int) -> float:
        return self.beliefs.blamed[self.asked.blame_of[row]].yes

    def by_itself(self, row: int) -> Chance | None:
        """That the part failed by itself; None where nothing listed can destroy it."""
        return self._event(self.network.by_itself.get(row))

    def killed(self, row: int) -> Chance | None:
        """That something listed destroyed it; None where nothing listed can."""
        return self._event(self.network.killed.get(row))

    def _event(self, number: int | None) -> Chance | None:
        return None if number is None else self.fates.get(number)

    def factor(self, finding: int, row: int) -> float | None:
        """By how much a result or duty, with all that is taken together with it for this row, moves the row's odds.

        None where it does not speak of the row.
        """
        number = self.asked.left_out.get((finding, row))
        without = None if number is None else self.beliefs.without[number].get(row)
        return None if without is None else odds_factor(self.chance(row), without)

    def results_factor(self, row: int) -> float | None:
        """By how much all test results together have moved a row's odds; None where there are none."""
        number = self.asked.all_results
        without = None if number is None else self.beliefs.without[number].get(row)
        return None if without is None else odds_factor(self.chance(row), without)

    def judged(self, finding: int) -> bool:
        """Whether what a result can show was worked out; else it would have taken too long."""
        return bool(self.beliefs.retests[self.asked.of_result[finding]].predicted)

    def masses(self, finding: int, row: int) -> Masses | None:
        """A result's joint masses with a row, with the whole set it belongs to left out of the evidence."""
        return self.beliefs.retests[self.asked.of_result[finding]].masses.get((finding, row))


def odds_factor(with_it: Chance, without: Chance) -> float | None:
    """The odds with some reports against the odds without them; None where either is not defined."""
    if with_it.no <= 0.0 or without.no <= 0.0 or without.yes <= 0.0:
        return None
    return (with_it.yes / with_it.no) / (without.yes / without.no)

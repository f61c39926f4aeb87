"""The advice in sentences: do this next, because; or repair now; or nothing in these rules separates the rest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.advice.costs import TestHere
from app.advice.of_case import CaseAdvice, Kind, RepairStep, TestStep
from app.advice.prices import Prices
from app.advice.repairs import RepairHere
from app.board.words import chance_in_words, joined, places_in_words
from app.vehicle.layout import ENGINE, VEHICLE, Layout, PlaceId

WHAT_IT_MEANS = (
    "What the figure means: if the model is right and each repair is checked perfectly, following this advice costs on "
    "average at most this, and never more on average than repairing in the plain order. A single case can cost more."
)
PLAIN_ORDER = (
    "The plain order repairs first what cures most per cost, with a check after each repair, and searches on by hand "
    "where most likely nothing named cures it and that is cheaper."
)
GONE = "Work done since the complaint was last seen has probably cured it."
LIKELY = 0.5
SEARCH_ON = "Search on by hand: what these rules can name costs more than it is likely to save."
NOTHING = "No repair in these rules fits what may still be to blame."
CANNOT = "No step can be advised: the entries contradict each other, or there are too many to reckon with."


@dataclass(frozen=True, slots=True)
class AdviceWords:
    layout: Layout
    prices: Prices

    def headline(self, steps: CaseAdvice | None) -> str:
        """One sentence: what to do."""
        if steps is None:
            return CANNOT
        match steps.kind:
            case Kind.TEST:
                return f"Do this next: {self.test(steps.tests[0])}."
            case Kind.REPAIR:
                return f"Repair now: {self.repair(steps.repairs[0].repair)}."
            case Kind.NOTHING_SEPARATES:
                return f"Nothing in these rules separates the rest. Begin with: {self.repair(steps.repairs[0].repair)}."
            case Kind.SEARCH_ON:
                return SEARCH_ON
            case Kind.GONE:
                return f"{GONE} Prove that first."
            case Kind.NOTHING:
                return NOTHING

    def because(self, steps: CaseAdvice) -> tuple[str, ...]:
        """Why, sentence by sentence."""
        match steps.kind:
            case Kind.TEST:
                return (self._test_saves(steps), *self._covers(steps.tests[0]))
            case Kind.REPAIR:
                return (self._testing_costs(steps), *self._cures(steps), *self._part(steps.repairs[0]))
            case Kind.NOTHING_SEPARATES:
                names = joined([self.repair(one) for one in steps.alike])
                which = f"No test here tells which of these helps: {names}."
                return (which, *self._cures(steps), *self._part(steps.repairs[0]))
            case Kind.SEARCH_ON:
                return (self._searching_on(steps),)
            case Kind.GONE:
                still = chance_in_words(1.0 - steps.gone)
                return (
                    f"That the complaint is still there: {still}. If it shows again, record it; then this advises.",
                )
            case Kind.NOTHING:
                return ()

    def figure(self, steps: CaseAdvice) -> str:
        """The expected cost, in money and as minutes of work."""
        minutes = steps.expected / self.prices.money(1.0) if self.prices.labour_rate > 0.0 else 0.0
        rate = f"{self.money(self.prices.labour_rate)} an hour"
        as_work = f", as much as {minutes:.0f} min of work at {rate}" if minutes else ""
        return f"Expected cost from here: {self.money(steps.expected)}{as_work}."

    def left(self, steps: CaseAdvice) -> str:
        """What is left when all repairs named were in vain, and how it counts."""
        hours = f"{self.prices.none_of_these_hours:g} hours"
        chance = chance_in_words(steps.left)
        return f"That none of these repairs cures it: {chance}. Searching on by hand counts as {hours} of work."

    def unpriced(self, steps: CaseAdvice) -> str:
        """Parts without a price."""
        names = dict.fromkeys(part for step in steps.repairs for part in step.work.unpriced)
        return (
            f"No price is known for these parts, so they are not in the sums: {joined(list(names))}." if names else ""
        )

    def test(self, step: TestStep) -> str:
        return self.test_here(step.here)

    def test_here(self, here: TestHere) -> str:
        return f"{here.test.name}{self.places(here.places)}"

    def repair(self, repair: RepairHere) -> str:
        return f"{repair.operation.name}{self.places(repair.places)}"

    def places(self, places: Sequence[PlaceId]) -> str:
        named = [place for place in places if place not in (ENGINE, VEHICLE)]
        return f", {places_in_words(named, self.layout)}" if named else ""

    def money(self, amount: float) -> str:
        return f"{amount:,.0f} {self.prices.currency}".strip()

    def _test_saves(self, steps: CaseAdvice) -> str:
        first, without = self.money(steps.expected), self.money(self._without_test(steps))
        return f"Done first, the whole costs {first} on average; repairing straight away costs {without}."

    def _without_test(self, steps: CaseAdvice) -> float:
        return min([steps.base, *(step.expected for step in steps.repairs)])

    def _testing_costs(self, steps: CaseAdvice) -> str:
        if not steps.tests:
            return "No listed test is left that could tell anything."
        best = steps.tests[0]
        with_test, without = self.money(best.expected), self.money(steps.expected)
        return (
            f"Testing on costs more than it can save: with the best test first ({self.test(best)}) the whole costs "
            f"{with_test} on average, without it {without}."
        )

    def _searching_on(self, steps: CaseAdvice) -> str:
        both: list[TestStep | RepairStep] = [*steps.tests, *steps.repairs]
        best = min(both, key=lambda step: step.expected)
        name = self.test(best) if isinstance(best, TestStep) else self.repair(best.repair)
        by_hand, first = self.money(steps.expected), self.money(best.expected)
        hours = f"{self.prices.none_of_these_hours:g} hours"
        return (
            f"Searching on costs {by_hand} on average ({hours} until it is found, and its repair); with the best "
            f"listed step first ({name}) the whole costs {first}."
        )

    def _cures(self, steps: CaseAdvice) -> Iterator[str]:
        """Of the first repair alone; where that is not likely, with the next of the plain order as well."""
        first = steps.repairs[0]
        yield f"That the complaint is gone after this repair alone: {chance_in_words(first.cures)}."
        if first.cures < LIKELY and len(steps.order) > 1 and steps.order[0].id == first.repair.id:
            yield f"With “{self.repair(steps.order[1])}” as well: {chance_in_words(steps.cured_by[1])}."

    def _part(self, step: RepairStep) -> tuple[str, ...]:
        """Without the price of its part a repair looks cheaper than it is."""
        if not step.work.unpriced:
            return ()
        parts = joined(list(step.work.unpriced))
        return (f"No price is known for: {parts}. The dearer it is, the more a test first is worth.",)

    def _covers(self, step: TestStep) -> tuple[str, ...]:
        work = step.work
        if not work.covers:
            return ()
        return (f"{work.reach:.0f} min to reach it and {work.restore:.0f} min to put back are in its minutes.",)

"""The next step by expected cost, ready to show: the advice, why, the steps side by side, and what to do while open."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.advice.costs import TestHere, Work
from app.advice.of_case import CaseAdvice, Kind, RepairStep, TestStep
from app.advice.while_open import OpenDuty, OpenRenewal, OpenTest
from app.board.advice_words import PLAIN_ORDER, WHAT_IT_MEANS, AdviceWords
from app.board.advise import BoardAdvice
from app.board.words import capital, chance_figure, joined
from app.rules.library import Rules
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.said import sentence

MOST_TESTS = 5
MOST_REPAIRS = 4
TEN_MINUTES = 10.0


@dataclass(frozen=True, slots=True)
class StepView:
    """One step with its costs. `tells`: bits in ten minutes (a test) or the chance that it cures (a repair)."""

    name: str
    kind: str
    minutes: str
    covers: str
    cost: str
    whole: str
    tells_head: str
    tells: str
    equal: bool
    record: str


@dataclass(frozen=True, slots=True)
class OpenView:
    """Something to do behind covers that are off: what, how little it takes more, and what it is about."""

    what: str
    takes: str
    about: str
    record: str


@dataclass(frozen=True, slots=True)
class AdviceView:
    headline: str
    because: tuple[str, ...]
    cautions: tuple[str, ...]
    record: str
    record_words: str
    figure: str
    left: str
    unpriced: str
    means: str
    steps: tuple[StepView, ...]
    open_now: str
    open_tests: tuple[OpenView, ...]
    open_duties: tuple[OpenView, ...]
    open_renewals: tuple[OpenView, ...]
    say_what_is_open: str
    settings: str


@dataclass(frozen=True, slots=True)
class AdvicePage:
    frame: Frame
    back: str
    back_words: str
    advice: AdviceView


def advice_view(advice: BoardAdvice, scene: Scene, rules: Rules) -> AdviceView:
    words = _Words(AdviceWords(scene.around.layout, advice.prices), rules, f"/cases/{scene.on_file.id}")
    steps = advice.steps
    going_on = steps is not None and steps.kind not in (Kind.GONE, Kind.NOTHING)
    shown = steps if going_on else None
    first = _first(steps)
    covers = [rules.covers[cover].name for cover in scene.case.open_covers if cover in rules.covers]
    return AdviceView(
        headline=sentence(words.said.headline(steps)),
        because=tuple(sentence(one) for one in words.said.because(steps)) if steps else (),
        cautions=tuple(sentence(one) for one in _cautions(first)),
        record=words.record(first) if first else "",
        record_words="Record the result" if isinstance(first, TestStep) else "Record the job",
        figure=words.said.figure(shown) if shown else "",
        left=words.said.left(shown) if shown else "",
        unpriced=words.said.unpriced(shown) if shown else "",
        means=f"{WHAT_IT_MEANS} {PLAIN_ORDER}",
        steps=tuple(words.steps(shown)) if shown else (),
        open_now=joined(covers),
        open_tests=tuple(words.open_test(one) for one in advice.open.tests),
        open_duties=tuple(words.open_duty(one) for one in advice.open.duties),
        open_renewals=tuple(words.open_renewal(one) for one in advice.open.renewals),
        say_what_is_open=f"/cases/{scene.on_file.id}?record=covers",
        settings="/settings",
    )


def _first(steps: CaseAdvice | None) -> TestStep | RepairStep | None:
    if steps is None or steps.kind in (Kind.SEARCH_ON, Kind.GONE, Kind.NOTHING):
        return None
    return steps.tests[0] if steps.kind is Kind.TEST else steps.repairs[0]


def _cautions(first: TestStep | RepairStep | None) -> tuple[str, ...]:
    if isinstance(first, TestStep):
        return first.here.test.cautions
    return first.repair.operation.cautions if first else ()


@dataclass(frozen=True, slots=True)
class _Words:
    said: AdviceWords
    rules: Rules
    case: str

    def steps(self, steps: CaseAdvice) -> Iterator[StepView]:
        """Tests and repairs together, the cheapest whole first."""
        both: list[TestStep | RepairStep] = [*steps.tests[:MOST_TESTS], *steps.repairs[:MOST_REPAIRS]]
        first = _first(steps)
        for step in sorted(both, key=lambda one: (one is not first, one.expected)):
            yield self._step(step, equal=step.equal and step is not first)

    def _step(self, step: TestStep | RepairStep, *, equal: bool) -> StepView:
        name = self.said.test(step) if isinstance(step, TestStep) else self.said.repair(step.repair)
        return StepView(
            name=capital(name),
            kind="test" if isinstance(step, TestStep) else "repair",
            minutes=f"{step.work.whole:.0f} min",
            covers=self._covers(step.work),
            cost=self._cost(step.work),
            whole=self.said.money(step.expected),
            tells_head="tells in 10 min" if isinstance(step, TestStep) else "cures it",
            tells=self._tells(step),
            equal=equal,
            record=self.record(step),
        )

    def record(self, step: TestStep | RepairStep) -> str:
        if isinstance(step, TestStep):
            return self._record_test(step.here)
        return f"{self.case}?record=job&operation={step.repair.operation.id}"

    def _record_test(self, here: TestHere) -> str:
        place = here.places[0] if len(here.places) == 1 else ""
        return f"{self.case}?record=result&test={here.test.id}&place={place}"

    def _tells(self, step: TestStep | RepairStep) -> str:
        if isinstance(step, RepairStep):
            return chance_figure(step.cures)
        return f"{step.bits / step.work.whole * TEN_MINUTES:.2f} bit"

    def _covers(self, work: Work) -> str:
        if not work.covers:
            return ""
        names = ", ".join(self.rules.covers[cover].name for cover in work.covers)
        return f"{work.reach:.0f} min to reach, {work.restore:.0f} min to put back: {names}"

    def _cost(self, work: Work) -> str:
        without = f" without {joined(list(work.unpriced))}" if work.unpriced else ""
        return f"{self.said.money(work.money)}{without}"

    def open_test(self, one: OpenTest) -> OpenView:
        about = [self.rules.causes[cause].name for cause in one.about[:3]]
        return OpenView(
            what=capital(self.said.test_here(one.here)),
            takes=self._takes(one.work),
            about=f"Can show: {'; '.join(about)}.",
            record=self._record_test(one.here),
        )

    def open_duty(self, one: OpenDuty) -> OpenView:
        operation = self.rules.operations[one.job.job.operation]
        test = one.duty.verify_by_test
        how = f"Test: {self.rules.tests[test].name}." if test else sentence(one.duty.verify_how)
        return OpenView(
            what=capital(one.duty.text),
            takes=self._takes(one.work) if one.work else "a look",
            about=f"Of the job “{operation.name}”, visit {one.job.visit.number}. {how}",
            record=f"{self.case}?record=duty&job={one.job.job.entry}&duty={one.duty.id}",
        )

    def open_renewal(self, one: OpenRenewal) -> OpenView:
        causes = [self.rules.causes[cause].name for cause in one.repair.causes]
        return OpenView(
            what=capital(self.said.repair(one.repair)),
            takes=self._takes(one.work),
            about=f"{capital('; '.join(causes))} is there now: {chance_figure(one.there)}.",
            record=f"{self.case}?record=job&operation={one.repair.operation.id}",
        )

    def _takes(self, work: Work) -> str:
        return f"{work.minutes:.0f} min more, {self._cost(work)}"

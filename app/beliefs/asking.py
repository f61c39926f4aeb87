"""Questions put into a plan, with the place where each answer will be found."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.beliefs.absorb import Absorbed
from app.beliefs.branch import configurations
from app.beliefs.contexts import Context
from app.beliefs.plan import Plan
from app.beliefs.triggers import EventTriggers, blame_trigger, state_trigger
from app.network.noisy_or import NoisyOr, Questions, Without

MOST_PARENTS = 12
MOST_CONFIGURATIONS = 1 << MOST_PARENTS


@dataclass(frozen=True, slots=True)
class AskedRetest:
    """A context without the set: its column, events (event to pair), findings and masses ((finding, event) to pair)."""

    events: dict[int, int]
    columns: dict[int, int]
    masses: dict[tuple[int, int], int]


@dataclass(frozen=True, slots=True)
class AskedReading:
    """One reading of a series: the column with the earlier ones assumed normal, and pairs per parent hypothesis.

    A parent with two states has one pair, one with more a pair for each state.
    """

    column: int
    parents: tuple[tuple[int, ...], ...]
    exact: bool


@dataclass(frozen=True, slots=True)
class Asked:
    """The places of all answers: pairs by index, columns by index; () or {} for what is left out.

    `states`: of each hypothesis the states that can hold, each with its pair and the side of it (0 off, 1 on): of two
    states one is what the other is not.
    """

    states: tuple[tuple[tuple[int, int, int], ...], ...]
    events: tuple[int, ...]
    columns: dict[int, int]
    masses: dict[tuple[int, int], int]
    retests: tuple[AskedRetest, ...]
    without: tuple[dict[int, int], ...]
    blamed: tuple[int, ...]
    informing: tuple[tuple[AskedReading, ...], ...]


@dataclass(frozen=True, slots=True)
class Dropped:
    """What is not asked after all: tests by finding, the rest by number. `inexact`: series not to be branched over."""

    tests: frozenset[int] = frozenset()
    retests: frozenset[int] = frozenset()
    without: frozenset[int] = frozenset()
    informing: frozenset[int] = frozenset()
    inexact: frozenset[int] = frozenset()


EVERYTHING = Dropped()
NO_RETEST = AskedRetest({}, {}, {})


def asked_findings(questions: Questions) -> frozenset[int]:
    """Every finding that is tested in some column."""
    return frozenset(questions.tests).union(*questions.retests, *questions.informing)


class Asking:
    """Puts questions into one plan, kind by kind."""

    def __init__(self, network: NoisyOr, questions: Questions, absorbed: Absorbed, dropped: Dropped) -> None:
        self.network, self.questions, self.absorbed, self.dropped = network, questions, absorbed, dropped
        self.plan = Plan()
        self._events = EventTriggers(network, absorbed)
        self._of_event: dict[int, int] = {}
        self.able = frozenset(h for finding in questions.complaint for h in absorbed.parents.get(finding, ()))
        self._states: dict[tuple[int, int], int] = {}

    def ask(self) -> Asked:
        """Everything, with the place of each answer."""
        asked, dropped = self.questions, self.dropped
        columns = {test: self.plan.column(test=test) for test in asked.tests if test not in dropped.tests}
        return Asked(
            self._posteriors() if asked.states else (),
            tuple(self.plan.pair(self._event(event), 0) for event in self._wanted_events()),
            columns,
            self._masses(columns),
            tuple(NO_RETEST if n in dropped.retests else self._retest(f) for n, f in enumerate(asked.retests)),
            tuple({} if n in dropped.without else self._without(w) for n, w in enumerate(asked.without)),
            tuple(self._blame(blamed) for blamed in asked.blamed),
            tuple(
                () if n in dropped.informing else self._series(findings, n not in dropped.inexact)
                for n, findings in enumerate(asked.informing)
            ),
        )

    def _event(self, event: int) -> int:
        if event not in self._of_event:
            self._of_event[event] = self.plan.trigger(self._events.of(event))
        return self._of_event[event]

    def _trigger(self, hypothesis: int, state: int) -> int:
        key = hypothesis, state
        if key not in self._states:
            self._states[key] = self.plan.trigger(state_trigger(hypothesis, state))
        return self._states[key]

    def _posteriors(self) -> tuple[tuple[tuple[int, int, int], ...], ...]:
        return tuple(self._posterior(h) for h in range(len(self.absorbed.hypotheses)))

    def _posterior(self, hypothesis: int) -> tuple[tuple[int, int, int], ...]:
        states = [state.index for state in self.absorbed.hypotheses[hypothesis].states]
        if len(states) == 2:
            pair = self.plan.pair(self._trigger(hypothesis, states[1]), 0)
            return (states[0], pair, 0), (states[1], pair, 1)
        return tuple((state, self.plan.pair(self._trigger(hypothesis, state), 0), 1) for state in states)

    def _wanted_events(self) -> Sequence[int]:
        return range(len(self.network.events)) if self.questions.events is None else self.questions.events

    def _relevant(self, finding: int) -> Sequence[int]:
        relevant = self.questions.relevant
        return range(len(self.network.events)) if relevant is None else relevant.get(finding, ())

    def _masses(self, columns: dict[int, int]) -> dict[tuple[int, int], int]:
        return {
            (finding, event): self.plan.pair(self._event(event), column, sharp=True)
            for finding, column in columns.items()
            for event in self._relevant(finding)
        }

    def _retest(self, findings: Iterable[int]) -> AskedRetest:
        context = self.plan.context(Context(removed=frozenset(findings)))
        columns = {finding: self.plan.column(context, finding) for finding in findings}
        calm = self.plan.column(context)
        wanted = sorted({event for finding in columns for event in self._relevant(finding)})
        events = {event: self.plan.pair(self._event(event), calm) for event in wanted}
        return AskedRetest(events, columns, self._masses(columns))

    def _without(self, without: Without) -> dict[int, int]:
        column = self.plan.column(self.plan.context(Context(removed=frozenset(without.findings))))
        events = range(len(self.network.events)) if without.events is None else without.events
        return {event: self.plan.pair(self._event(event), column) for event in events}

    def _blame(self, blamed: Iterable[int]) -> int:
        trigger = self.plan.trigger(blame_trigger(self.able, blamed))
        return self.plan.pair(trigger, 0)

    def _series(self, findings: Iterable[int], branching: bool) -> tuple[AskedReading, ...]:
        readings: list[AskedReading] = []
        earlier: tuple[int, ...] = ()
        for finding in dict.fromkeys(findings):
            column = self.plan.column(self.plan.context(Context(quiet=frozenset(earlier))), finding)
            parents = self.absorbed.parents.get(finding, ())
            few = len(parents) <= MOST_PARENTS and configurations(parents, self.absorbed) <= MOST_CONFIGURATIONS
            if branching and few and len(parents) > 1:
                self.plan.branch(column)
                readings.append(AskedReading(column, (), exact=True))
            else:
                pairs = tuple(self._state_pairs(h, column) for h in parents)
                readings.append(AskedReading(column, pairs, exact=len(parents) <= 1))
            earlier += (finding,)
        return tuple(readings)

    def _state_pairs(self, hypothesis: int, column: int) -> tuple[int, ...]:
        states = [state.index for state in self.absorbed.hypotheses[hypothesis].states]
        if len(states) == 2:
            states = states[1:]
        return tuple(self.plan.pair(self._trigger(hypothesis, state), column) for state in states)

"""Questions put into a plan, with the place where each answer will be found."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.beliefs.absorb import Absorbed
from app.beliefs.contexts import Context
from app.beliefs.plan import Plan
from app.beliefs.run_part import configurations
from app.beliefs.triggers import blame_trigger, event_triggers, state_trigger
from app.network.noisy_or import NoisyOr, Questions

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


@dataclass(frozen=True, slots=True)
class Asked:
    """The places of all answers: pairs by index, columns by index."""

    states: tuple[tuple[tuple[int, int], ...], ...]
    events: tuple[int, ...]
    columns: dict[int, int]
    masses: dict[tuple[int, int], int]
    retests: tuple[AskedRetest, ...]
    blamed: tuple[int, ...]
    informing: tuple[tuple[AskedReading, ...], ...]


def asked_findings(questions: Questions) -> frozenset[int]:
    """Every finding that is tested in some column."""
    return frozenset(questions.tests).union(*questions.retests, *questions.informing)


class Asking:
    """Puts questions into one plan, kind by kind."""

    def __init__(self, network: NoisyOr, questions: Questions, absorbed: Absorbed) -> None:
        self.network, self.questions, self.absorbed = network, questions, absorbed
        self.plan = Plan()
        self.events = [self.plan.trigger(trigger) for trigger in event_triggers(network, absorbed)]
        self.states = [
            {state.index: self.plan.trigger(state_trigger(index, state.index)) for state in hypothesis.states}
            for index, hypothesis in enumerate(absorbed.hypotheses)
        ]

    def ask(self) -> Asked:
        """Everything, with the place of each answer."""
        columns = {test: self.plan.column(test=test) for test in self.questions.tests}
        return Asked(
            tuple(tuple((s, self.plan.pair(t, 0)) for s, t in states.items()) for states in self.states),
            tuple(self.plan.pair(trigger, 0) for trigger in self.events),
            columns,
            self._masses(columns),
            tuple(self._retest(findings) for findings in self.questions.retests),
            tuple(self._blame(blamed) for blamed in self.questions.blamed),
            tuple(self._series(findings) for findings in self.questions.informing),
        )

    def _relevant(self, finding: int) -> Sequence[int]:
        relevant = self.questions.relevant
        return range(len(self.events)) if relevant is None else relevant.get(finding, ())

    def _masses(self, columns: dict[int, int]) -> dict[tuple[int, int], int]:
        return {
            (finding, event): self.plan.pair(self.events[event], column, sharp=True)
            for finding, column in columns.items()
            for event in self._relevant(finding)
        }

    def _retest(self, findings: Iterable[int]) -> AskedRetest:
        context = self.plan.context(Context(removed=frozenset(findings)))
        columns = {finding: self.plan.column(context, finding) for finding in findings}
        calm = self.plan.column(context)
        wanted = sorted({event for finding in columns for event in self._relevant(finding)})
        events = {event: self.plan.pair(self.events[event], calm) for event in wanted}
        return AskedRetest(events, columns, self._masses(columns))

    def _blame(self, blamed: Iterable[int]) -> int:
        trigger = self.plan.trigger(blame_trigger(self.absorbed, blamed, self.questions.complaint))
        return self.plan.pair(trigger, 0)

    def _series(self, findings: Iterable[int]) -> tuple[AskedReading, ...]:
        readings: list[AskedReading] = []
        earlier: tuple[int, ...] = ()
        for finding in dict.fromkeys(findings):
            column = self.plan.column(self.plan.context(Context(quiet=frozenset(earlier))), finding)
            parents = self.absorbed.parents.get(finding, ())
            exact = len(parents) <= MOST_PARENTS and configurations(parents, self.absorbed) <= MOST_CONFIGURATIONS
            if exact:
                self.plan.branch(column)
            readings.append(AskedReading(column, () if exact else tuple(self._state_pairs(h, column) for h in parents)))
            earlier += (finding,)
        return tuple(readings)

    def _state_pairs(self, hypothesis: int, column: int) -> tuple[int, ...]:
        triggers = list(self.states[hypothesis].values())
        if len(triggers) == 2:
            triggers = triggers[1:]
        return tuple(self.plan.pair(trigger, column) for trigger in triggers)

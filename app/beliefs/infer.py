"""Exact inference over a noisy-OR network with states, switches, soft reports and documents."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from app.beliefs import narrow
from app.beliefs.absorb import Absorbed, absorb
from app.beliefs.asking import EVERYTHING, Asked, AskedRetest, Asking, Dropped, asked_findings
from app.beliefs.beliefs import Beliefs, Chance, Contradiction, Masses, Numbers, Retest
from app.beliefs.budget import MOST_NEEDED, MOST_WORK, Budget, counted, within
from app.beliefs.components import trees
from app.beliefs.contexts import papers
from app.beliefs.contradiction import contradiction
from app.beliefs.information import informations
from app.beliefs.left_out import LeftOut
from app.beliefs.solve import Layout, Solved, solve
from app.network.noisy_or import NoisyOr, Questions

NOTHING = Questions()


@dataclass(frozen=True, slots=True)
class _Planned:
    """Questions put to a network small enough for them; `set_aside`: the findings whose reports had to go for that."""

    questions: Questions
    layout: Layout
    asked: Asked
    spending: Budget
    set_aside: frozenset[int]


def infer(
    network: NoisyOr,
    questions: Questions = NOTHING,
    *,
    most_work: float = MOST_WORK,
    absorbed: Absorbed | None = None,
) -> Beliefs | Contradiction:
    """Posteriors of every state and event, and the answers to the questions; or why the reports cannot all be true.

    Questions that would take more than `most_work` multiply-adds together are left out, the dearest first. `absorbed`:
    from an earlier call with this network, if these questions test nothing but what is reported.
    """
    planned = _planned(network, questions, absorbed)
    if not all(hypothesis.states for hypothesis in planned.layout.absorbed.hypotheses):
        return Contradiction(())
    layout, asked, dropped = _within(planned, most_work)
    solved = solve(layout, frozenset(questions.complaint))
    if not np.isfinite(solved.log_evidence[0]):
        return contradiction(network)
    return _beliefs(planned, asked, solved, counted(dropped, questions, len(planned.set_aside)))


def _planned(network: NoisyOr, questions: Questions, known: Absorbed | None) -> _Planned:
    """With as few reports set aside as it takes for what is never left out."""
    most, aside = narrow.MOST_WORK, frozenset[int]()
    complaint, tested = frozenset(questions.complaint), asked_findings(questions)
    absorbed = known or absorb(network, tested, complaint)
    while True:
        if more := narrow.to_set_aside(absorbed, complaint, most):
            aside |= more
            network = narrow.leaving_out(network, more)
            absorbed = absorb(network, tested, complaint)
        planned = _laid_out(network, questions, absorbed, aside)
        needed = planned.spending.needed(planned.asked)
        if needed <= MOST_NEEDED or not absorbed.bits:
            return planned
        most = narrow.effort(absorbed) * MOST_NEEDED / needed


def _laid_out(network: NoisyOr, questions: Questions, absorbed: Absorbed, aside: frozenset[int]) -> _Planned:
    asking = Asking(network, questions, absorbed, EVERYTHING)
    asked = asking.ask()
    company = {frozenset(asking.plan.triggers[trigger].touches) for trigger, _ in asking.plan.pairs}
    layout = Layout(asking.plan, network, absorbed, trees(absorbed, company))
    spending = Budget(asking.plan, layout.parts, absorbed, len(papers(network)))
    return _Planned(questions, layout, asked, spending, aside)


def _within(planned: _Planned, most_work: float) -> tuple[Layout, Asked, Dropped]:
    layout = planned.layout
    dropped = within(most_work, planned.spending, planned.asked)
    if dropped == EVERYTHING:
        return layout, planned.asked, dropped
    again = Asking(layout.network, planned.questions, layout.absorbed, dropped)
    asked = again.ask()
    return replace(layout, plan=again.plan), asked, dropped


def _beliefs(planned: _Planned, asked: Asked, solved: Solved, not_asked: LeftOut) -> Beliefs:
    network, chances = planned.layout.network, _chances(solved)
    return Beliefs(
        log_evidence=float(solved.log_evidence[0]),
        states=_states(network, asked, chances),
        events=tuple(chance_of(chances, pair) for pair in asked.events),
        documents=_documents(network, solved),
        tests={test: _predicted(solved, column) for test, column in asked.columns.items()},
        masses=_masses(solved, asked.masses),
        retests=tuple(_retest(solved, chances, retest) for retest in asked.retests),
        blamed=tuple(chance_of(chances, pair) for pair in asked.blamed),
        informing=informations(asked.informing, solved),
        without=tuple({e: chance_of(chances, pair) for e, pair in pairs.items()} for pairs in asked.without),
        not_asked=not_asked,
        set_aside=planned.set_aside,
        absorbed=planned.layout.absorbed,
    )


def _chances(solved: Solved) -> Numbers:
    """(pairs, off/on), each row normalised."""
    sums: Numbers = solved.masses.sum(axis=2)
    chances: Numbers = sums / sums.sum(axis=1, keepdims=True).clip(min=np.finfo(np.float64).tiny)
    return chances


def chance_of(chances: Numbers, pair: int) -> Chance:
    """The trigger's chance of being on, and of being off."""
    no, yes = chances[pair]
    return Chance(float(yes), float(no))


def _states(network: NoisyOr, asked: Asked, chances: Numbers) -> tuple[Numbers, ...]:
    found = []
    for hypothesis, pairs in zip(network.hypotheses, asked.states, strict=bool(asked.states)):
        posterior = np.zeros(len(hypothesis.states))
        for state, pair, side in pairs:
            posterior[state] = chances[pair, side]
        found.append(posterior)
    return tuple(found)


def _documents(network: NoisyOr, solved: Solved) -> tuple[float, ...]:
    true = np.array([way.true for way in solved.ways], dtype=np.float64).reshape(len(solved.ways), -1)
    return tuple(float(chance) for chance in solved.papers[0] @ true)


def _predicted(solved: Solved, column: int) -> Chance:
    absent, present = solved.columns[column]
    return Chance(yes=float(present), no=float(absent))


def _masses(solved: Solved, pairs: dict[tuple[int, int], int]) -> dict[tuple[int, int], Masses]:
    values = solved.masses[list(pairs.values())].reshape(-1, 4).tolist() if pairs else []
    return {
        key: Masses(on_present, on_absent, off_present, off_absent)
        for key, (off_absent, off_present, on_absent, on_present) in zip(pairs, values, strict=True)
    }


def _retest(solved: Solved, chances: Numbers, retest: AskedRetest) -> Retest:
    return Retest(
        {event: chance_of(chances, pair) for event, pair in retest.events.items()},
        {finding: _predicted(solved, column) for finding, column in retest.columns.items()},
        _masses(solved, retest.masses),
    )

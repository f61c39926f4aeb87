"""The advice as lines of text for the command line."""

from __future__ import annotations

from collections.abc import Iterator

from app.advice.of_case import CaseAdvice, Kind, RepairStep, TestStep
from app.board.advice_words import WHAT_IT_MEANS, AdviceWords
from app.board.advise import BoardAdvice
from app.evidence.case import Case

MOST_STEPS = 4


def advice_as_text(advice: BoardAdvice, case: Case) -> str:
    """What to do next by expected cost, why, and what the figure means."""
    words = AdviceWords(case.vehicle.layout, advice.prices)
    lines = ["", "Next step by expected cost", f"    {words.headline(advice.steps)}"]
    if advice.steps is not None:
        lines.extend(f"    {line}" for line in _steps(advice.steps, words))
    return "\n".join(lines)


def _steps(steps: CaseAdvice, words: AdviceWords) -> Iterator[str]:
    yield from words.because(steps)
    if steps.kind in (Kind.GONE, Kind.NOTHING):
        return
    yield words.figure(steps)
    yield words.left(steps)
    for test in steps.tests[:MOST_STEPS]:
        yield f"- {words.test(test)}: {_costs(test, words)}"
    for repair in steps.repairs[:MOST_STEPS]:
        yield f"- {words.repair(repair.repair)}: {_costs(repair, words)}"
    if unpriced := words.unpriced(steps):
        yield unpriced
    yield WHAT_IT_MEANS


def _costs(step: TestStep | RepairStep, words: AdviceWords) -> str:
    return f"{step.work.whole:.0f} min; done first, the whole costs {words.money(step.expected)}"

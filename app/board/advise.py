"""The next step of a case by expected cost, and what can be done behind the covers that are off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.advice.costs import Costs
from app.advice.of_case import Asked, CaseAdvice, advice_of
from app.advice.prices import Prices
from app.advice.while_open import WhileOpen, while_open
from app.board.actions import promising_actions
from app.board.answered import Answered
from app.board.asking import complaint_findings
from app.board.board import Board
from app.board.build import answer
from app.board.rank import in_order
from app.evidence.case import Case
from app.rules.library import Rules

CAUSES = 8
WORTH_A_REPAIR = 0.02
TESTS = 10


@dataclass(frozen=True, slots=True)
class BoardAdvice:
    """`steps` is None where nothing can be advised (entries that contradict each other, or too large a question)."""

    steps: CaseAdvice | None
    open: WhileOpen
    prices: Prices


NOTHING_OPEN = WhileOpen()


def build_advice(case: Case, rules: Rules, prices: Prices) -> BoardAdvice:
    """What to do next in this case under the shop's prices, from what is open now."""
    answers = answer(case, rules)
    if isinstance(answers, Board):
        return BoardAdvice(None, NOTHING_OPEN, prices)
    return advice_for(answers, prices)


def advice_for(answers: Answered, prices: Prices) -> BoardAdvice:
    costs = Costs(answers.case, answers.rules, prices)
    ordered = in_order(answers)
    actions = promising_actions(answers, ordered[0][1][0], considered=TESTS) if ordered else ()
    asked = Asked(
        network=answers.network,
        complaint=complaint_findings(answers.network),
        rows=_leading(ordered, answers),
        tests=tuple(action.lines for action in actions),
    )
    return BoardAdvice(advice_of(asked, costs), while_open(answers.network, _there(answers), costs), prices)


def _leading(ordered: Sequence[tuple[int, Sequence[int]]], answers: Answered) -> tuple[int, ...]:
    """The places of the first causes, and parts that a listed cause has destroyed; the first whatever its chance."""
    weight = {row: answers.to_blame(row) for _, rows in ordered[:CAUSES] for row in rows}
    for row, event in answers.network.killed.items():
        if answers.network.rows[row].place is not None:
            weight[row] = max(weight.get(row, 0.0), answers.chance(event).yes)
    rows = sorted(weight, key=lambda row: -weight[row])
    return tuple(row for n, row in enumerate(rows) if n == 0 or weight[row] >= WORTH_A_REPAIR)


def _there(answers: Answered) -> Mapping[int, float]:
    """Every row about a place now -> the chance that its cause is there."""
    rows = enumerate(answers.network.rows)
    return {n: answers.chance(n).yes for n, row in rows if row.place is not None and row.job is None}

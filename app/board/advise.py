"""The next step of a case by expected cost, and what can be done behind the covers that are off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.advice.costs import Costs, TestHere
from app.advice.of_case import Asked, CaseAdvice, advice_of
from app.advice.prices import Prices
from app.advice.while_open import WhileOpen, while_open
from app.board.actions import promising_actions
from app.board.ahead import with_tests
from app.board.answered import Answered
from app.board.asking import complaint_findings
from app.board.board import Board
from app.board.build import Ranked, look_back, rank
from app.evidence.case import Case
from app.network.lines import ToCome
from app.rules.library import Rules

CAUSES = 24
WORTH_A_REPAIR = 0.005
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
    return advice_for(look_back(rank(case, rules)), prices)


def advice_for(ranked: Ranked | Board, prices: Prices) -> BoardAdvice:
    """The same for a case looked back on already; a whole board stands for entries that cannot all be true."""
    if isinstance(ranked, Board):
        return BoardAdvice(None, NOTHING_OPEN, prices)
    answers, ordered = ranked.answers, ranked.ordered
    costs = Costs(answers.case, answers.rules, prices)
    actions = promising_actions(answers, ordered[0][1][0], considered=TESTS) if ordered else ()
    wanted = {(action.test.id, place): ToCome(action.test, place) for action in actions for place in action.places}
    network = with_tests(answers, wanted.values())
    asked = Asked(
        network=network,
        complaint=complaint_findings(network),
        rows=_leading(ordered, answers),
        destroyed=frozenset(row for row in answers.network.killed if _rather_destroyed(row, answers)),
        tests=tuple(TestHere(action.test, action.places) for action in actions),
    )
    return BoardAdvice(advice_of(asked, costs), while_open(answers.network, _there(answers), costs), prices)


def _leading(ordered: Sequence[tuple[int, Sequence[int]]], answers: Answered) -> tuple[int, ...]:
    """The places of the first causes, and parts that a listed cause has destroyed; the first whatever its chance."""
    weight = {row: answers.to_blame(row) for _, rows in ordered[:CAUSES] for row in rows}
    for row in answers.network.killed:
        killed = answers.killed(row)
        if killed is not None and answers.network.rows[row].place is not None:
            weight[row] = max(weight.get(row, 0.0), killed.yes)
    rows = sorted(weight, key=lambda row: -weight[row])
    return tuple(row for n, row in enumerate(rows) if n == 0 or weight[row] >= WORTH_A_REPAIR)


def _rather_destroyed(row: int, answers: Answered) -> bool:
    killed = answers.killed(row)
    return killed is not None and killed.yes > 0.5 * answers.chance(row).yes


def _there(answers: Answered) -> Mapping[int, float]:
    """Every row about a place now -> the chance that its cause is there."""
    rows = enumerate(answers.network.rows)
    return {n: answers.chance(n).yes for n, row in rows if row.place is not None and row.job is None}

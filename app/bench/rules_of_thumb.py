"""Rules for what to do next: the program's advice, and simpler ones to compare it with."""

from __future__ import annotations

import numpy as np

from app.advice.expected_cost import advise
from app.advice.plan import Repair, Situation, Test
from app.advice.table import Numbers, Table

SURE_ENOUGH = 0.6
"""From this chance of being cured by one repair on, who goes by information stops testing (ENGINE.md)."""
NOTHING_TO_LEARN = 1e-9


def by_advice(belief: Table, left: Situation) -> Test | Repair:
    """Expected cost of repair, as the program advises."""
    advice = advise(belief, left)
    return advice.test or advice.repair or left.repairs[0]


def most_probable_part(belief: Table, left: Situation) -> Repair:
    """No test: the repair that most probably cures, whatever it costs."""
    return max(left.repairs, key=lambda repair: belief.cured(repair.cures))


def information_per_minute(belief: Table, left: Situation) -> Test | Repair:
    """The test that tells most for its minutes, access included, until one repair is likely enough to cure."""
    likeliest = most_probable_part(belief, left)
    if belief.cured(likeliest.cures) >= SURE_ENOUGH or not left.tests:
        return likeliest
    worth = {test.id: information(belief, test) / (test.cost + left.access(test.covers)) for test in left.tests}
    best = max(left.tests, key=lambda test: worth[test.id])
    return best if worth[best.id] > NOTHING_TO_LEARN else likeliest


def information(belief: Table, test: Test) -> float:
    """I(outcome; faults) in bits."""
    shown = belief.shown[test.id]
    return float(_entropy(shown @ belief.chances) - _entropy(shown) @ belief.chances)


def _entropy(chances: Numbers) -> Numbers:
    """Over the first axis, in bits."""
    logs = np.log2(chances, out=np.zeros_like(chances), where=chances > 0.0)
    entropy: Numbers = -(chances * logs).sum(axis=0)
    return entropy

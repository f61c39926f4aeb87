"""From when on a likelihood ratio settles something.

Large and often conclusive: above 10 or below 0.1. Moderate and small: down to 2 and up to 0.5
(Jaeschke, Guyatt and Sackett, Users' Guides to the Medical Literature III B, JAMA 1994; cited from memory).
"""

from __future__ import annotations

from app.rules.library import Rules
from app.rules.tests import Shows, Test
from app.rules.words import CauseId

CAN_RULE_IN = 10.0
CAN_RULE_OUT = 0.1
LEANS_FROM = 2.0
LEANS_TO = 0.5


def can_settle(cause: CauseId, rules: Rules) -> bool:
    """Whether any test, by itself and with nothing else wrong, can rule this cause in or out."""
    return any(
        shows.cause == cause and (_rules_out(shows) or _rules_in(shows, test))
        for test in rules.tests.values()
        for shows in test.shows
    )


def _rules_out(shows: Shows) -> bool:
    """LR− = (1 − fa)(1 − q) / (1 − fa)."""
    return 1.0 - shows.strength.chance <= CAN_RULE_OUT


def _rules_in(shows: Shows, test: Test) -> bool:
    """LR+ = (1 − (1 − fa)(1 − q)) / fa."""
    false_alarm = test.false_alarm.chance
    return 1.0 - (1.0 - false_alarm) * (1.0 - shows.strength.chance) >= CAN_RULE_IN * false_alarm

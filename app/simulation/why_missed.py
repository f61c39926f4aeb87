"""Why the board may not find a cause: what the rules themselves say about it."""

from __future__ import annotations

from app.board.words import joined
from app.rules.library import Rules
from app.rules.thresholds import can_settle
from app.rules.words import CauseId


def why_not_found(cause: CauseId, rules: Rules) -> str:
    """A phrase: only the repair tells, no test settles it, it is shown like another, or it is rare beside others."""
    one = rules.causes[cause]
    if one.only_the_repair_tells is not None:
        return "only the repair tells"
    if not can_settle(cause, rules):
        return "no test settles it"
    alike = [rules.causes[other].name for other in shown_alike(cause, rules)]
    if alike:
        return f"the same tests show {joined(alike[:3])} just as well"
    return "rare beside causes with the same symptoms"


def shown_alike(cause: CauseId, rules: Rules) -> tuple[CauseId, ...]:
    """Causes that every test shows exactly as well as this one, at the same level: no test can tell them apart."""
    shows = _shown_by(rules)
    mine = shows.get(cause, {})
    return tuple(other for other, theirs in shows.items() if other != cause and mine and theirs == mine)


def _shown_by(rules: Rules) -> dict[CauseId, dict[str, str]]:
    found: dict[CauseId, dict[str, str]] = {}
    for test in rules.tests.values():
        for shows in test.shows:
            found.setdefault(shows.cause, {})[test.id] = shows.strength.word
    return found

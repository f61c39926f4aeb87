"""Why the board may not find a cause: what the rules themselves say about it."""

from __future__ import annotations

from app.board.words import joined
from app.rules.library import Rules
from app.rules.notices import shown_alike
from app.rules.thresholds import can_settle
from app.rules.words import CauseId


def why_not_found(cause: CauseId, rules: Rules) -> str:
    """A phrase: only the repair tells, no test settles it, it is shown like another, or it is rare beside others."""
    one = rules.causes[cause]
    if one.only_the_repair_tells is not None:
        return "only the repair tells"
    if not can_settle(cause, rules):
        return "no test settles it"
    groups = shown_alike(rules.causes.keys(), rules)
    alike = [rules.causes[other].name for group in groups if cause in group for other in group if other != cause]
    if alike:
        return f"the same tests show {joined(alike[:3])} just as well"
    return "rare beside causes with the same symptoms"

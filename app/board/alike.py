"""Causes on the board that no test can tell from each other: said, so that nobody tests on in vain."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from app.board.board import CauseGroup
from app.board.words import joined
from app.rules.library import Rules
from app.rules.notices import shown_alike

LOOKED_AT = 10


def told_apart_by_repair(groups: Sequence[CauseGroup], rules: Rules) -> tuple[CauseGroup, ...]:
    """The groups, the leading ones with a sentence where no test tells them from another leading one."""
    names = {group.cause: group.name for group in groups[:LOOKED_AT]}
    twins = {cause: [one for one in alike if one != cause] for alike in shown_alike(names, rules) for cause in alike}
    return tuple(
        replace(group, said=(*group.said, _sentence([names[one] for one in twins[group.cause]])))
        if group.cause in twins
        else group
        for group in groups
    )


def _sentence(others: list[str]) -> str:
    return f"No test tells this from {joined([other.lower() for other in others])}: only the repair does."

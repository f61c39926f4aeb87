"""Rules that do not know a cause: what the board says when the true one is on no list."""

from __future__ import annotations

from dataclasses import replace

from app.rules.library import Rules
from app.rules.words import CauseId


def without_cause(rules: Rules, cause: CauseId) -> Rules:
    """The same rules as if nobody had ever thought of this cause."""
    return replace(
        rules,
        causes={name: one for name, one in rules.causes.items() if name != cause},
        families={
            name: replace(family, causes=tuple(one for one in family.causes if one != cause))
            for name, family in rules.families.items()
        },
        tests={
            name: replace(
                test,
                shows=tuple(one for one in test.shows if one.cause != cause),
                blind_when=tuple(one for one in test.blind_when if one.cause != cause),
                cannot_show=tuple(one for one in test.cannot_show if one.cause != cause),
            )
            for name, test in rules.tests.items()
        },
        operations={
            name: replace(
                operation,
                touches={one: effect for one, effect in operation.touches.items() if one != cause},
                duties=tuple(replace(d, brings=None) if d.brings == cause else d for d in operation.duties),
            )
            for name, operation in rules.operations.items()
        },
        defects={
            name: replace(kind, brings=None, how=None) if kind.brings == cause else kind
            for name, kind in rules.defects.items()
        },
    )

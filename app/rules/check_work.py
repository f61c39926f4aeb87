"""Causes and operations that disagree about duties, places and repairs."""

from __future__ import annotations

from collections.abc import Iterator

from app.problem import Problem
from app.rules.causes import Cause
from app.rules.library import Rules
from app.rules.operations import Operation
from app.rules.words import Effect


def check_work(rules: Rules) -> Iterator[Problem]:
    for cause in rules.causes.values():
        yield from _raised(cause, rules)
        yield from _repaired(cause, rules)
    for operation in rules.operations.values():
        yield from _brings(operation, rules)


def _raised(cause: Cause, rules: Rules) -> Iterator[Problem]:
    for number, raised in enumerate(cause.raised_by):
        where = rules.where("causes", cause.id, "raised by", str(number))
        duty = next(duty for duty in rules.operations[raised.operation].duties if duty.id == raised.duty)
        if duty.brings != cause.id:
            yield Problem(
                where,
                f"“{raised.operation}” does not say that its duty “{raised.duty}” brings “{cause.id}”.",
                f"Write “brings: {cause.id}” at {rules.where('operations', raised.operation, 'duties', raised.duty)}.",
            )
        if raised.at not in cause.acts_at:
            yield Problem(
                where,
                f"“{cause.name}” is raised at level {raised.at}, where it does not act.",
                f"Use one of its levels: {', '.join(cause.acts_at)}.",
            )


def _repaired(cause: Cause, rules: Rules) -> Iterator[Problem]:
    for fix in cause.fixed_by:
        effect = rules.operations[fix.operation].touches.get(cause.id, Effect.OPENS)
        if effect is Effect.OPENS:
            yield Problem(
                rules.where("causes", cause.id, "fixed by", fix.operation),
                f"“{fix.operation}” is said to fix “{cause.id}”, but does not renew or set it.",
                f"Add “{cause.id}: renews” or “sets” under “touches” of the operation.",
            )


def _brings(operation: Operation, rules: Rules) -> Iterator[Problem]:
    for duty in operation.duties:
        if duty.brings is None:
            continue
        raised_by = rules.causes[duty.brings].raised_by
        if not any(raised.operation == operation.id and raised.duty == duty.id for raised in raised_by):
            yield Problem(
                rules.where("operations", operation.id, "duties", duty.id),
                f"“{duty.brings}” does not say that it is raised by this duty.",
                f"Add an entry under “raised by” at {rules.where('causes', duty.brings)}.",
            )

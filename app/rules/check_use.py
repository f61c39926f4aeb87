"""Rules nothing leads to or from: causes no test settles, tests that show nothing, symptoms nobody gives."""

from __future__ import annotations

from collections.abc import Iterator

from app.problem import Problem
from app.rules.library import Rules
from app.rules.thresholds import can_settle


def check_use(rules: Rules) -> Iterator[Problem]:
    yield from _causes(rules)
    yield from _tests(rules)
    yield from _symptoms(rules)


def _causes(rules: Rules) -> Iterator[Problem]:
    for cause in rules.causes.values():
        if cause.only_the_repair_tells is None and not can_settle(cause.id, rules):
            yield Problem(
                rules.where("causes", cause.id),
                f"No test can rule “{cause.name}” in or out.",
                "Let a test show it (strong, or fair with few false alarms), or say why “only the repair tells”.",
            )
        if not cause.gives:
            yield Problem(
                rules.where("causes", cause.id),
                f"“{cause.name}” gives no symptom.",
                "Add what it gives, or leave it out.",
            )


def _tests(rules: Rules) -> Iterator[Problem]:
    verifying = {duty.verify_by_test for operation in rules.operations.values() for duty in operation.duties}
    for test in rules.tests.values():
        if not test.shows and test.id not in verifying:
            yield Problem(
                rules.where("tests", test.id),
                f"Nothing needs “{test.name}”: it shows no cause and verifies no duty.",
                "Add what it shows, or leave it out.",
            )


def _symptoms(rules: Rules) -> Iterator[Problem]:
    given = {kind for cause in rules.causes.values() for gives in cause.gives for kind in rules.kinds(gives.symptom)}
    for symptom in rules.symptoms.values():
        if symptom.id not in given:
            yield Problem(
                rules.where("symptoms", symptom.id),
                f"No cause gives “{symptom.name}”.",
                "Let a cause give it, or leave it out.",
            )

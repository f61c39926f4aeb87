"""What each test says about each cause of its family: it shows it, or it cannot, and never both."""

from __future__ import annotations

from collections.abc import Iterator

from app.problem import Problem
from app.rules.library import Rules
from app.rules.tests import Test


def check_pairs(rules: Rules) -> Iterator[Problem]:
    for test in rules.tests.values():
        yield from _silent(test, rules)
        yield from _both(test, rules)
        yield from _blind_to_nothing(test, rules)


def _silent(test: Test, rules: Rules) -> Iterator[Problem]:
    family = rules.families[test.family]
    spoken = {shows.cause for shows in test.shows} | {cannot.cause for cannot in test.cannot_show}
    silent: dict[str, list[str]] = {}
    for cause in rules.causes.values():
        if family.has(cause) and cause.id not in spoken:
            silent.setdefault(cause.system, []).append(cause.id)
    for system, names in silent.items():
        yield Problem(
            rules.where("tests", test.id),
            f"“{test.name}” neither shows nor cannot show {', '.join(names)}.",
            f"Add each under “shows” or “cannot show”, or say why it cannot show the whole system “{system}”.",
        )


def _both(test: Test, rules: Rules) -> Iterator[Problem]:
    shown = {shows.cause for shows in test.shows}
    for cannot in test.cannot_show:
        if cannot.cause in shown:
            yield Problem(
                rules.where("tests", test.id, "cannot show", cannot.cause),
                f"“{test.name}” both shows and cannot show “{cannot.cause}”.",
                "Keep one; a situation in which it misses it belongs under “blind when”.",
            )


def _blind_to_nothing(test: Test, rules: Rules) -> Iterator[Problem]:
    shown = {shows.cause for shows in test.shows}
    for blind in test.blind_when:
        if blind.cause not in shown:
            yield Problem(
                rules.where("tests", test.id, "blind when", blind.situation, blind.cause),
                f"“{test.name}” is said to be blind to “{blind.cause}”, which it does not show anyway.",
                "Add it under “shows”, or take it out here.",
            )

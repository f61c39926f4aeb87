"""What each test says about each cause of its family: it shows it, or it cannot, and never both.

A test or a cause that the shop added may leave that open: the board then says that no rule speaks of the pair.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from app.problem import Problem
from app.rules.library import Rules
from app.rules.own import is_own
from app.rules.priors import leads_of
from app.rules.tests import Test
from app.rules.words import CauseId, FamilyId, SymptomId

Leads = Mapping[FamilyId, Mapping[CauseId, frozenset[SymptomId]]]
"""For each family the causes it has, each with the lead complaints that it gives."""


def check_pairs(rules: Rules) -> Iterator[Problem]:
    leads = {
        family.id: {name: leads_of(rules.causes[name], family, rules) for name in family.causes}
        for family in rules.families.values()
    }
    for test in rules.tests.values():
        yield from _silent(test, leads, rules)
        yield from _both(test, rules)
        yield from _blind_to_nothing(test, rules)


def _silent(test: Test, leads: Leads, rules: Rules) -> Iterator[Problem]:
    if is_own(rules.where("tests", test.id)):
        return
    spoken = {shows.cause for shows in test.shows} | {cannot.cause for cannot in test.cannot_show}
    silent: dict[str, list[str]] = {}
    for name in dict.fromkeys(name for family in test.families for name in _asked(test, leads[family])):
        if name not in spoken and not is_own(rules.where("causes", name)):
            silent.setdefault(rules.causes[name].system, []).append(name)
    for system, names in silent.items():
        yield Problem(
            rules.where("tests", test.id),
            f"“{test.name}” neither shows nor cannot show {', '.join(names)}.",
            f"Add each under “shows” or “cannot show”, or say why it cannot show the whole system “{system}”.",
        )


def _asked(test: Test, leads: Mapping[CauseId, frozenset[SymptomId]]) -> Iterator[CauseId]:
    """The causes that share a lead complaint of the family with something the test shows."""
    led = frozenset(lead for shows in test.shows for lead in leads.get(shows.cause, ()))
    return (name for name, given in leads.items() if not led.isdisjoint(given))


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

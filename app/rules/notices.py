"""What is worth a look in rules that are in order: what no test tells apart, tests a cheaper one replaces, crowds."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from itertools import combinations

from app.problem import Problem
from app.rules.index import spoken_of_by
from app.rules.library import Rules
from app.rules.readability import reading_ease
from app.rules.tests import Test
from app.rules.words import CauseId

CROWD = 40


def notices(rules: Rules) -> tuple[Problem, ...]:
    """Every notice, each with file and line; none of them keeps the rules from being used."""
    return (*_inseparable(rules), *_replaced(rules), *_crowds(rules))


def shown_alike(causes: Collection[CauseId], rules: Rules) -> tuple[tuple[CauseId, ...], ...]:
    """Groups of these causes that every test shows equally well, blind in the same situations: none tells them apart.

    Where two act at different places, the place can still tell.
    """
    alike: dict[tuple[frozenset[tuple[str, ...]], frozenset[str]], list[CauseId]] = {}
    for cause, marks in _marks(causes, rules).items():
        alike.setdefault((frozenset(marks), frozenset(rules.causes[cause].acts_at)), []).append(cause)
    return tuple(tuple(group) for group in alike.values() if len(group) > 1)


def _marks(causes: Collection[CauseId], rules: Rules) -> dict[CauseId, set[tuple[str, ...]]]:
    """For each cause that a test shows: every test with its strength, and every situation in which it is blind."""
    found: dict[CauseId, set[tuple[str, ...]]] = {}
    about = spoken_of_by(rules)
    for cause, test in [(one, test) for one in causes for test in about.get(one, ())]:
        marks = found.setdefault(cause, set())
        marks.update((test.id, shows.strength.word) for shows in test.shows if shows.cause == cause)
        marks.update((test.id, "blind when", b.situation, b.share.word) for b in test.blind_when if b.cause == cause)
    return found


def _inseparable(rules: Rules) -> Iterator[Problem]:
    for names in shown_alike(rules.causes.keys(), rules):
        yield Problem(
            rules.where("causes", names[0]),
            f"No test can tell these apart: {', '.join(names)}.",
            "The board says that only the repair tells; add a test, or what one of them gives, if there is one.",
        )


def _replaced(rules: Rules) -> Iterator[Problem]:
    for one, other in combinations(rules.tests.values(), 2):
        for dear, cheap in ((one, other), (other, one)):
            if _replaces(cheap, dear, rules):
                yield Problem(
                    rules.where("tests", dear.id),
                    f"“{cheap.name}” shows all that “{dear.name}” shows, as well or better, in less time.",
                    "Leave the dearer one out, or say what it alone can show.",
                )


def _replaces(cheap: Test, dear: Test, rules: Rules) -> bool:
    if cheap.at is not dear.at or not dear.shows or _minutes(cheap, rules) >= _minutes(dear, rules):
        return False
    strengths = {shows.cause: shows.strength.chance for shows in cheap.shows}
    shows_as_well = all(strengths.get(shows.cause, 0.0) >= shows.strength.chance for shows in dear.shows)
    blind = {(b.cause, b.situation) for b in cheap.blind_when}
    blind_no_more = blind <= {(b.cause, b.situation) for b in dear.blind_when}
    return shows_as_well and blind_no_more and cheap.false_alarm.chance <= dear.false_alarm.chance


def _minutes(test: Test, rules: Rules) -> float:
    return test.setup_minutes + test.minutes_per_place + sum(rules.covers[c].reach_minutes for c in test.needs_open)


def _crowds(rules: Rules) -> Iterator[Problem]:
    for symptom in rules.symptoms.values():
        parents = [c.id for c in rules.causes.values() if any(gives.symptom == symptom.id for gives in c.gives)]
        if len(parents) > CROWD:
            yield Problem(
                rules.where("symptoms", symptom.id),
                f"{len(parents)} causes give “{symptom.name}”.",
                "A kind of it would tell more; ask for one.",
            )
    for test in rules.tests.values():
        if len(test.shows) > CROWD:
            yield Problem(rules.where("tests", test.id), f"“{test.name}” shows {len(test.shows)} causes.", "Split it.")


def customers_sentences(rules: Rules) -> Iterable[str]:
    """What a customer gets to read or hear: what it is called, and whether it may be driven."""
    for symptom in rules.symptoms.values():
        yield symptom.name
        if symptom.may_drive:
            yield symptom.may_drive


def readability(rules: Rules) -> float:
    """Flesch reading ease of what customers read; 60 to 70 is plain English (Flesch 1948)."""
    return reading_ease(customers_sentences(rules))

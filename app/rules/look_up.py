"""Finding a rule by what it is called, by a code, or by how a customer says it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from rapidfuzz import fuzz

from app.rules.causes import Cause
from app.rules.customer_words import suggest
from app.rules.library import Rules
from app.rules.operations import Operation
from app.rules.symptoms import Symptom
from app.rules.tests import Test
from app.rules.words import CauseId, OperationId, SymptomId, TestId

A_SENTENCE = 3
"""From so many words on it may be a customer's sentence."""
SHORT = 4
NEAR_ENOUGH = 72.0
"""Out of 100, of the words typed (judgement: one slip in a word of six letters still finds it)."""


@dataclass(frozen=True, slots=True)
class Found:
    """A rule: the shelf it stands on (causes, tests, operations, symptoms), id and name; `by`: the words that fit."""

    shelf: str
    id: str
    name: str
    by: str


Rule = Cause | Test | Operation | Symptom


def find_rule(shelf: str, id: str, rules: Rules) -> Rule | None:
    """The rule of this id on this shelf."""
    match shelf:
        case "causes":
            return rules.causes.get(CauseId(id))
        case "tests":
            return rules.tests.get(TestId(id))
        case "operations":
            return rules.operations.get(OperationId(id))
        case "symptoms":
            return rules.symptoms.get(SymptomId(id))
    return None


def look_up(typed: str, rules: Rules, limit: int = 30) -> tuple[Found, ...]:
    """The rules that fit best, best first; none where nothing is typed or nothing comes near."""
    wanted = typed.casefold().split()
    if not wanted:
        return ()
    scored = [(_fit(wanted, found.by), found) for found in _everything(rules)]
    best: dict[tuple[str, str], tuple[float, Found]] = {}
    for score, found in scored:
        if score >= NEAR_ENOUGH and score > best.get((found.shelf, found.id), (0.0, found))[0]:
            best[found.shelf, found.id] = score, found
    ordered = [found for _, found in sorted(best.values(), key=lambda pair: (-pair[0], pair[1].name))]
    return tuple((*ordered, *_as_a_customer_says_it(typed, rules, known=best.keys()))[:limit])


def _as_a_customer_says_it(typed: str, rules: Rules, *, known: Collection[tuple[str, str]]) -> Iterator[Found]:
    """Whole sentences find symptoms as the complaint box does."""
    for near in suggest(typed, rules) if len(typed.split()) >= A_SENTENCE else ():
        if ("symptoms", near.symptom) not in known:
            yield Found("symptoms", near.symptom, rules.symptoms[near.symptom].name, near.because_words)


def _everything(rules: Rules) -> Iterator[Found]:
    for cause in rules.causes.values():
        yield Found("causes", cause.id, cause.name, cause.name)
    for test in rules.tests.values():
        yield Found("tests", test.id, test.name, test.name)
    for operation in rules.operations.values():
        yield Found("operations", operation.id, operation.name, operation.name)
    for symptom in rules.symptoms.values():
        for words in (symptom.name, *symptom.says, *(pattern.code for pattern in symptom.codes)):
            yield Found("symptoms", symptom.id, symptom.name, words)


def _fit(wanted: Iterable[str], words: str) -> float:
    """How well the worst-fitting word typed fits the words of the rule, with a little for words left over."""
    there = words.casefold().replace("-", " ").split()
    fits = [max(_alike(word, other) for other in there) for word in wanted]
    return min(fits) - 0.1 * max(0, len(there) - len(fits))


def _alike(word: str, other: str) -> float:
    """100 for the same word, 98 for its beginning; in a short word no slip is forgiven, "lash" is not "last"."""
    if word == other:
        return 100.0
    if len(word) > 2 and other.startswith(word):
        return 98.0
    return fuzz.ratio(word, other) if len(word) > SHORT else 0.0

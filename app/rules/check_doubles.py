"""The same meaning twice: equal or nearly equal names, customer's words used twice, codes with two meanings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rapidfuzz import fuzz, process

from app.problem import Problem
from app.rules.library import Rules

NEARLY_THE_SAME = 85.0
"""Out of 100, of the words in which two names differ: "valve"/"valves" are 91 alike, "wide"/"tight" 22 (judgement)."""
WORTH_COMPARING = 60.0
"""Names less alike than this as a whole do not mean nearly the same."""
SMALL_WORDS = frozenset({"a", "an", "the", "of", "in", "on", "at", "to", "and", "or", "is", "with"})

Named = tuple[tuple[str, ...], str]
"""The path of keys to a name, and the name."""


def check_doubles(rules: Rules) -> Iterator[Problem]:
    for names in _names(rules):
        yield from _alike(names, rules)
    yield from _said_twice(rules)
    yield from _codes_twice(rules)


def _names(rules: Rules) -> Iterator[Sequence[Named]]:
    yield [(("symptoms", s.id), s.name) for s in rules.symptoms.values()]
    yield [(("causes", c.id), c.name) for c in rules.causes.values()]
    yield [(("tests", t.id), t.name) for t in rules.tests.values()]
    yield [(("operations", o.id), o.name) for o in rules.operations.values()]
    yield [(("teardown", c.id), c.name) for c in rules.covers.values()]
    yield [(("findings", d.id), d.name) for d in rules.defects.values()]
    yield [(("quantities", q.id), q.name) for q in rules.quantities.values()]


def _alike(names: Sequence[Named], rules: Rules) -> Iterator[Problem]:
    worded = [(path, name, frozenset(name.casefold().replace("-", " ").split()) - SMALL_WORDS) for path, name in names]
    near = process.cdist(_sorted(worded), _sorted(worded), scorer=fuzz.ratio, score_cutoff=WORTH_COMPARING)
    for a, b in zip(*near.nonzero(), strict=True):
        (first, one, some), (second, other, others) = worded[a], worded[b]
        if a < b and nearly_same(some, others):
            yield Problem(
                rules.where(*second, "name"),
                f"“{other}” means nearly the same as “{one}” ({rules.where(*first)}).",
                "Make them one, or name the difference.",
            )


def _sorted(worded: Sequence[tuple[tuple[str, ...], str, frozenset[str]]]) -> list[str]:
    return [" ".join(sorted(words)) for _, _, words in worded]


def nearly_same(some: frozenset[str], others: frozenset[str]) -> bool:
    """Whether two names differ in nothing but small words, endings or typing slips; numbers always differ."""
    one, other = " ".join(sorted(some - others)), " ".join(sorted(others - some))
    if any(letter.isdigit() for letter in one + other):
        return False
    return one == other or fuzz.ratio(one, other) >= NEARLY_THE_SAME


def _said_twice(rules: Rules) -> Iterator[Problem]:
    first: dict[str, str] = {}
    for symptom in rules.symptoms.values():
        for number, words in enumerate(symptom.says):
            plain = " ".join(words.casefold().split())
            where = rules.where("symptoms", symptom.id, "says", str(number))
            if plain in first:
                yield Problem(where, f"“{words}” stands already at {first[plain]}.", "Keep it where it fits best.")
            first.setdefault(plain, where)


def _codes_twice(rules: Rules) -> Iterator[Problem]:
    first: dict[str, str] = {}
    for symptom in rules.symptoms.values():
        for pattern in symptom.codes:
            where = rules.where("symptoms", symptom.id, "codes", pattern.code)
            if pattern.code in first:
                yield Problem(
                    where,
                    f"{pattern.code} stands already for another symptom ({first[pattern.code]}).",
                    "One code is one finding: keep it at one symptom.",
                )
            first.setdefault(pattern.code, where)

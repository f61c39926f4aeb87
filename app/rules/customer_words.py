"""Symptoms that fit a complaint in the customer's own words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from rapidfuzz import fuzz

from app.rules.library import Rules
from app.rules.words import SymptomId

_SMALL = """
    a an the is are was it its it's i i'm my me when while and or of in on at to with but so very really just car
    vehicle engine then there that this has have had gets get getting goes does do for from since after before
"""
SMALL_WORDS = frozenset(_SMALL.split())
"""Words that say nothing about which symptom is meant ("engine" and "car" are in nearly every complaint)."""
NEAR_ENOUGH = 50.0
"""Out of 100: below it nothing is suggested (judgement, tried on some sixty complaints)."""
SAME_WORD = 0.74
"""From here on two words count as nearly the same in spite of a slip ("weel" and "wheel" are 0.89 alike)."""
SAME_ROOT = 0.92


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A symptom, the words of the rules that fit the complaint best, and how well (0 to 100)."""

    symptom: SymptomId
    because_words: str
    score: float


def suggest(text: str, rules: Rules, limit: int = 8) -> tuple[Suggestion, ...]:
    """The symptoms that fit a customer's words best, best first; none where nothing comes near.

    Word order, extra words, endings and typing slips do not matter.
    """
    said = _words(text)
    if not said:
        return ()
    best = (_best(symptom, _phrases(symptom, rules), said) for symptom in rules.symptoms)
    near = [suggestion for suggestion in best if suggestion.score >= NEAR_ENOUGH]
    return tuple(sorted(near, key=lambda suggestion: (-suggestion.score, suggestion.symptom))[:limit])


def _phrases(symptom: SymptomId, rules: Rules) -> Iterator[str]:
    yield from rules.symptoms[symptom].says
    yield rules.symptoms[symptom].name


def _best(symptom: SymptomId, phrases: Iterable[str], said: tuple[str, ...]) -> Suggestion:
    scored = [Suggestion(symptom, phrase, _fit(_words(phrase), said)) for phrase in phrases]
    return max(scored, key=lambda suggestion: suggestion.score)


def _fit(phrase: tuple[str, ...], said: tuple[str, ...]) -> float:
    """How well a phrase fits: mostly how much of the phrase was said, a little how much of what was said it covers."""
    if not phrase:
        return 0.0
    covered = sum(_closest(word, said) for word in phrase) / len(phrase)
    explains = sum(_closest(word, phrase) for word in said) / len(said)
    return round(100.0 * (0.65 * covered + 0.35 * explains), 2)


def _closest(word: str, words: Iterable[str]) -> float:
    """1 for the same word, less for a near one, 0 for none."""
    best = max(max(fuzz.ratio(word, other), _same_root(word, other)) for other in words)
    return best / 100.0 if best >= SAME_WORD - 10.0 else 0.0


def _same_root(word: str, other: str) -> float:
    """ "shakes", "shaky" and "shaking" share the root "shak"."""
    return 92.0 if len(_root(word)) >= 3 and _root(word) == _root(other) else 0.0


@lru_cache(maxsize=20_000)
def _root(word: str) -> str:
    return re.sub(r"(?:iness|ness|ingly|ing|ily|ed|es|er|ly|y|s|e)$", "", word)


@lru_cache(maxsize=20_000)
def _words(text: str) -> tuple[str, ...]:
    """The telling words of a text, without doubles; all of its words where none is telling."""
    words = re.findall(r"[^\W_]+(?:'[^\W_]+)?", text.casefold())
    telling = tuple(dict.fromkeys(word for word in words if word not in SMALL_WORDS))
    return telling or tuple(dict.fromkeys(words))

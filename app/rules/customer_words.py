"""Symptoms that fit a complaint in the customer's own words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from rapidfuzz import fuzz
from rapidfuzz.process import cdist

from app.rules.library import Rules
from app.rules.words import SymptomId

Numbers = NDArray[np.float64]
Indices = NDArray[np.int64]

_SMALL = """
    a an the is are was it its it's i i'm my me when while and or of in on at to with but so very really just car
    vehicle engine then there that this has have had gets get getting goes does do for from since after before
"""
SMALL_WORDS = frozenset(_SMALL.split())
"""Words that say nothing about which symptom is meant ("engine" and "car" are in nearly every complaint)."""
NEAR_ENOUGH = 50.0
"""Out of 100: below it nothing is suggested (judgement, tried on some sixty complaints)."""
SAME_WORD = 0.64
"""From here on two words count as nearly the same in spite of a slip ("weel" and "wheel" are 0.89 alike)."""
SAME_ROOT = 0.92
SHORTEST_ROOT = 3
RULES_KEPT = 2


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
    phrases = _phrases(rules)
    if not said or not phrases.said:
        return ()
    best: dict[SymptomId, Suggestion] = {}
    for number, score in enumerate(_fits(said, phrases).tolist()):
        symptom, phrase = phrases.said[number]
        if score >= NEAR_ENOUGH and (symptom not in best or score > best[symptom].score):
            best[symptom] = Suggestion(symptom, phrase, score)
    return tuple(sorted(best.values(), key=lambda suggestion: (-suggestion.score, suggestion.symptom))[:limit])


@dataclass(frozen=True, slots=True)
class _Phrases:
    """Every phrase of the rules: `said` (symptom, phrase), and `words` (phrases, longest) as places in `vocabulary`.

    Shorter phrases are filled up with -1, which is a word alike to none; `lengths` (phrases,) are their own. `roots`:
    the places of the words of one root.
    """

    said: tuple[tuple[SymptomId, str], ...]
    vocabulary: tuple[str, ...]
    words: Indices
    lengths: Indices
    roots: Mapping[str, list[int]]


@lru_cache(maxsize=RULES_KEPT)
def _phrases(rules: Rules) -> _Phrases:
    said = tuple((s.id, phrase) for s in rules.symptoms.values() for phrase in (*s.says, s.name) if _words(phrase))
    split = [_words(phrase) for _, phrase in said]
    vocabulary = tuple(sorted({word for words in split for word in words}))
    place = {word: number for number, word in enumerate(vocabulary)}
    lengths = np.array([len(words) for words in split], dtype=np.int64)
    words = np.full((len(split), int(lengths.max(initial=0))), -1, dtype=np.int64)
    for number, some in enumerate(split):
        words[number, : len(some)] = [place[word] for word in some]
    roots: dict[str, list[int]] = {}
    for number, word in enumerate(vocabulary):
        roots.setdefault(_root(word), []).append(number)
    return _Phrases(said, vocabulary, words, lengths, roots)


def _fits(said: tuple[str, ...], phrases: _Phrases) -> Numbers:
    """How well each phrase fits: mostly how much of it was said, a little how much of what was said it covers."""
    alike = _alike(said, phrases)[:, phrases.words]
    covered = alike.max(axis=0).sum(axis=1) / phrases.lengths
    explains = alike.max(axis=2).mean(axis=0)
    fits: Numbers = np.round(100.0 * (0.65 * covered + 0.35 * explains), 2)
    return fits


def _alike(said: tuple[str, ...], phrases: _Phrases) -> Numbers:
    """(said, vocabulary and one word more alike to none): 1 for the same word, less for a near one, 0 for none.

    "shakes", "shaky" and "shaking" share the root "shak".
    """
    alike = np.zeros((len(said), len(phrases.vocabulary) + 1))
    alike[:, :-1] = cdist(said, phrases.vocabulary, scorer=fuzz.ratio, dtype=np.float64) / 100.0
    for number, word in enumerate(said):
        root = _root(word)
        if len(root) >= SHORTEST_ROOT:
            same = phrases.roots.get(root, [])
            alike[number, same] = np.maximum(alike[number, same], SAME_ROOT)
    alike[alike < SAME_WORD] = 0.0
    return alike


@lru_cache(maxsize=20_000)
def _root(word: str) -> str:
    return re.sub(r"(?:iness|ness|ingly|ing|ily|ed|es|er|ly|y|s|e)$", "", word)


@lru_cache(maxsize=20_000)
def _words(text: str) -> tuple[str, ...]:
    """The telling words of a text, without doubles; all of its words where none is telling."""
    words = re.findall(r"[^\W_]+(?:'[^\W_]+)?", text.casefold())
    telling = tuple(dict.fromkeys(word for word in words if word not in SMALL_WORDS))
    return telling or tuple(dict.fromkeys(words))

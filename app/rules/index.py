"""What is looked up in a rule library again and again, gone through once for each library."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from functools import lru_cache

from app.rules.library import Rules
from app.rules.tests import Test
from app.rules.words import CauseId, SymptomId

LIBRARIES_KEPT = 4


@lru_cache(maxsize=LIBRARIES_KEPT)
def causes_giving(rules: Rules) -> Mapping[SymptomId, frozenset[CauseId]]:
    """For each symptom the causes that give it."""
    found: dict[SymptomId, set[CauseId]] = defaultdict(set)
    for cause in rules.causes.values():
        for gives in cause.gives:
            found[gives.symptom].add(cause.id)
    return {symptom: frozenset(causes) for symptom, causes in found.items()}


@lru_cache(maxsize=LIBRARIES_KEPT)
def spoken_of_by(rules: Rules) -> Mapping[CauseId, tuple[Test, ...]]:
    """For each cause the tests that show it, or are blind to it in some situation."""
    found: dict[CauseId, dict[str, Test]] = defaultdict(dict)
    for test in rules.tests.values():
        for cause in (*(shows.cause for shows in test.shows), *(blind.cause for blind in test.blind_when)):
            found[cause][test.id] = test
    return {cause: tuple(tests.values()) for cause, tests in found.items()}

"""Did you mean …? The known word nearest to a mistyped one."""

from __future__ import annotations

from collections.abc import Iterable

from rapidfuzz import fuzz, process

NEAR_ENOUGH = 80.0
"""Out of 100; below it a suggestion would be a guess ("renew-starter", "renew-air-filter": 76 alike; judgement)."""
FEW = 12


def did_you_mean(word: str, known: Iterable[str], *, otherwise: str = "") -> str:
    """A mend in one sentence: the nearest known word, or all of them where there are few, or `otherwise`."""
    words = sorted(known)
    found = process.extractOne(word, words, scorer=fuzz.ratio, score_cutoff=NEAR_ENOUGH) if word else None
    if found is not None:
        return f"Did you mean “{found[0]}”?"
    if words and len(words) <= FEW:
        return f"Known: {', '.join(words)}."
    return otherwise or "Look up what is known with “proofbay rules list”."

"""How easily a text reads: the reading ease of Flesch (J. Applied Psychology 32, 1948)."""

from __future__ import annotations

import re
from collections.abc import Iterable


def reading_ease(sentences: Iterable[str]) -> float:
    """206.835 − 1.015 · words per sentence − 84.6 · syllables per word; 100 where there is nothing to read."""
    counted = [words for sentence in sentences if (words := re.findall(r"[A-Za-z]+(?:'[A-Za-z]+)?", sentence))]
    words = [word for sentence in counted for word in sentence]
    if not words:
        return 100.0
    return 206.835 - 1.015 * len(words) / len(counted) - 84.6 * sum(map(syllables, words)) / len(words)


def syllables(word: str) -> int:
    """Groups of vowels, without a silent final e (a rule of thumb; right for about nine words in ten)."""
    plain = word.casefold()
    if len(plain) > 3 and re.search(r"[^aeiouyl]e$|[^aeiouyt]es$|[^aeiouytd]ed$", plain):
        plain = re.sub(r"e[sd]?$", "", plain)
    return max(1, len(re.findall(r"[aeiouy]+", plain)))

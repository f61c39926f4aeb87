"""The one place where chances become words; lists and places of a sentence."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from app.vehicle.layout import Layout, PlaceId

_LIMITS = (0.001, 0.02, 0.1, 0.3, 0.45, 0.55, 0.75, 0.95, 0.99)
_WORDS = (
    "practically excluded",
    "very unlikely",
    "unlikely",
    "possible",
    "somewhat less likely than not",
    "about even",
    "more likely than not",
    "likely",
    "very likely",
    "practically certain",
)


def chance_word(chance: float) -> str:
    """A chance as one word or phrase: "likely"."""
    return _WORDS[bisect_right(_LIMITS, chance)]


def chance_figure(chance: float) -> str:
    """A chance as a count people can picture: "about 7 in 10", "about 1 in 40", "less than 1 in 1,000"."""
    if chance < 0.001:
        return "less than 1 in 1,000"
    if chance > 0.999:
        return "more than 999 in 1,000"
    if chance < 0.05:
        return f"about 1 in {_round(1.0 / chance):,}"
    if chance > 0.95:
        return f"all but about 1 in {_round(1.0 / (1.0 - chance)):,}"
    return f"about {max(1, min(9, round(chance * 10)))} in 10" if 0.15 <= chance <= 0.95 else "about 1 in 10"


def chance_in_words(chance: float) -> str:
    """Word and figure together: "likely (about 7 in 10)"."""
    return f"{chance_word(chance)} ({chance_figure(chance)})"


def least_word(chance: float) -> str:
    """How a lower bound is introduced: what is not listed can always be more than the rules can see."""
    return "at least" if chance >= 0.001 else "by these rules"


def least_in_words(chance: float) -> str:
    """A lower bound: "at least about 1 in 40", "by these rules less than 1 in 1,000"."""
    return f"{least_word(chance)} {chance_figure(chance)}"


def odds_in_words(factor: float) -> str:
    """How something moves the odds, from the side that is read: "odds × 12" for it, "odds ÷ 8" against it."""
    if factor == 0.0:
        return "excludes it"
    up = factor >= 1.0
    size = factor if up else 1.0 / factor
    figure = "over 1,000" if size > 1000 else f"{size:,.0f}" if size >= 10 else f"{size:.1f}"
    return f"odds {'×' if up else '÷'} {figure}"


def _round(count: float) -> int:
    """Two figures at most: a count of 137 is said as 140."""
    if count < 20:
        return round(count)
    step = 10 if count < 200 else 100
    return max(step, round(count / step) * step)


def places_in_words(places: Sequence[PlaceId], layout: Layout) -> str:
    """Several places: "cylinders 2, 4 and 6", "cylinders 1 to 6", "front left wheel and front right wheel"."""
    numbers = [int(place.removeprefix("cyl-")) for place in places if place.startswith("cyl-")]
    if len(numbers) != len(places) or len(places) < 2:
        return joined([layout.in_words(place) for place in places])
    in_order = sorted(numbers)
    if len(numbers) > 3 and in_order == list(range(in_order[0], in_order[-1] + 1)):
        return f"cylinders {in_order[0]} to {in_order[-1]}"
    return f"cylinders {joined([str(number) for number in numbers])}"


def joined(names: list[str]) -> str:
    """A list as people say it: "a, b and c"."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"


def capital(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]

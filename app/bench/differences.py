"""How far answers lie from what they should be: the largest relative difference of each kind."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf

POSTERIORS = 1e-12
RATIOS = 1e-10
BITS = 1e-12
"""The tolerances of the oracle's readme: relative, those of bits and of the logarithm absolute."""


@dataclass(slots=True)
class Worst:
    """Grows with each comparison."""

    networks: int = 0
    compared: int = 0
    chances: float = 0.0
    ratios: float = 0.0
    bits: float = 0.0
    beyond: int = 0

    def chance(self, found: float | None, right: float | None) -> None:
        self.chances = max(self.chances, self._apart(found, right, most=POSTERIORS))

    def all_chances(self, found: Iterable[float | None], right: Iterable[float | None]) -> None:
        for one, other in zip(found, right, strict=True):
            self.chance(one, other)

    def ratio(self, found: float | None, right: float | None) -> None:
        self.ratios = max(self.ratios, self._apart(found, right, most=RATIOS))

    def all_ratios(self, found: Iterable[float | None], right: Iterable[float | None]) -> None:
        for one, other in zip(found, right, strict=True):
            self.ratio(one, other)

    def bit(self, found: float, right: float) -> None:
        apart = abs(found - right)
        self.compared += 1
        self.beyond += not apart <= BITS
        self.bits = max(self.bits, apart)

    def contradiction(self, agreed: bool) -> None:
        """Both must find that the reports cannot all be true."""
        self.compared += 1
        self.beyond += not agreed
        if not agreed:
            self.chances = inf

    def _apart(self, found: float | None, right: float | None, *, most: float) -> float:
        apart = relative(found, right)
        self.compared += 1
        self.beyond += not apart <= most
        return apart


def relative(found: float | None, right: float | None) -> float:
    """|found - right| / |right|; infinite where only one of them is defined, or is not 0."""
    if found is None or right is None:
        return 0.0 if found is right else inf
    if found == right:
        return 0.0
    return abs(found - right) / abs(right) if right != 0.0 else inf

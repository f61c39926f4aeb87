"""The frontier: in which order hypotheses are taken in, and which bits are open at each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """One hypothesis taken in: the bits opened before it, closed after it, and where each open bit stands."""

    hypothesis: int
    opens: tuple[int, ...]
    closes: tuple[int, ...]
    position: dict[int, int]

    @property
    def width(self) -> int:
        """How many bits are open while this hypothesis is taken in."""
        return len(self.position)


def frontier(order: Sequence[int], bits: Mapping[int, frozenset[int]]) -> tuple[Step, ...]:
    """The steps of a part of the network taken in this order."""
    last = {bit: place for place, h in enumerate(order) for bit in bits[h]}
    steps: list[Step] = []
    open_bits: list[int] = []
    for place, h in enumerate(order):
        opens = tuple(sorted(bits[h] - set(open_bits)))
        open_bits += opens
        closes = tuple(bit for bit in open_bits if last[bit] == place)
        steps.append(Step(h, opens, closes, {bit: at for at, bit in enumerate(open_bits)}))
        open_bits = [bit for bit in open_bits if bit not in closes]
    return tuple(steps)


def greedy_order(hypotheses: Sequence[int], bits: Mapping[int, frozenset[int]]) -> list[int]:
    """Close next the finding whose remaining parents open the fewest new ones."""
    left: dict[int, set[int]] = {}
    for h in hypotheses:
        for bit in bits[h]:
            left.setdefault(bit, set()).add(h)
    order = [h for h in hypotheses if not bits[h]]
    opened: set[int] = set()
    while left:
        parents = min(left.items(), key=lambda item: _price(item[0], item[1], bits, opened))[1]
        for h in sorted(parents, key=lambda h: (len(bits[h] - opened), sorted(bits[h]), h)):
            order.append(h)
            opened |= bits[h]
            for bit in bits[h]:
                left[bit].discard(h)
        for bit in [bit for bit, parents in left.items() if not parents]:
            del left[bit]
            opened.discard(bit)
    return order


def _price(bit: int, parents: set[int], bits: Mapping[int, frozenset[int]], opened: set[int]) -> tuple[int, int, int]:
    new = set().union(*(bits[h] for h in parents)) - opened
    return len(new), len(parents), bit

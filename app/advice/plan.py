"""What can be done next and what it costs from the present state: the values that advice works on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Covers = frozenset[str]
"""Covers that are off or open."""


@dataclass(frozen=True, slots=True)
class Cover:
    """Cost to reach it, and to restore it once at the end."""

    reach: float
    restore: float


@dataclass(frozen=True, slots=True)
class Repair:
    """A repair: the faults it puts right, its own cost with the check after it, and the covers that must be off.

    `again`: it was just done in vain, and helps only after something else has been put right.
    """

    id: str
    cures: frozenset[str]
    cost: float
    covers: Covers = frozenset()
    again: bool = False


@dataclass(frozen=True, slots=True)
class Test:
    """A test, or a set of readings taken as one: its own cost, and the covers that must be off for it."""

    __test__ = False

    id: str
    cost: float
    covers: Covers = frozenset()


@dataclass(frozen=True, slots=True)
class Situation:
    """Everything that decides what to do next.

    `none_of_these`: cost of searching on by hand until whatever it is has been found (hours, or referring the vehicle);
    what is found has then to be put right.
    `open`: covers that are off now; restoring them is owed anyway and counts for nothing.
    """

    tests: tuple[Test, ...]
    repairs: tuple[Repair, ...]
    covers: Mapping[str, Cover]
    none_of_these: float
    open: Covers = frozenset()

    def access(self, needed: Covers) -> float:
        """Cost to take off what is still on; what is taken off must be put back at the end."""
        return sum(self.covers[name].reach + self.covers[name].restore for name in needed - self.open)

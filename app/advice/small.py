"""Small problems whose every state can be worked out: a table of fault combinations with their chances."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from app.advice.plan import Repair, Test

World = frozenset[str]
"""The faults that are there and make the complaint."""


@dataclass(frozen=True, slots=True)
class TableBelief:
    """Chances of every combination of faults, and for each test the chance of an abnormal outcome in each."""

    chances: Mapping[World, float]
    abnormal: Mapping[str, Mapping[World, float]]

    def cured(self, sets: Sequence[Sequence[Repair]]) -> tuple[float, ...]:
        """For each set: P(everything that makes the complaint is put right)."""
        return tuple(self._cured(frozenset().union(*(repair.cures for repair in repairs))) for repairs in sets)

    def _cured(self, cures: World) -> float:
        return sum(chance for world, chance in self.chances.items() if world <= cures)

    def outcomes(self, test: Test) -> Iterable[tuple[float, TableBelief]]:
        """Abnormal and normal, each with its chance."""
        shown = self.abnormal[test.id]
        for weights in (shown, {world: 1.0 - chance for world, chance in shown.items()}):
            joint = {world: chance * weights[world] for world, chance in self.chances.items()}
            whole = sum(joint.values())
            if whole > 0.0:
                yield whole, TableBelief({world: chance / whole for world, chance in joint.items()}, self.abnormal)

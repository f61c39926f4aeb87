"""What is believed about the faults behind a complaint: every combination of them with its chance."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
Masks = NDArray[np.int64]
MOST_FAULTS = 62


@dataclass(frozen=True, slots=True)
class Table:
    """The combinations of faults that can make the complaint, and what each test would show in each of them.

    `faults`: their names; bit i of a mask stands for fault i. `worlds` (worlds,): masks of the faults that make the
    complaint in each. `chances` (worlds,): they sum to 1. `shown`: test -> chance of each outcome, (outcomes, worlds).
    """

    faults: tuple[str, ...]
    worlds: Masks
    chances: Numbers
    shown: Mapping[str, Numbers]

    def mask(self, faults: Iterable[str]) -> int:
        """The bits of these faults; what the table does not know has none."""
        return sum(1 << number for number, fault in enumerate(self.faults) if fault in faults)

    def cured(self, faults: Iterable[str]) -> float:
        """P(the complaint is gone once these faults are put right)."""
        return float(self.chances[(self.worlds & ~self.mask(faults)) == 0].sum())

    def outcomes(self, test: str) -> tuple[tuple[float, Table], ...]:
        """Each outcome with its chance and what is believed then (the same belief where it cannot happen)."""
        joint = self.shown[test] * self.chances
        return tuple((float(row.sum()), self._given(row)) for row in joint)

    def in_vain(self, faults: Iterable[str]) -> Table | None:
        """What is believed after these faults were put right and the complaint is still there; None: it cannot be.

        What a test shows stays as it was for each combination of faults.
        """
        worlds = self.worlds & ~self.mask(faults)
        left = np.where(worlds == 0, 0.0, self.chances)
        return replace(self._given(left), worlds=worlds) if left.sum() > 0.0 else None

    def _given(self, joint: Numbers) -> Table:
        whole = joint.sum()
        return self if whole <= 0.0 else replace(self, chances=joint / whole)

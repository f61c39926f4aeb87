"""The columns a part of the network is run for: which reports are in force in each, and which finding each tests."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from app.beliefs.beliefs import Numbers
from app.beliefs.contexts import Context

Flags = NDArray[np.bool_]
Indices = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Columns:
    """`removed[f]`: columns where the report on f is out of force; `assumed[f]`: where f is assumed absent.

    `tests[t]`: columns that follow finding t as a test, with halves quiet and fired.
    """

    count: int
    removed: dict[int, Indices]
    assumed: dict[int, Indices]
    tests: dict[int, Indices]

    @property
    def halves(self) -> int:
        """2 where tests are followed (quiet so far, fired already), else 1."""
        return 2 if self.tests else 1

    def differs(self, findings: Set[int]) -> Flags:
        """(columns,): where a report on one of the findings is out of force, or one is assumed absent or tested."""
        flags = np.zeros(self.count, dtype=np.bool_)
        for table in (self.removed, self.assumed, self.tests):
            for finding in findings & table.keys():
                flags[table[finding]] = True
        return flags


def columns_for(contexts: Sequence[Context], columns: Sequence[tuple[int, int]]) -> Columns:
    """Columns given as (index of the context, finding tested or -1)."""
    removed: dict[int, list[int]] = {}
    assumed: dict[int, list[int]] = {}
    tests: dict[int, list[int]] = {}
    for place, (context, test) in enumerate(columns):
        for finding in contexts[context].removed:
            removed.setdefault(finding, []).append(place)
        for finding in contexts[context].quiet:
            assumed.setdefault(finding, []).append(place)
        if test >= 0:
            tests.setdefault(test, []).append(place)
    return Columns(len(columns), *(_arrays(table) for table in (removed, assumed, tests)))


def _arrays(table: Mapping[int, Sequence[int]]) -> dict[int, Indices]:
    return {finding: np.array(places, dtype=np.int64) for finding, places in table.items()}


def product_of_reports(
    reported: Mapping[int, float], assumed: Mapping[int, float], columns: Columns
) -> float | Numbers:
    """Product of factors, those in `reported` where the report is in force, those in `assumed` where so assumed."""
    varied = [finding for finding in reported if finding in columns.removed]
    supposed = [finding for finding in assumed if finding in columns.assumed]
    product = 1.0
    for finding, factor in reported.items():
        if factor != 0.0 or finding not in columns.removed:
            product *= factor
    if not varied and not supposed:
        return product
    spread = np.full(columns.count, product)
    for finding in varied:
        out_of_force = columns.removed[finding]
        if reported[finding] != 0.0:
            spread[out_of_force] /= reported[finding]
        else:
            kept = np.zeros(columns.count)
            kept[out_of_force] = 1.0
            spread *= kept
    for finding in supposed:
        spread[columns.assumed[finding]] *= assumed[finding]
    return spread


def where_in_force(finding: int, in_force: float, columns: Columns) -> float | Numbers:
    """The weight where the report is in force, 1 where it is not."""
    if finding not in columns.removed:
        return in_force
    spread = np.full(columns.count, in_force)
    spread[columns.removed[finding]] = 1.0
    return spread

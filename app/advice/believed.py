"""From the network of a case to the table that advice works on: which faults make the complaint, and what tests show.

Only combinations of a few faults are told apart, and of these the likely ones; all others together count as something
that no repair here puts right. That makes the expected cost an upper bound again, never too low.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from app.advice.asking import Complaint, Faults, gone
from app.advice.table import Numbers, Table

WORTH_A_WORLD = 0.002
"""Combinations less likely than this are not told apart."""
MOST_TOGETHER = 3
MANY_FAULTS = 8
"""With more faults than this, combinations of three are left together with the rest."""
OTHER = "none of these"
PROBABLY_GONE = 0.5
"""From here on the complaint has to be looked for first: tests are not asked about."""


@dataclass(frozen=True, slots=True)
class Believed:
    """`table`: given that the complaint is still there. `gone`: chance that work done since has cured it."""

    table: Table
    gone: float


def believed(complaint: Complaint, faults: Sequence[str], rows: Mapping[str, Sequence[int]]) -> Believed | None:
    """What makes the complaint, and what each row of readings would show; None: it cannot be said."""
    first = gone(complaint, tried := _sets(len(faults), len(complaint.findings)))
    if first is None:
        return None
    cured = dict(zip(tried, first[0], strict=True))
    worlds = [s for s in tried if s and _exactly(s, cured) >= WORTH_A_WORLD * (1.0 - cured[frozenset()])]
    asked = _with_parts((frozenset(), *worlds))
    worth_testing = {} if cured[frozenset()] >= PROBABLY_GONE else rows
    second = gone(complaint, asked, tuple(worth_testing.values()))
    if second is None:
        return None
    return _believed(worlds, asked, second, faults=faults, tests=tuple(worth_testing))


def _sets(faults: int, complaints: int) -> tuple[Faults, ...]:
    """Nothing, each fault, each pair; three together only where the complaint was seen at three places or more."""
    together = min(MOST_TOGETHER if faults <= MANY_FAULTS else 2, max(2, complaints))
    return tuple(frozenset(s) for size in range(together + 1) for s in combinations(range(faults), size))


def _with_parts(worlds: Iterable[Faults]) -> tuple[Faults, ...]:
    found = {part for world in worlds for part in _parts(world)}
    return tuple(sorted(found, key=lambda one: (len(one), sorted(one))))


def _exactly(world: Faults, cured: Mapping[Faults, float]) -> float:
    """P(exactly these keep the complaint up), from P(nothing outside a part of them does) (Möbius inversion)."""
    return max(0.0, sum((-1.0) ** (len(world) - len(part)) * cured[part] for part in _parts(world)))


def _parts(world: Faults) -> list[Faults]:
    return [frozenset(part) for size in range(len(world) + 1) for part in combinations(world, size)]


def _believed(
    worlds: Sequence[Faults],
    asked: Sequence[Faults],
    answers: tuple[Numbers, list[Numbers]],
    *,
    faults: Sequence[str],
    tests: Sequence[str],
) -> Believed:
    now, rows = answers
    at = {parts: number for number, parts in enumerate(asked)}
    already = float(now[at[frozenset()]])
    chances = _spread(np.append(now, 1.0), worlds, at)
    masks = np.array([*(sum(1 << fault for fault in world) for world in worlds), 1 << len(faults)], dtype=np.int64)
    shown = {}
    for test, row in zip(tests, rows, strict=True):
        joint = np.array([_spread(outcome, worlds, at) for outcome in row])
        shown[test] = joint / joint.sum(axis=0).clip(min=np.finfo(np.float64).tiny)
    table = Table((*faults, OTHER), masks, chances / chances.sum(), shown)
    return Believed(table, already)


def _spread(joint: Numbers, worlds: Sequence[Faults], at: Mapping[Faults, int]) -> Numbers:
    """(worlds + 1,): each world alone; last, whatever is left of the whole (the last number) and not gone already."""
    cured = {parts: float(joint[number]) for parts, number in at.items()}
    alone = [_exactly(world, cured) for world in worlds]
    return np.array([*alone, max(0.0, float(joint[-1]) - cured[frozenset()] - sum(alone))])

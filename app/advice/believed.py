"""From the network of a case to the table that advice works on: which faults make the complaint, and what tests show.

Only combinations of a few faults are told apart (two; three where the complaint was seen at three places or more; none
where that is too much to ask), and of these the likely ones; all others together count as something that no repair here
puts right. That makes the expected cost an upper bound again, never too low.
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
"""Of so many, the likeliest, combinations are told apart."""
OTHER = "none of these"
PROBABLY_GONE = 0.5
"""From here on the complaint has to be looked for first: tests are not asked about."""


@dataclass(frozen=True, slots=True)
class Believed:
    """`table`: given that the complaint is still there; tests that take too long to reckon with are not in it.

    `gone`: chance that work done since has cured it.
    """

    table: Table
    gone: float


def believed(complaint: Complaint, faults: Sequence[str], rows: Mapping[str, Sequence[int]]) -> Believed | None:
    """What makes the complaint, and what each row of readings would show; None: it cannot be said."""
    cured = _cured(complaint, len(faults))
    if cured is None:
        return None
    worlds = [s for s in cured if s and _exactly(s, cured) >= WORTH_A_WORLD * (1.0 - cured[frozenset()])]
    asked = _with_parts((frozenset(), *worlds))
    tests = {} if cured[frozenset()] >= PROBABLY_GONE else rows
    joined = gone(complaint, asked, tuple(tests.values()))
    if joined is not None:
        return _believed(worlds, asked, joined, faults=faults, tests=tuple(tests))
    alone = gone(complaint, asked)
    return None if alone is None else _believed(worlds, asked, alone, faults=faults, tests=())


def _cured(complaint: Complaint, faults: int) -> dict[Faults, float] | None:
    """P(the complaint is gone once a set is put right), for sets as large as can be asked about; None: for none.

    Every fault by itself; then combinations of the likeliest ones, and of those of which one can destroy the other.
    """
    single = _gone_by(complaint, _sets(range(faults), 1))
    if single is None:
        return None
    likely = sorted(range(faults), key=lambda fault: -single[frozenset((fault,))])[:MANY_FAULTS]
    together = min(MOST_TOGETHER, max(2, len(complaint.findings)))
    sets = dict.fromkeys((*_sets(likely, together), *complaint.together))
    further = tuple(one for one in sets if one not in single)
    more = _gone_by(complaint, further) if further else None
    return single | (more or {})


def _gone_by(complaint: Complaint, sets: Sequence[Faults]) -> dict[Faults, float] | None:
    found = gone(complaint, sets)
    return None if found is None else dict(zip(sets, found[0].tolist(), strict=True))


def _sets(faults: Sequence[int], together: int) -> tuple[Faults, ...]:
    """Nothing, each fault, and so many together."""
    return tuple(frozenset(s) for size in range(together + 1) for s in combinations(faults, size))


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
    answers: tuple[Numbers, list[Numbers | None]],
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
        if row is None:
            continue
        joint = np.array([_spread(outcome, worlds, at) for outcome in row])
        shown[test] = joint / joint.sum(axis=0).clip(min=np.finfo(np.float64).tiny)
    table = Table((*faults, OTHER), masks, chances / chances.sum(), shown)
    return Believed(table, already)


def _spread(joint: Numbers, worlds: Sequence[Faults], at: Mapping[Faults, int]) -> Numbers:
    """(worlds + 1,): each world alone; last, whatever is left of the whole (the last number) and not gone already."""
    cured = {parts: float(joint[number]) for parts, number in at.items()}
    alone = [_exactly(world, cured) for world in worlds]
    return np.array([*alone, max(0.0, float(joint[-1]) - cured[frozenset()] - sum(alone))])

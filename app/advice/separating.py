"""What tests can tell about which faults make the complaint, and which of the likely ones none of them tells apart."""

from __future__ import annotations

import numpy as np

from app.advice.table import Numbers, Table

WORTH_TELLING = 0.05
SAME_OUTCOMES = 0.05
"""Two faults are alike to a test if every outcome is as likely with one as with the other, within this."""


def information(table: Table, test: str) -> float:
    """Bits that the test's outcome is expected to tell about which combination of faults makes the complaint."""
    joint = table.shown[test] * table.chances
    apart = np.outer(joint.sum(axis=1), joint.sum(axis=0))
    held = joint > 0.0
    return max(0.0, float((joint[held] * np.log2(joint[held] / apart[held])).sum()))


def not_told_apart(table: Table) -> tuple[str, ...]:
    """The likely faults, the likeliest first, where each test is alike to all of them; () where one tells any apart."""
    likely = [n for n in np.argsort(-table.chances) if table.chances[n] >= WORTH_TELLING and _single(table, int(n))]
    if len(likely) < 2:
        return ()
    if not all(_alike(row, int(likely[0]), int(n)) for row in table.shown.values() for n in likely[1:]):
        return ()
    return tuple(_name(table, int(n)) for n in likely)


def _single(table: Table, world: int) -> bool:
    mask = int(table.worlds[world])
    return mask.bit_count() == 1 and mask != 1 << (len(table.faults) - 1)


def _name(table: Table, world: int) -> str:
    return table.faults[int(table.worlds[world]).bit_length() - 1]


def _alike(shown: Numbers, one: int, other: int) -> bool:
    return bool(np.abs(shown[:, one] - shown[:, other]).max() < SAME_OUTCOMES)

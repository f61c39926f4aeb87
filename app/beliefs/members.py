"""Where the pairs of a part are touched: at which steps a trigger can come on, and by which states."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from app.beliefs.columns import Flags, Indices
from app.beliefs.part import Part
from app.beliefs.triggers import Trigger


@dataclass(frozen=True, slots=True)
class Memberships:
    """Flat table, one row per (trigger, step): `states` is a bit mask over the states of the step.

    `first`, `last`: per trigger its first and last step. `lone`: one step only and nothing inside its states, so
    that the masses can be read off the states. `alike[t]`: triggers in the order of the rows, `count` rows each.
    """

    start: Indices
    count: Indices
    step: Indices
    states: Indices
    inside: Flags
    first: Indices
    last: Indices
    lone: Flags


@dataclass(frozen=True, slots=True)
class Rows:
    """The pairs touched at one step, with their state mask."""

    pair: Indices
    states: Indices


@dataclass(frozen=True, slots=True)
class StepRows:
    """At one step: pairs that are read off, pairs tracked by states alone, pairs with something inside."""

    read: Rows
    tracked: Rows
    inside: Rows


def memberships(part: Part, triggers: Sequence[Trigger]) -> Memberships:
    """Find each trigger's steps in this part; every trigger must have one."""
    place = {ready.step.hypothesis: at for at, ready in enumerate(part.steps)}
    rows: list[tuple[int, int, bool]] = []
    count = []
    for trigger in triggers:
        here = sorted((place[h], h) for h in trigger.touches if h in place)
        count.append(len(here))
        for at, h in here:
            listed = trigger.touches[h]
            mask = sum(1 << bit for bit, state in enumerate(part.steps[at].states) if state.index in listed)
            rows.append((at, mask, h in trigger.inside))
    counts = np.array(count, dtype=np.int64)
    start = np.cumsum(counts) - counts
    step = np.array([row[0] for row in rows], dtype=np.int64)
    inside = np.array([row[2] for row in rows], dtype=np.bool_)
    return Memberships(
        start,
        counts,
        step,
        np.array([row[1] for row in rows], dtype=np.int64),
        inside,
        step[start] if rows else step,
        step[start + counts - 1] if rows else step,
        (counts == 1) & ~inside[start] if rows else inside,
    )


def rows_by_step(table: Memberships, trigger_of: Indices, steps: int) -> Iterator[StepRows]:
    """For each step in turn the rows of these pairs, given the trigger of each."""
    counts = table.count[trigger_of]
    pair = np.repeat(np.arange(trigger_of.size), counts)
    offset = np.arange(pair.size) - np.repeat(np.cumsum(counts) - counts, counts)
    row = table.start[trigger_of][pair] + offset
    kind = np.where(table.inside[row], 2, np.where(table.lone[trigger_of][pair], 0, 1))
    key = table.step[row] * 3 + kind
    order = np.argsort(key, kind="stable")
    cuts = np.searchsorted(key[order], np.arange(steps * 3 + 1))
    pair, states = pair[order], table.states[row][order]
    for at in range(steps):
        parts = [slice(cuts[at * 3 + kind], cuts[at * 3 + kind + 1]) for kind in range(3)]
        yield StepRows(*(Rows(pair[part], states[part]) for part in parts))

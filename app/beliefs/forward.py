"""The forward pass with its riders: the masses of each pair, by the first member that turns its trigger on.

A pair rides as one more vector column from its first member to its last, holding only what has not turned the
trigger on. At each member the part that turns it on is met with the message from behind and done with.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.beliefs.backward import Messages, closing_positions
from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Indices
from app.beliefs.effects import fire_bit, spread, taken
from app.beliefs.members import Rows, StepRows
from app.beliefs.part import Part, ReadyStep
from app.beliefs.split import Splitter, split
from app.beliefs.vectors import close_bit, exponents, open_bit

OFF, ON = 0, 1
CALM = 8


@dataclass(frozen=True, slots=True)
class Riders:
    """The pairs of a pass: the column of each (index into the pass's columns), its event or -1, blame, last step."""

    column: Indices
    event: Indices
    blames: Numbers
    last: Indices
    complaint: frozenset[int]


@dataclass(slots=True)
class Walk:
    """A forward pass on its way. `origin`: the pass's column each vector column was made from."""

    part: Part
    messages: Messages
    columns: Indices
    riders: Riders
    vector: Numbers
    origin: Indices
    power: Indices
    slot: Indices
    masses: Numbers

    @property
    def source(self) -> Indices:
        """The part's column each vector column was made from."""
        return self.columns[self.origin]


def forward(part: Part, messages: Messages, columns: Indices, riders: Riders, rows: Sequence[StepRows]) -> Numbers:
    """(pairs, off/on, halves): joint masses given the column's evidence; with halves quiet, fired."""
    start = np.zeros((1, part.columns.halves, columns.size))
    start[:, 0] = 1.0
    count = riders.column.size
    walk = Walk(
        part,
        messages,
        columns,
        riders,
        start,
        np.arange(columns.size),
        np.zeros(columns.size, dtype=np.int64),
        np.full(count, -1, dtype=np.int64),
        np.zeros((count, 2, part.columns.halves)),
    )
    for at, (ready, here) in enumerate(zip(part.steps, rows, strict=True)):
        _take_in(walk, at, ready, here)
        _close(walk, ready, at)
    return walk.masses


def _take_in(walk: Walk, at: int, ready: ReadyStep, here: StepRows) -> None:
    for bit in ready.step.opens:
        walk.vector = open_bit(walk.vector, walk.part.leaks[bit])
    source = walk.source
    step = (ready.step.position, fire_bit)
    states = [taken(walk.vector, state.weight, state.effects, step, source) for state in ready.states]
    unit = _unit(walk, at)
    if here.read.pair.size:
        _read_off(walk, at, states, here.read, unit)
    rest = []
    for rows, split_here in ((here.tracked, _by_states), (here.inside, _by_effects)):
        if rows.pair.size:
            off, on = split_here(walk, ready, states, rows)
            rest.append((rows.pair, off))
            _record(walk, at, rows.pair, (off, on), unit)
    walk.vector = _sum(states, walk.vector)
    if rest:
        _board_and_leave(walk, at, rest)


def _unit(walk: Walk, at: int) -> Numbers:
    """(columns,): what turns a product of vector and message into a chance given the evidence."""
    whole = walk.messages.whole.sum(axis=0)
    inverse = np.divide(1.0, whole, out=np.zeros_like(whole), where=whole > 0.0)
    unit: Numbers = np.ldexp(inverse, walk.power + walk.messages.powers[at] - walk.messages.whole_power)
    return unit


def _read_off(walk: Walk, at: int, states: Sequence[Numbers], rows: Rows, unit: Numbers) -> None:
    wanted, back = np.unique(walk.riders.column[rows.pair], return_inverse=True)
    message = walk.messages.after[at][:, :, wanted]
    met = np.stack([meet(state[:, :, wanted], message) for state in states]) * unit[wanted]
    member = state_flags(rows.states, len(states))
    for side, flags in ((OFF, 1.0 - member), (ON, member)):
        walk.masses[rows.pair, side] += np.einsum("sn,stn->nt", flags, met[:, :, back])


def _by_states(walk: Walk, ready: ReadyStep, states: Sequence[Numbers], rows: Rows) -> tuple[Numbers, Numbers]:
    at = _slots(walk, rows.pair)
    member = state_flags(rows.states, len(states))
    held = [state[:, :, at] for state in states]
    off = sum((vector * (1.0 - flag) for vector, flag in zip(held, member, strict=True)), np.zeros(()))
    on = sum((vector * flag for vector, flag in zip(held, member, strict=True)), np.zeros(()))
    return off, on


def _by_effects(walk: Walk, ready: ReadyStep, states: Sequence[Numbers], rows: Rows) -> tuple[Numbers, Numbers]:
    start = walk.vector[:, :, _slots(walk, rows.pair)]
    source = walk.columns[walk.riders.column[rows.pair]]
    events, blames = walk.riders.event[rows.pair], walk.riders.blames[rows.pair]
    by = Splitter(ready.step.position, source, events, blames, walk.riders.complaint)
    off_all, on_all = np.zeros_like(start), np.zeros_like(start)
    for state, flag in zip(ready.states, state_flags(rows.states, len(ready.states)), strict=True):
        off, on = split(state.effects, start * spread(state.weight, source), np.zeros_like(start), by)
        off_all += off * (1.0 - flag)
        on_all += on + off * flag
    return off_all, on_all


def _slots(walk: Walk, pairs: Indices) -> Indices:
    slot = walk.slot[pairs]
    return np.where(slot >= 0, slot, walk.riders.column[pairs])


def _record(walk: Walk, at: int, pairs: Indices, sides: tuple[Numbers, Numbers], unit: Numbers) -> None:
    """Meet what turned on with the message from behind; at the last member also what stayed off."""
    column = walk.riders.column[pairs]
    message = walk.messages.after[at][:, :, column]
    walk.masses[pairs, ON] += (meet(sides[ON], message) * unit[column]).T
    ends = np.flatnonzero(walk.riders.last[pairs] == at)
    if ends.size:
        met = meet(sides[OFF][:, :, ends], message[:, :, ends]) * unit[column[ends]]
        walk.masses[pairs[ends], OFF] = met.T


def _board_and_leave(walk: Walk, at: int, rest: Sequence[tuple[Indices, Numbers]]) -> None:
    """Vector columns after this step: the pass's own, riders not touched here, and those touched that ride on."""
    pairs = np.concatenate([pair for pair, _ in rest])
    off = np.concatenate([vector for _, vector in rest], axis=2)
    on_board = np.flatnonzero(walk.slot >= 0)
    untouched = np.setdiff1d(on_board, pairs, assume_unique=True)
    stays = np.flatnonzero(walk.riders.last[pairs] > at)
    own = np.arange(walk.columns.size)
    walk.vector = np.concatenate(
        [walk.vector[:, :, np.concatenate([own, walk.slot[untouched]])], off[:, :, stays]], axis=2
    )
    riding = np.concatenate([untouched, pairs[stays]])
    walk.slot[on_board] = -1
    walk.slot[riding] = own.size + np.arange(riding.size)
    walk.origin = np.concatenate([own, walk.riders.column[riding]])


def _close(walk: Walk, ready: ReadyStep, at: int) -> None:
    source = walk.source
    for bit, position in closing_positions(ready):
        walk.vector = close_bit(walk.vector, position, walk.part.closing[bit], source)
    if ready.step.closes or at % CALM == 0:
        lift = exponents(walk.vector[:, :, : walk.columns.size])
        if lift.any():
            walk.vector = walk.vector * np.ldexp(1.0, -lift)[walk.origin]
            walk.power = walk.power + lift


def _sum(states: Sequence[Numbers], before: Numbers) -> Numbers:
    if not states:
        return np.zeros_like(before)
    total = states[0]
    for state in states[1:]:
        total += state
    return total


def state_flags(masks: Indices, states: int) -> Numbers:
    """(states, pairs): 1.0 where the bit of the state is set."""
    return ((masks[None, :] >> np.arange(states)[:, None]) & 1).astype(np.float64)


def meet(vector: Numbers, message: Numbers) -> Numbers:
    """(halves, columns): what is quiet and stays so, and what has fired or will."""
    quiet = np.einsum("wn,wn->n", vector[:, 0], message[:, 0])
    if vector.shape[1] == 1:
        return quiet[None]
    fired = np.einsum("wn,wn->n", vector[:, 0], message[:, 1])
    fired += np.einsum("wn,wn->n", vector[:, 1], message[:, 0] + message[:, 1])
    return np.stack([quiet, fired])

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
from app.beliefs.kernel import Kernels, applied
from app.beliefs.members import Rows, StepRows
from app.beliefs.part import Part, ReadyStep
from app.beliefs.split import concerned, split, splitter
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
    """A forward pass on its way. `origin`: the pass's column each vector column was made from.

    `inverse` (columns,): one over the whole of each column's messages, 0 where that is 0.
    """

    part: Part
    kernels: Kernels
    messages: Messages
    columns: Indices
    riders: Riders
    vector: Numbers
    origin: Indices
    power: Indices
    slot: Indices
    masses: Numbers
    inverse: Numbers

    @property
    def source(self) -> Indices:
        """The part's column each vector column was made from."""
        return self.columns[self.origin]


def forward(
    kernels: Kernels, messages: Messages, columns: Indices, riders: Riders, rows: Sequence[StepRows]
) -> Numbers:
    """(pairs, off/on, halves): joint masses given the column's evidence; with halves quiet, fired."""
    part = kernels.part
    start = np.zeros((1, part.columns.halves, columns.size))
    start[:, 0] = 1.0
    count = riders.column.size
    whole = messages.whole.sum(axis=0)
    walk = Walk(
        part,
        kernels,
        messages,
        columns,
        riders,
        start,
        np.arange(columns.size),
        np.zeros(columns.size, dtype=np.int64),
        np.full(count, -1, dtype=np.int64),
        np.zeros((count, 2, part.columns.halves)),
        np.divide(1.0, whole, out=np.zeros_like(whole), where=whole > 0.0),
    )
    for at, (ready, here) in enumerate(zip(part.steps[: riders.last.max() + 1], rows, strict=False)):
        _take_in(walk, at, ready, here)
        _close(walk, ready, at)
    return walk.masses


def _take_in(walk: Walk, at: int, ready: ReadyStep, here: StepRows) -> None:
    for bit in ready.step.opens:
        walk.vector = open_bit(walk.vector, walk.part.leaks[bit])
    kernel = walk.kernels.at(at, walk.vector.size)
    apart = _apart(walk, ready, here, kernel is None)
    close = Near(walk, ready, apart)
    unit = _unit(walk, at)
    if here.read.pair.size:
        _read_off(walk, at, close, here.read, unit)
    rest = []
    for rows, split_here in ((here.tracked, _by_states), (here.inside, _by_effects)):
        if rows.pair.size:
            off, on = split_here(walk, close, rows)
            rest.append((rows.pair, off))
            _record(walk, at, rows.pair, (off, on), unit)
    if kernel is None:
        walk.vector = close.together()
    else:
        walk.vector = applied(kernel, walk.vector, ready.own_bits, ready.step.position)
        walk.vector[:, :, apart] = close.together()
    if rest:
        _board_and_leave(walk, at, rest)


def _apart(walk: Walk, ready: ReadyStep, here: StepRows, everything: bool) -> Indices:
    """The vector columns that are worked through state by state: those that differ, and those something is asked of."""
    if everything:
        return np.arange(walk.origin.size)
    flags = ready.differs[walk.source]
    flags[walk.riders.column[here.read.pair]] = True
    flags[_slots(walk, here.tracked.pair)] = True
    flags[_slots(walk, here.inside.pair)] = True
    return np.flatnonzero(flags)


class Near:
    """Some vector columns before a step, and after it state by state."""

    def __init__(self, walk: Walk, ready: ReadyStep, columns: Indices) -> None:
        self.ready, self.columns = ready, columns
        everything = columns.size == walk.origin.size
        self.before = walk.vector if everything else walk.vector[:, :, columns]
        step = (ready.step.position, fire_bit)
        source = walk.source[columns]
        self.states = [taken(self.before, state.weight, state.effects, step, source) for state in ready.states]

    def place(self, columns: Indices) -> Indices:
        """Where these vector columns stand among the ones here."""
        return np.searchsorted(self.columns, columns)

    def together(self) -> Numbers:
        """All states summed. The first state's vector is used up."""
        if not self.states:
            return np.zeros_like(self.before)
        total = self.states[0]
        for state in self.states[1:]:
            total += state
        return total


def _unit(walk: Walk, at: int) -> Numbers:
    """(columns,): what turns a product of vector and message into a chance given the evidence."""
    unit: Numbers = np.ldexp(walk.inverse, walk.power + walk.messages.powers[at] - walk.messages.whole_power)
    return unit


def _read_off(walk: Walk, at: int, near: Near, rows: Rows, unit: Numbers) -> None:
    column = walk.riders.column[rows.pair]
    asked = np.zeros(walk.columns.size, dtype=np.bool_)
    asked[column] = True
    wanted, back = np.flatnonzero(asked), (np.cumsum(asked) - 1)[column]
    message = walk.messages.after[at][:, :, wanted]
    place = near.place(wanted)
    met = np.stack([meet(state[:, :, place], message) for state in near.states]) * unit[wanted]
    member = state_flags(rows.states, len(near.states))
    for side, flags in ((OFF, 1.0 - member), (ON, member)):
        walk.masses[rows.pair, side] += np.einsum("sn,stn->nt", flags, met[:, :, back])


def _by_states(walk: Walk, near: Near, rows: Rows) -> tuple[Numbers, Numbers]:
    at = near.place(_slots(walk, rows.pair))
    member = state_flags(rows.states, len(near.states))
    held = [state[:, :, at] for state in near.states]
    off = sum((vector * (1.0 - flag) for vector, flag in zip(held, member, strict=True)), np.zeros(()))
    on = sum((vector * flag for vector, flag in zip(held, member, strict=True)), np.zeros(()))
    return off, on


def _by_effects(walk: Walk, near: Near, rows: Rows) -> tuple[Numbers, Numbers]:
    ready = near.ready
    at = near.place(_slots(walk, rows.pair))
    start = near.before[:, :, at]
    source = walk.columns[walk.riders.column[rows.pair]]
    events, blames = walk.riders.event[rows.pair], walk.riders.blames[rows.pair]
    by = splitter(ready.step.position, source, events, blames, walk.riders.complaint)
    off_all, on_all = np.zeros_like(start), np.zeros_like(start)
    for number, flag in enumerate(state_flags(rows.states, len(ready.states))):
        state = ready.states[number]
        if concerned(state.effects, by):
            off, on = split(state.effects, start * spread(state.weight, source), by)
        else:
            off, on = near.states[number][:, :, at], None
        if on is not None:
            on_all += on
        if flag.any():
            on_all += off * flag
            off *= 1.0 - flag
        off_all += off
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
    aboard = walk.slot >= 0
    on_board = np.flatnonzero(aboard)
    aboard[pairs] = False
    untouched = np.flatnonzero(aboard)
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


def state_flags(masks: Indices, states: int) -> Numbers:
    """(states, pairs): 1.0 where the bit of the state is set."""
    flags: Numbers = ((masks[None, :] >> np.arange(states)[:, None]) & 1).astype(np.float64)
    return flags


def meet(vector: Numbers, message: Numbers) -> Numbers:
    """(halves, columns): what is quiet and stays so, and what has fired or will."""
    met = np.zeros(vector.shape[1:])
    met[0] = np.einsum("wn,wn->n", vector[:, 0], message[:, 0])
    if len(met) == 2:
        met[1] = np.einsum("wn,wn->n", vector[:, 0], message[:, 1])
        met[1] += np.einsum("wn,wn->n", vector[:, 1], message[:, 0] + message[:, 1])
    return met

"""What a state or a switch does to the vector over explained findings, for all columns at once.

The vector has axes (2^open bits, halves, columns); a bit says that its finding is explained. The second half, where
there is one, holds what has already fired on the column's test. Every operation is a sum of products of
non-negative numbers, and they commute.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Columns, Indices, product_of_reports
from app.beliefs.live import LiveEffects, LiveGroup

MOST_TOGETHER = 4
UNTHREADED = 1 << 18
"""Bits that one product takes together, and how large a product may be."""


@dataclass(frozen=True, slots=True)
class Probe:
    """Leaves on the tests: per column the chance that they fire on its test, and that they do not."""

    fires: Numbers
    quiet: Numbers


@dataclass(frozen=True, slots=True)
class Effects:
    """`factor`: what absent findings leave of it; `bits`: (finding, fires, quiet) on findings to be explained."""

    factor: float | Numbers
    probe: Probe | None
    bits: tuple[tuple[int, float, float], ...]
    switches: tuple[Switch, ...]


@dataclass(frozen=True, slots=True)
class Switch:
    """Everything inside is live with chance `acts`.

    `events`: all that it and the switches inside turn on; `reaches`: all bits inside.
    """

    acts: float
    inside: Effects
    turns_on: frozenset[int]
    events: frozenset[int]
    reaches: frozenset[int]

    @property
    def fixed(self) -> bool:
        """Whether there are bits inside and nothing else."""
        return bool(self.inside.bits) and not self.inside.switches and self.inside.probe is None


def compile_effects(live: LiveEffects, columns: Columns, absorbed: Absorbed) -> Effects:
    """The effects as seen by these columns; a switch over nothing but absent findings is a factor."""
    bits = tuple((f, fires, live.quiet[f]) for f, fires in live.fires.items() if f in absorbed.bits)
    absent = {f: quiet for f, quiet in live.quiet.items() if f in absorbed.absent}
    factor = product_of_reports(absent, live.quiet, columns)
    switches = []
    for group in live.groups:
        inside = compile_effects(group.inside, columns, absorbed)
        if inside.probe is None and not inside.bits and not inside.switches and not group.turns_on:
            factor = factor * ((1.0 - group.acts) + group.acts * inside.factor)
        else:
            switches.append(_switch(group, inside))
    return Effects(factor, _probe(live, columns), bits, tuple(switches))


def _switch(group: LiveGroup, inside: Effects) -> Switch:
    events = group.turns_on.union(*(switch.events for switch in inside.switches))
    bits = frozenset(finding for finding, _, _ in inside.bits)
    reaches = bits.union(*(switch.reaches for switch in inside.switches))
    return Switch(group.acts, inside, group.turns_on, events, reaches)


def _probe(live: LiveEffects, columns: Columns) -> Probe | None:
    tested = [finding for finding in live.fires if finding in columns.tests]
    if not tested:
        return None
    probe = Probe(np.zeros(columns.count), np.ones(columns.count))
    for finding in tested:
        probe.fires[columns.tests[finding]] = live.fires[finding]
        probe.quiet[columns.tests[finding]] = live.quiet[finding]
    return probe


Leaves = tuple[tuple[float, float], ...]
"""(fires, quiet) of leaves on adjacent bits, the lowest bit first."""
STAYS = (0.0, 1.0)
BitStep = Callable[[Leaves], Numbers]


@lru_cache(maxsize=4096)
def fire_bit(leaves: Leaves) -> Numbers:
    """The matrix of v[b=1] += fires·v[b=0]; v[b=0] *= quiet on each of the bits."""
    matrix: Numbers = np.ones((1, 1))
    for fires, quiet in leaves:
        matrix = np.kron(np.array([[quiet, 0.0], [fires, 1.0]]), matrix)
    return matrix


@lru_cache(maxsize=4096)
def pull_bit(leaves: Leaves) -> Numbers:
    """The adjoint of `fire_bit`."""
    return np.ascontiguousarray(fire_bit(leaves).T)


Step = tuple[Mapping[int, int], BitStep]
"""Where the bit of each finding stands, and which way."""


def explained(vector: Numbers, bits: Sequence[tuple[int, float, float]], step: Step) -> Numbers:
    """All leaves on their bits, those that stand close in one product. The vector stays as it was."""
    for start, leaves in _windows(bits, step[0]):
        vector = multiplied(step[1](leaves), vector, start)
    return vector


def _windows(bits: Sequence[tuple[int, float, float]], position: Mapping[int, int]) -> list[tuple[int, Leaves]]:
    """The leaves in windows of neighbouring bits, each with its lowest position; a bit between them stays."""
    windows: list[tuple[int, list[tuple[float, float]]]] = []
    for place, fires, quiet in sorted((position[finding], fires, quiet) for finding, fires, quiet in bits):
        if not windows or place >= windows[-1][0] + MOST_TOGETHER:
            windows.append((place, []))
        start, leaves = windows[-1]
        leaves += [STAYS] * (place - start - len(leaves))
        leaves.append((fires, quiet))
    return [(start, tuple(leaves)) for start, leaves in windows]


def thrown(vector: Numbers, switch: Switch, step: Step, source: Indices) -> Numbers:
    """With the switch thrown or not. The vector is used up."""
    factor = switch.inside.factor
    if switch.fixed and not isinstance(factor, np.ndarray):
        windows = _windows(switch.inside.bits, step[0])
        if len(windows) == 1:
            start, leaves = windows[0]
            return multiplied(_mixture(step[1], leaves, switch.acts, factor), vector, start)
    live = taken(vector, switch.acts * factor, switch.inside, step, source)
    vector *= 1.0 - switch.acts
    vector += live
    return vector


@lru_cache(maxsize=4096)
def _mixture(bit_step: BitStep, leaves: Leaves, acts: float, factor: float) -> Numbers:
    matrix = bit_step(leaves)
    mixture: Numbers = (1.0 - acts) * np.eye(matrix.shape[0]) + acts * factor * matrix
    return mixture


def multiplied(matrix: Numbers, vector: Numbers, position: int) -> Numbers:
    """The matrix on the bits from `position` up, in products so small that the library starts no threads."""
    size = matrix.shape[0]
    if not vector.size:
        return vector
    wide = vector.reshape(-1, size, vector.size * 2**position // vector.shape[0])
    width = UNTHREADED // (size * size)
    product: Numbers
    if wide.shape[2] <= width:
        product = np.matmul(matrix, wide)
        return product.reshape(vector.shape)
    product = np.empty(wide.shape)
    for at in range(0, wide.shape[2], width):
        np.matmul(matrix, wide[:, :, at : at + width], out=product[:, :, at : at + width])
    return product.reshape(vector.shape)


def taken(vector: Numbers, weight: float | Numbers, effects: Effects, step: Step, source: Indices) -> Numbers:
    """A new vector: weighed, bits explained, switches thrown, the test probed."""
    after = vector * spread(weight, source)
    if source.size == 0:
        return after
    after = explained(after, effects.bits, step)
    for switch in effects.switches:
        after = thrown(after, switch, step, source)
    if effects.probe is not None:
        fire_probe(after, effects.probe, source)
    return after


def spread(weight: float | Numbers, source: Indices) -> float | Numbers:
    """The weight of each vector column, given the column each was made from."""
    return weight[source] if isinstance(weight, np.ndarray) else weight


def fire_probe(vector: Numbers, probe: Probe, source: Indices) -> None:
    """What was quiet so far fires with the chance of its column. The same line serves forward and backward."""
    fires = probe.fires[source]
    linked = np.flatnonzero(fires)
    if linked.size == 0:
        return
    if linked.size == source.size:
        vector[:, 1] += fires * vector[:, 0]
        vector[:, 0] *= probe.quiet[source]
        return
    so_far = vector[:, 0, linked]
    vector[:, 1, linked] += fires[linked] * so_far
    vector[:, 0, linked] = probe.quiet[source[linked]] * so_far

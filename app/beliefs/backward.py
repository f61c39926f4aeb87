"""The adjoint pass: what is still to come, seen from each step."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Indices
from app.beliefs.effects import pull_bit, taken
from app.beliefs.kernel import Kernels, applied
from app.beliefs.part import ReadyStep
from app.beliefs.vectors import exponents, scaled, unclose_bit, unopen_bit


@dataclass(frozen=True, slots=True)
class Messages:
    """`after[i]` (2^w, halves, columns): value of each vector entry just after step i's hypothesis, bits still open.

    Halves are (the test stays absent, the test becomes present from a quiet start); a test already fired is worth
    their sum. True values are `after[i]` · 2^`powers[i]`; the whole, (halves, columns), is `whole` · 2^`whole_power`.
    """

    after: tuple[Numbers, ...]
    powers: tuple[Indices, ...]
    whole: Numbers
    whole_power: Indices


def backward(kernels: Kernels, source: Indices) -> Messages:
    """All messages for the columns in `source`."""
    part = kernels.part
    message = np.zeros((1, part.columns.halves, source.size))
    message[:, 0] = 1.0
    power = np.zeros(source.size, dtype=np.int64)
    after: list[Numbers] = []
    powers: list[Indices] = []
    for at in reversed(range(len(part.steps))):
        ready = part.steps[at]
        for bit, position in reversed(closing_positions(ready)):
            message = unclose_bit(message, position, part.closing[bit], source)
        after.append(message)
        powers.append(power)
        message = _before(ready, kernels.at(at, message.size), message, source)
        for bit in reversed(ready.step.opens):
            message = unopen_bit(message, part.leaks[bit])
        lift = exponents(message)
        if lift.any():
            message, power = scaled(message, -lift), power + lift
    return Messages(tuple(reversed(after)), tuple(reversed(powers)), message[0], power)


def closing_positions(ready: ReadyStep) -> list[tuple[int, int]]:
    """The bits closed after this step in order, each with its position once those before it are gone."""
    found: list[tuple[int, int]] = []
    for bit in ready.step.closes:
        at = ready.step.position[bit]
        found.append((bit, at - sum(ready.step.position[gone] < at for gone, _ in found)))
    return found


def _before(ready: ReadyStep, kernel: Numbers | None, message: Numbers, source: Indices) -> Numbers:
    if kernel is None:
        return _pulled(ready, message, source)
    total = applied(kernel, message, ready.own_bits, ready.step.position, adjoint=True)
    differ = np.flatnonzero(ready.differs[source])
    if differ.size:
        total[:, :, differ] = _pulled(ready, message[:, :, differ], source[differ])
    return total


def _pulled(ready: ReadyStep, message: Numbers, source: Indices) -> Numbers:
    step = (ready.step.position, pull_bit)
    total = np.zeros_like(message)
    for state in ready.states:
        total += taken(message, state.weight, state.effects, step, source)
    return total

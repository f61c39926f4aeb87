"""A part of the network made ready for its columns: steps, normalised state weights, and how each bit closes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.beliefs.absorb import Absorbed, Shared
from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Columns, Flags, Indices, product_of_reports, where_in_force
from app.beliefs.effects import Effects, compile_effects
from app.beliefs.live import LiveHypothesis, LiveState
from app.beliefs.order import Step

BLOCK = 512
AS_REPORTED = Columns(1, {}, {}, {})


@dataclass(frozen=True, slots=True)
class ReadyState:
    """A state with its weight, reports absorbed and normalised, and what else it does."""

    index: int
    weight: float | Numbers
    effects: Effects


@dataclass(frozen=True, slots=True)
class ReadyStep:
    """One step with its states.

    `own_bits`: the bits its hypothesis can fire on, by position. `differs` (columns,): where a report or test of its
    own is not as everywhere; `alike`: a column where none differs, or -1.
    """

    step: Step
    states: tuple[ReadyState, ...]
    own_bits: tuple[int, ...]
    differs: Flags
    alike: int


@dataclass(frozen=True, slots=True)
class Part:
    """`closing[f]`: likelihood weights (absent, present) of the report on a bit, per column where they vary.

    `norm` · 2^`norm_power` (columns,): what was taken out when the state weights were normalised.
    """

    steps: tuple[ReadyStep, ...]
    columns: Columns
    leaks: tuple[float, ...]
    closing: dict[int, tuple[float | Numbers, float | Numbers]]
    norm: Numbers
    norm_power: Indices
    shared: Shared


def ready(steps: Sequence[Step], columns: Columns, absorbed: Absorbed) -> Part:
    """Absorb what can be absorbed, for each column."""
    locals_of: dict[int, list[int]] = {}
    for finding, owner in absorbed.local.items():
        locals_of.setdefault(owner, []).append(finding)
    totals: list[float | Numbers] = []
    ready_steps = []
    for step in steps:
        hypothesis = absorbed.hypotheses[step.hypothesis]
        alone = locals_of.get(step.hypothesis, [])
        differs = columns.differs(hypothesis.findings.union(alone))
        if differs.any():
            states, total = _ready_states(hypothesis, alone, columns, absorbed)
        else:
            states, total = _as_reported(step.hypothesis, alone, absorbed)
        totals.append(total)
        alike = int(np.argmin(differs)) if not differs.all() else -1
        own_bits = tuple(bit for bit in step.position if bit in hypothesis.findings)
        ready_steps.append(ReadyStep(step, states, own_bits, differs, alike))
    closing = {bit: _closing(bit, columns, absorbed) for step in steps for bit in step.closes}
    norm, power = _product(totals, columns.count)
    return Part(tuple(ready_steps), columns, absorbed.leaks, closing, norm, power, absorbed.shared)


def _as_reported(number: int, alone: Sequence[int], absorbed: Absorbed) -> tuple[tuple[ReadyState, ...], float]:
    """What `_ready_states` finds where no column differs: worked out once for all passes."""
    known = absorbed.shared.states.get(number)
    if known is None:
        states, total = _ready_states(absorbed.hypotheses[number], alone, AS_REPORTED, absorbed)
        assert isinstance(total, float)
        known = absorbed.shared.states[number] = states, total
    return known


def _ready_states(
    hypothesis: LiveHypothesis, alone: Sequence[int], columns: Columns, absorbed: Absorbed
) -> tuple[tuple[ReadyState, ...], float | Numbers]:
    """The states with weights that sum to 1 in each column, and what they summed to before."""
    effects = [compile_effects(state.effects, columns, absorbed) for state in hypothesis.states]
    weights = [
        state.weight * effect.factor * product_of_reports(_alone(state, alone, absorbed), {}, columns)
        for state, effect in zip(hypothesis.states, effects, strict=True)
    ]
    total: float | Numbers = sum(weights, 0.0)
    safe = np.where(total > 0.0, total, 1.0) if isinstance(total, np.ndarray) else total or 1.0
    states = zip(hypothesis.states, weights, effects, strict=True)
    return tuple(ReadyState(state.index, weight / safe, effect) for state, weight, effect in states), total


def _alone(state: LiveState, findings: Sequence[int], absorbed: Absorbed) -> dict[int, float]:
    """How likely this state makes the reports that only its own hypothesis can explain."""
    found = {}
    for finding in findings:
        if_absent, if_present = absorbed.weigh[finding]
        leak = absorbed.leaks[finding]
        absent = (1.0 - leak) * state.effects.quiet.get(finding, 1.0)
        present = leak + (1.0 - leak) * state.effects.fires.get(finding, 0.0)
        found[finding] = if_absent * absent + if_present * present
    return found


def _product(totals: Sequence[float | Numbers], count: int) -> tuple[Numbers, Indices]:
    """The product of all totals per column, as mantissa and power of two."""
    fixed = np.array([total for total in totals if not isinstance(total, np.ndarray)])
    norm, power = np.ones(count), np.zeros(count, dtype=np.int64)
    factors = [fixed[start : start + BLOCK, None] for start in range(0, fixed.size, BLOCK)]
    factors += [total[None, :] for total in totals if isinstance(total, np.ndarray)]
    for factor in factors:
        mantissa, lift = np.frexp(factor)
        norm, more = np.frexp(norm * mantissa.prod(axis=0))
        power += lift.sum(axis=0) + more
    return norm, power


def _closing(bit: int, columns: Columns, absorbed: Absorbed) -> tuple[float | Numbers, float | Numbers]:
    if_absent, if_present = absorbed.weigh[bit]
    return where_in_force(bit, if_absent, columns), where_in_force(bit, if_present, columns)

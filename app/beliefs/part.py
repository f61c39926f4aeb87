"""A part of the network made ready for its columns: steps, normalised state weights, and how each bit closes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Columns, Flags, Indices, product_of_reports, where_in_force
from app.beliefs.effects import Effects, compile_effects
from app.beliefs.live import LiveHypothesis
from app.beliefs.order import Step

BLOCK = 512


@dataclass(frozen=True, slots=True)
class ReadyState:
    """A state with its weight, reports absorbed and normalised, and what else it does."""

    index: int
    weight: float | Numbers
    effects: Effects


@dataclass(frozen=True, slots=True)
class ReadyStep:
    """One step with its states.

    `own_bits`: the bits its hypothesis can fire on, by position. `differs` (columns,): where a report or test of its own
    is not as everywhere; `alike`: a column where none differs, or -1.
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


def ready(steps: Sequence[Step], columns: Columns, absorbed: Absorbed) -> Part:
    """Absorb what can be absorbed, for each column."""
    locals_of: dict[int, list[int]] = {}
    for finding, hypothesis in absorbed.local.items():
        locals_of.setdefault(hypothesis, []).append(finding)
    totals: list[float | Numbers] = []
    ready_steps = []
    for step in steps:
        raw = [
            _weighed_state(state.index, absorbed.hypotheses[step.hypothesis], locals_of, step, columns, absorbed)
            for state in absorbed.hypotheses[step.hypothesis].states
        ]
        states, total = _normalised(raw)
        totals.append(total)
        findings = {*absorbed.hypotheses[step.hypothesis].findings, *locals_of.get(step.hypothesis, ())}
        differs = columns.differs(findings)
        alike = int(np.argmin(differs)) if not differs.all() else -1
        own_bits = tuple(bit for bit in step.position if bit in findings)
        ready_steps.append(ReadyStep(step, states, own_bits, differs, alike))
    closing = {bit: _closing(bit, columns, absorbed) for step in steps for bit in step.closes}
    return Part(tuple(ready_steps), columns, absorbed.leaks, closing, *_product(totals, columns.count))


def _weighed_state(
    index: int,
    hypothesis: LiveHypothesis,
    locals_of: dict[int, list[int]],
    step: Step,
    columns: Columns,
    absorbed: Absorbed,
) -> ReadyState:
    state = next(state for state in hypothesis.states if state.index == index)
    effects = compile_effects(state.effects, columns, absorbed)
    alone: dict[int, float] = {}
    for finding in locals_of.get(step.hypothesis, ()):
        if_absent, if_present = absorbed.weigh[finding]
        leak = absorbed.leaks[finding]
        absent = (1.0 - leak) * state.effects.quiet.get(finding, 1.0)
        present = leak + (1.0 - leak) * state.effects.fires.get(finding, 0.0)
        alone[finding] = if_absent * absent + if_present * present
    weight = state.weight * effects.factor * product_of_reports(alone, {}, columns)
    return ReadyState(index, weight, replace(effects, factor=1.0))


def _normalised(states: Sequence[ReadyState]) -> tuple[tuple[ReadyState, ...], float | Numbers]:
    total: float | Numbers = sum((state.weight for state in states), 0.0)
    safe = np.where(total > 0.0, total, 1.0) if isinstance(total, np.ndarray) else total or 1.0
    return tuple(replace(state, weight=state.weight / safe) for state in states), total


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

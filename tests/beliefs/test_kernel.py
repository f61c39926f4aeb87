"""The matrix of a hypothesis does what its effects do one after another."""

from __future__ import annotations

import numpy as np
import pytest

from app.beliefs.absorb import absorb
from app.beliefs.columns import columns_for
from app.beliefs.components import bits_of
from app.beliefs.contexts import Context
from app.beliefs.effects import fire_bit, pull_bit, taken
from app.beliefs.kernel import applied, matrix
from app.beliefs.order import frontier
from app.beliefs.part import ready
from tests.beliefs.drawing import grouped

NOBODY: frozenset[int] = frozenset()


@pytest.mark.parametrize("seed", range(20))
def test_a_matrix_does_what_the_effects_do(seed):
    absorbed = absorb(grouped(seed)[0], NOBODY, frozenset((0, 1)))
    everybody = range(len(absorbed.hypotheses))
    if not all(hypothesis.states for hypothesis in absorbed.hypotheses):
        return
    part = ready(frontier(everybody, bits_of(absorbed, everybody)), columns_for([Context()], [(0, -1)]), absorbed)
    dice = np.random.default_rng(seed)
    source = np.zeros(5, dtype=np.int64)
    for step in part.steps:
        position = step.step.position
        vector = dice.random((1 << len(position), 1, 5))
        expected = sum(taken(vector, s.weight, s.effects, (position, fire_bit), source) for s in step.states)
        kernel = matrix(step, 0)
        np.testing.assert_allclose(applied(kernel, vector, step.own_bits, position), expected, rtol=1e-13)
        pulled = sum(taken(vector, s.weight, s.effects, (position, pull_bit), source) for s in step.states)
        back = applied(kernel, vector, step.own_bits, position, adjoint=True)
        np.testing.assert_allclose(back, pulled, rtol=1e-13)

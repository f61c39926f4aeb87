"""The tree over hypotheses: every leaf below the root, every bit closed once, above all that can explain it."""

from __future__ import annotations

import numpy as np
import pytest

from app.beliefs.climb import route
from app.beliefs.tree import Close, grow


def drawn(seed: int) -> dict[int, frozenset[int]]:
    dice = np.random.default_rng(seed)
    return {h: frozenset(np.flatnonzero(dice.random(9) < 0.4).tolist()) for h in range(25)}


def leaves_below(tree) -> dict[int, set[int]]:
    below = {node: {hypothesis} for node, hypothesis in enumerate(tree.hypotheses)}
    for node in range(len(tree.hypotheses), tree.nodes):
        below[node] = set()
    for node in range(tree.nodes - 1):
        _, above = tree.above[node]
        assert above > node
        below[above] |= below[node]
    return below


@pytest.mark.parametrize("seed", range(10))
def test_every_hypothesis_is_below_the_root_and_every_bit_is_closed_once(seed):
    bits = drawn(seed)
    tree = grow(bits)
    assert leaves_below(tree)[tree.nodes - 1] == set(bits)
    closed = [bit for layer in tree.layers if isinstance(layer, Close) for bit, _ in layer.bits]
    assert sorted(closed) == sorted(set().union(*bits.values()))


@pytest.mark.parametrize("seed", range(10))
def test_a_bit_is_closed_above_all_that_can_explain_it(seed):
    bits = drawn(seed)
    tree = grow(bits)
    below = leaves_below(tree)
    for layer in tree.layers:
        if isinstance(layer, Close):
            for bit, _ in layer.bits:
                assert {h for h, own in bits.items() if bit in own} <= below[layer.node]


@pytest.mark.parametrize("leaping", [False, True])
def test_members_meet_at_the_lowest_node_above_them_all(leaping):
    tree = grow(drawn(3))
    below = leaves_below(tree)
    for members in ((0, 24), (3, 4, 5), (7,), (1, 9, 12, 20)):
        leaves = [tree.hypotheses.index(h) for h in members]
        meets = route(leaves, tree, leaping=leaping).meets
        above_all = [node for node, inside in below.items() if set(members) <= inside]
        assert meets == min(above_all)


def test_what_is_asked_about_together_is_put_together_first():
    wide = frozenset(range(6))
    tree = grow(dict.fromkeys(range(16), wide), [frozenset((0, 15)), frozenset((0, 7, 15))])
    leaves = [tree.hypotheses.index(h) for h in (0, 15)]
    assert leaves_below(tree)[route(leaves, tree).meets] == {0, 15}

"""Putting two explanations together, and seeing it back from each, against going through every pair of subsets."""

from __future__ import annotations

import numpy as np
import pytest

from app.beliefs.union import joint, seen_from_left, seen_from_right, united

SCOPES = [
    ((), ()),
    ((3,), ()),
    ((1, 2), (1, 2)),
    ((1, 2), (4, 7)),
    ((2, 5, 9), (1, 5)),
    ((7, 1, 4), (4, 8, 1, 2)),
    ((0, 1, 2, 3, 4, 5), (0, 1, 2, 3, 4, 5)),
    ((5, 4, 3, 2, 1, 0, 9), (0, 1, 2, 3, 4, 5, 6)),
]


def explained(row: int, scope: tuple[int, ...]) -> frozenset[int]:
    return frozenset(bit for at, bit in enumerate(scope) if row >> at & 1)


def rows(scope: tuple[int, ...]) -> dict[frozenset[int], int]:
    return {explained(row, scope): row for row in range(1 << len(scope))}


def drawn(scope: tuple[int, ...], items: int, seed: int):
    return np.random.default_rng(seed).random((1 << len(scope), items))


@pytest.mark.parametrize(("left", "right"), SCOPES)
def test_a_union_is_the_sum_over_all_pairs_of_subsets(left, right):
    pattern = joint(left, right)
    one, other = drawn(left, 3, 1), drawn(right, 3, 2)
    expected = np.zeros((1 << len(pattern.scope), 3))
    place = rows(pattern.scope)
    for mine, at in rows(left).items():
        for theirs, where in rows(right).items():
            expected[place[mine | theirs]] += one[at] * other[where]
    np.testing.assert_allclose(united(pattern, one, other), expected, rtol=1e-13)


@pytest.mark.parametrize(("left", "right"), SCOPES)
def test_a_worth_seen_back_from_one_side_gives_the_same_whole(left, right):
    pattern = joint(left, right)
    one, other, worth = drawn(left, 2, 1), drawn(right, 2, 2), drawn(pattern.scope, 2, 3)
    whole = (united(pattern, one, other) * worth).sum(axis=0)
    np.testing.assert_allclose((seen_from_left(pattern, other, worth) * one).sum(axis=0), whole, rtol=1e-13)
    np.testing.assert_allclose((seen_from_right(pattern, one, worth) * other).sum(axis=0), whole, rtol=1e-13)


def test_many_items_are_put_together_in_pieces_without_a_seam():
    scope = (0, 1, 2, 3, 4)
    pattern = joint(scope, scope)
    one, other = drawn(scope, 5000, 1), drawn(scope, 5000, 2)
    for item in (0, 201, 202, 4999):
        alone = united(pattern, one[:, [item]], other[:, [item]])
        np.testing.assert_allclose(united(pattern, one, other)[:, [item]], alone, rtol=1e-14)

"""Hypotheses are kept over what they can explain or more, and only where that is cheap."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.beliefs.shared_scopes import A_PART, widened

scopes = st.frozensets(st.integers(0, 13), max_size=8)


def mapped(found):
    return dict(enumerate(found))


@given(st.lists(scopes, min_size=1, max_size=40))
def test_nobody_loses_a_bit_and_no_bits_are_tied_that_were_not(found):
    bits = mapped(found)
    kept = widened(bits)
    assert kept.keys() == bits.keys()
    assert all(bits[h] <= kept[h] for h in bits)
    every = frozenset().union(*found)
    assert len(bits) * 3 ** len(every) <= A_PART or set(kept.values()) <= set(found)


def test_a_few_bits_are_shared_by_all():
    assert set(widened(mapped([frozenset({1}), frozenset({2, 3}), frozenset()])).values()) == {frozenset({1, 2, 3})}


def test_a_small_set_moves_into_the_next_larger_one_that_others_have():
    wide = frozenset(range(12))
    bits = mapped([frozenset({0}), frozenset({0, 1}), *[wide] * 3])
    assert widened(bits) == mapped([frozenset({0, 1}), frozenset({0, 1}), *[wide] * 3])

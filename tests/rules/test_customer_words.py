"""Symptoms from the customer's own words."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.rules.customer_words import suggest
from app.rules.read import read_rules
from tests.rules.texts import shipped, texts

SMALL = read_rules(texts())[0]


def first(words: str, rules) -> str:
    return suggest(words, rules)[0].symptom


def test_extra_words_and_word_order_do_not_matter():
    assert first("car shakes at the lights when its warm", SMALL) == "misfire"
    assert first("at the lights the engine, it shakes!", SMALL) == "misfire"


def test_slips_of_typing_do_not_matter():
    assert first("stumbels once it is wram", SMALL) == "misfire-only-hot"


def test_the_words_that_fit_are_named():
    assert suggest("runs rough", SMALL)[0].because_words == "runs rough"
    assert suggest("runs rough", SMALL)[0].score == 100.0


@pytest.mark.parametrize("nothing", ["", "   ", "?!", "xyzzy plugh", "the car"])
def test_nothing_is_suggested_where_nothing_comes_near(nothing):
    assert suggest(nothing, SMALL) == ()


@pytest.mark.parametrize("nothing", ["the car", "xyzzy plugh", "thank you very much"])
def test_words_that_are_only_a_little_alike_suggest_nothing_among_all_the_shipped_rules(nothing):
    assert suggest(nothing, shipped()) == ()


def test_no_more_are_suggested_than_asked_for():
    assert len(suggest("brakes shake", shipped(), limit=3)) == 3


def test_every_phrase_of_the_shipped_rules_finds_its_own_symptom_even_shuffled():
    dice = random.Random(7)
    for symptom in shipped().symptoms.values():
        for phrase in symptom.says:
            words = phrase.split()
            dice.shuffle(words)
            found = [suggestion.symptom for suggestion in suggest(" ".join(words), shipped())]
            assert symptom.id in found, phrase


@given(st.text(max_size=80))
def test_suggestions_are_ranked_and_within_bounds_whatever_is_typed(text):
    found = suggest(text, SMALL)
    assert [s.score for s in found] == sorted((s.score for s in found), reverse=True)
    assert all(50.0 <= s.score <= 100.0 for s in found)

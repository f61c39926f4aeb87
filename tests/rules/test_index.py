"""What is looked up again and again stands where the rules have it."""

from __future__ import annotations

import pytest

from app.rules.index import causes_giving, spoken_of_by
from tests.cases import real_rules


@pytest.fixture
def rules():
    return real_rules()


def test_every_symptom_has_the_causes_that_give_it(rules):
    giving = causes_giving(rules)
    for cause in rules.causes.values():
        for gives in cause.gives:
            assert cause.id in giving[gives.symptom]
    assert all(
        any(g.symptom == symptom for g in rules.causes[c].gives) for symptom, some in giving.items() for c in some
    )


def test_every_cause_has_the_tests_that_show_it_or_are_blind_to_it_each_once(rules):
    for cause, tests in spoken_of_by(rules).items():
        spoken_of = [
            test.id
            for test in rules.tests.values()
            if cause in {*(s.cause for s in test.shows), *(b.cause for b in test.blind_when)}
        ]
        assert sorted(test.id for test in tests) == sorted(spoken_of)

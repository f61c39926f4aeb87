"""What is worth a look in rules that are in order, and how easily they read."""

from __future__ import annotations

import pytest

from app.rules.notices import notices, readability, shown_alike
from app.rules.read import read_rules
from app.rules.readability import reading_ease, syllables
from tests.rules.texts import texts


def rules_with(before: str, after: str):
    family = texts()["families/misfire.yaml"]
    assert before in family
    rules, problems = read_rules(texts() | {"families/misfire.yaml": family.replace(before, after)})
    assert problems == ()
    assert rules is not None
    return rules


TWIN = """\
  coil-weak-too:
    name: ignition module weak
    system: ignition
    acts at: cylinder
    how common: rare
    why: It no longer switches the current.
    gives: {misfire: usually}
    fixed by: {replace-coil: []}
tests:
"""


def test_causes_that_every_test_shows_alike_are_named():
    rules = rules_with("tests:\n", TWIN)
    shown = [n for n in rules.tests if any(s.cause == "coil-weak" for s in rules.tests[n].shows)]
    family = texts()["families/misfire.yaml"].replace("tests:\n", TWIN)
    for name in shown:
        strength = next(s.strength.word for s in rules.tests[name].shows if s.cause == "coil-weak")
        family = family.replace(f"coil-weak: {strength}", f"coil-weak: {strength}, coil-weak-too: {strength}")
    twins, problems = read_rules(texts() | {"families/misfire.yaml": family})
    assert problems == ()
    assert twins is not None
    assert shown_alike(twins.causes.keys(), twins) == (("coil-weak", "coil-weak-too"),)
    assert any("coil-weak, coil-weak-too" in notice.sentence for notice in notices(twins))
    assert shown_alike(rules.causes.keys(), rules) == ()


def test_a_test_that_a_cheaper_one_replaces_is_named():
    again = """\
tests:
  long-look:
    name: a long look at everything
    at: cylinder
    measures: the same
    method: Look again and longer.
    passes when: Nothing is seen.
    source: Common practice.
    minutes: {set up: 500, each place: 50}
    shows: {exhaust-lash-too-tight: weak}
    false alarm: often
    false alarm because: [a tired eye]
"""
    rules = rules_with("tests:\n", again)
    assert any("shows all that “a long look at everything” shows" in notice.sentence for notice in notices(rules))


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("brake", 1),
        ("vehicle", 3),
        ("engine", 2),
        ("wheels", 1),
        ("judder", 2),
        ("little", 2),
        ("stopped", 1),
        ("idle", 2),
    ],
)
def test_syllables_are_counted_as_spoken(word, count):
    assert syllables(word) == count


def test_reading_ease_by_hand():
    """Flesch (1948): one sentence of 4 words with 5 syllables: 206.835 - 1.015 x 4 - 84.6 x 5/4 = 97.0."""
    assert reading_ease(["The engine runs rough."]) == pytest.approx(97.025)
    assert reading_ease([]) == 100.0


def test_the_supplied_rules_read_plainly():
    from tests.cases import real_rules

    assert readability(real_rules()) > 60.0

"""The shop's own rules: laid over by id, removable, told apart by their lines, checked like the rest."""

from __future__ import annotations

import yaml
from hypothesis import given
from hypothesis import strategies as st

from app.rules.check import check_rules
from app.rules.own import changed_paths, is_own
from app.rules.own_text import with_said, without
from app.rules.read import read_rules
from tests.rules.texts import texts

FILE = "families/misfire.yaml"


def with_own(own: str):
    return read_rules(texts(), {FILE: own})


def test_a_strength_of_the_shop_stands_in_place_of_the_supplied_one():
    rules, problems = with_own("tests:\n  leak-down:\n    shows: {valve-burnt: fair}\n")
    assert problems == ()
    assert rules is not None
    shown = {shows.cause: shows.strength.word for shows in rules.tests["leak-down"].shows}
    assert shown["valve-burnt"] == "fair"
    assert is_own(rules.where("tests", "leak-down", "shows", "valve-burnt"))
    assert not is_own(rules.where("tests", "leak-down", "method"))
    assert changed_paths(rules.lines) == {("tests", "leak-down")}
    supplied, _ = read_rules(texts())
    assert supplied is not None
    assert supplied.version != rules.version


def test_what_is_removed_is_gone_and_the_rest_stays():
    rules, problems = with_own("symptoms:\n  misfire:\n    codes: {P0302: removed}\n")
    assert problems == ()
    assert rules is not None
    assert [pattern.code for pattern in rules.symptoms["misfire"].codes] == ["P0301"]


def test_a_cause_of_the_shop_need_not_be_spoken_of_by_every_test():
    cause = """\
causes:
  plug-gap-closed:
    name: spark plug gap beaten shut
    system: ignition
    acts at: cylinder
    how common: rare
    why: A dropped plug fires across a closed gap.
    gives: {misfire: usually}
    fixed by: {replace-coil: []}
    only the repair tells: A look at the plug tells.
operations_are_elsewhere: {}
"""
    assert with_own(cause)[0] is None  # an unknown key is refused, and the line is the shop's
    assert all(is_own(problem.where) for problem in with_own(cause)[1])
    rules, problems = read_rules(
        texts(),
        {
            FILE: cause.replace("operations_are_elsewhere: {}\n", ""),
            "operations/own.yaml": "replace-coil:\n  touches: {plug-gap-closed: renews}\n",
        },
    )
    assert problems == ()
    assert rules is not None
    assert check_rules(rules) == ()
    assert rules.operations["replace-coil"].touches["plug-gap-closed"] == "renews"


def test_a_contradiction_the_shop_brings_in_is_found():
    rules, _ = with_own("tests:\n  leak-down:\n    cannot show: {valve-burnt: It is blind.}\n")
    assert rules is not None
    assert ["both shows and cannot show" in problem.sentence for problem in check_rules(rules)] == [True]


def test_a_text_is_changed_at_one_path_and_taken_back():
    said = with_said("", ("tests", "leak-down", "shows", "valve-burnt"), "fair")
    said = with_said(said, ("symptoms", "misfire", "says"), ["coughs: badly", "no power"])
    assert yaml.safe_load(said) == {
        "tests": {"leak-down": {"shows": {"valve-burnt": "fair"}}},
        "symptoms": {"misfire": {"says": ["coughs: badly", "no power"]}},
    }
    said = without(said, ("tests", "leak-down", "shows", "valve-burnt"))
    assert yaml.safe_load(said) == {"symptoms": {"misfire": {"says": ["coughs: badly", "no power"]}}}
    assert without(said, ("symptoms", "misfire")) == ""
    assert without(said, ("tests", "unknown")) == said


TYPED = st.text(st.characters(categories=["L", "N", "P", "S", "Zs"]), max_size=60)


@given(TYPED, TYPED.filter(bool))
def test_whatever_is_typed_stays_text(typed, key):
    said = with_said("", ("causes", key, "why"), typed)
    assert yaml.load(said, yaml.CBaseLoader) == {"causes": {key: {"why": typed}}}

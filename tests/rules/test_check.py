"""Rules that can be read but make no sense: each gap is named with file and line."""

from __future__ import annotations

import pytest

from app.rules.check import check_rules
from app.rules.check_doubles import SMALL_WORDS, nearly_same
from app.rules.read import read_rules
from tests.rules.texts import changed, shipped, texts


def problems_of(given: dict[str, str]):
    rules, unread = read_rules(given)
    assert unread == ()
    assert rules is not None
    return check_rules(rules)


def test_the_small_library_is_in_order():
    assert problems_of(texts()) == ()


def test_the_shipped_rules_are_in_order():
    assert [str(problem) for problem in check_rules(shipped())] == []


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("      ignition: The gauge sees only the valve gear.\n", "", "neither shows nor cannot show coil-weak"),
        ("valve-burnt: The lash of", "exhaust-lash-too-tight: The lash of", "both shows and cannot show"),
        ("engine-cold: {valve-burnt:", "engine-cold: {coil-weak:", "said to be blind to “coil-weak”"),
        (
            "gives: {misfire: often, misfire-only-hot: {how: usually, course: at once}}",
            "gives: {misfire: often}",
            "No cause gives",
        ),
        ("name: valve burnt", "name: ignition coils weak", "means nearly the same as “ignition coil weak”"),
        ('"stumbles once it is warm"', '"Runs  rough"', "stands already at"),
        ("codes: {P0301: cyl-1, P0302: cyl-2}", "codes: {P0301: engine}", "is not a place of level cylinder"),
        ("unit: mm, units: {mm: mm,", "unit: mm, units: {mm: mm, bar: bar,", "“bar” cannot be turned into mm"),
        ("thou: thou", "thou: 9**9**9", "is not a unit"),
        ("{cylinder: 0.9, bank: 0.1}", "{cylinder: 0.9, bank: 0.2}", "sum to 1.1"),
        ("how common: rare\n", "prior: 0.9\n", "is not believable"),
        ("how common: rare\n", "prior: 0.01\n", "gives the lead complaint of “misfire” and so has a share"),
        ("at: bank, how: sometimes", "at: wheel, how: sometimes", "where it does not act"),
        ("brings: exhaust-lash-too-tight", "brings: valve-burnt", "does not say that its duty “measured-cold” brings"),
        ("touches: {coil-weak: renews}", "touches: {coil-weak: opens}", "does not renew or set it"),
        ("why: A valve that does not seat", "why: a valve that does not seat", "does not begin with a capital"),
        ("cannot pass its heat to the head.", "cannot pass its heat to the head", "does not end with a full stop"),
        ("Nothing of the valve gear moves with the coil.", "N" + "o" * 200 + ".", "has 202 characters"),
        ("name: valve burnt", "name: valve burnt.", "ends with a full stop"),
        ("    false alarm because: [leaf not flat]\n", "", "can be abnormal with nothing wrong is not said"),
        ("strong: {chance: 0.92", "strong: {chance: 0.85", "“strong” must lie between 0.92 and 1"),
        ("often: {chance: 0.5", "often: {chance: 1.5", "1.5 is not a chance"),
        ("unlisted share: {value: 0.05", "unlisted share: {value: 5", "“unlisted share” is 5"),
        ("as told: {reliability: 0.6", "as told: {reliability: 6", "6 is not a chance"),
        (
            'often: {chance: 0.05, from: "Judgement: once in 20',
            'often: {chance: 0.5, from: "Judgement: once in 20',
            "faults before any job",
        ),
    ],
)
def test_each_gap_is_named_with_its_line(old, new, sentence):
    broken = changed(old, new)
    hit = next(problem for problem in problems_of(broken) if sentence in problem.sentence)
    file, _, line = hit.where.rpartition(":")
    assert 1 <= int(line) <= len(broken[file].splitlines())
    assert hit.mend


def sentences(given: dict[str, str]) -> list[str]:
    return [problem.sentence for problem in problems_of(given)]


def test_a_fair_test_with_few_false_alarms_still_rules_in_and_a_weak_one_with_many_settles_nothing():
    """Likelihood ratios of 10 and 0.1 as in Jaeschke, Guyatt and Sackett (JAMA 1994; from memory).

    fair, rarely: (1 - 0.98 * 0.3) / 0.02 = 35; weak, often: (1 - 0.9 * 0.7) / 0.1 = 3.7 and 0.7.
    """
    fair = changed("shows: {coil-weak: strong}", "shows: {coil-weak: fair}")
    assert sentences(fair) == []
    weak = changed("shows: {coil-weak: strong}", "shows: {coil-weak: weak}")
    name = "families/misfire.yaml"
    weak[name] = weak[name].replace(
        "false alarm: rarely\n    false alarm because: [misfire",
        "false alarm: often\n    false alarm because: [misfire",
    )
    assert sentences(weak) == ["No test can rule “ignition coil weak” in or out."]


def test_a_cause_only_the_repair_tells_needs_no_test():
    weak = changed("shows: {coil-weak: strong}", "shows: {coil-weak: weak}")
    name = "families/misfire.yaml"
    weak[name] = weak[name].replace(
        "false alarm: rarely\n    false alarm because: [misfire",
        "false alarm: often\n    false alarm because: [misfire",
    )
    weak[name] = weak[name].replace(
        "fixed by: {replace-coil", "only the repair tells: It fails on the road only.\n    fixed by: {replace-coil"
    )
    assert sentences(weak) == []


def test_a_test_that_shows_nothing_is_needed_only_where_it_verifies_a_duty():
    idle = """\
  smell:
    name: smell at the exhaust
    at: engine
    measures: the smell
    method: Smell.
    passes when: No smell.
    source: Common practice.
    minutes: {set up: 1, each place: 1}
    cannot show: {ignition: No., valve gear: No., cylinder sealing: No.}
    false alarm: often
    false alarm because: [a cold]
"""
    with_idle = texts()
    with_idle["families/misfire.yaml"] += idle
    assert sentences(with_idle) == ["Nothing needs “smell at the exhaust”: it shows no cause and verifies no duty."]
    with_idle["operations.yaml"] = with_idle["operations.yaml"].replace(
        "verify by: The work sheet shows them.", "verify by: smell"
    )
    assert sentences(with_idle) == []


def test_a_cause_that_says_how_common_it_is_must_give_the_lead_complaint():
    other = changed("lead: [misfire]", "lead: [misfire-only-hot]")
    assert any("does not give the lead complaint" in sentence for sentence in sentences(other))


def test_a_kind_of_a_lead_symptom_does_not_lead_too():
    assert any("leads already" in s for s in sentences(changed("lead: [misfire]", "lead: [misfire, misfire-only-hot]")))


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("valve burnt", "valves burnt", True),
        ("the disc runout", "runout of disc", True),
        ("intake lash too tight", "exhaust lash too tight", False),
        ("lash too tight", "lash too wide", False),
        ("sensor bank 1", "sensor bank 2", False),
        ("shake with brake", "shake without brake", False),
    ],
)
def test_names_that_differ_in_small_words_or_endings_only_mean_the_same(one, other, same):
    assert nearly_same(frozenset(one.split()) - SMALL_WORDS, frozenset(other.split()) - SMALL_WORDS) is same


def test_an_operation_and_a_cause_agree_about_duties():
    without = changed(
        "    raised by:\n      - {operation: adjust-lash, duty: measured-cold, at: bank, how: sometimes}\n", ""
    )
    assert ["does not say that it is raised by this duty" in problem.sentence for problem in problems_of(without)] == [
        True
    ]

"""The next step of real cases by expected cost: what is open, what parts cost, what was done, what nothing tells."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.advice.asking import gone
from app.advice.of_case import Kind
from app.advice.prices import Prices, supplied_prices
from app.board.advice_as_json import advice_as_json
from app.board.advice_words import AdviceWords
from app.board.advise import build_advice
from app.evidence.case import Case
from tests.cases import FOUR, a_case, real_rules

RULES = real_rules()
PRICES = supplied_prices(RULES)


def misfire(**more: object) -> Case:
    story = a_case("misfire-counted", "cyl-2", FOUR).visit("2026-05-01", 90_000).complains("misfire-counted", "cyl-2")
    return replace(story.case, **more)


def advise(case: Case, prices: Prices = PRICES):
    return build_advice(case, RULES, prices)


def expected(advice, test: str) -> float:
    return next(step.expected for step in advice.steps.tests if step.here.test.id == test)


def test_the_figure_is_never_above_that_of_the_plain_order_and_the_steps_stand_in_order():
    steps = advise(misfire()).steps
    assert steps.expected <= steps.base
    assert steps.expected <= min(step.expected for step in (*steps.tests, *steps.repairs)) * (1.0 + 1e-9)
    assert [step.expected for step in steps.tests] == sorted(step.expected for step in steps.tests)
    assert 0.0 < steps.left < 1.0


def test_what_is_off_is_taken_out_of_the_costs_at_once():
    """The minutes to reach the plugs and to put them back belong to every step that needs them out, until they are."""
    shut = advise(misfire()).steps
    step = next(one for one in (*shut.tests, *shut.repairs) if one.work.covers)
    opened = advise(misfire(open_covers=step.work.covers)).steps
    same = {one.here.id if hasattr(one, "here") else one.repair.id: one for one in (*opened.tests, *opened.repairs)}
    again = same[step.here.id if hasattr(step, "here") else step.repair.id]
    assert step.work.reach + step.work.restore > 0.0
    assert (again.work.covers, again.work.reach, again.work.restore) == ((), 0.0, 0.0)
    assert again.work.minutes == step.work.minutes
    assert opened.expected < shut.expected


def test_the_same_places_taken_in_one_go_cost_set_up_once():
    step = next(one for one in advise(misfire()).steps.tests if len(one.here.places) > 1)
    test = step.here.test
    assert step.work.minutes == test.setup_minutes + test.minutes_per_place * len(step.here.places)


def test_a_part_without_a_price_is_left_out_and_named_and_counts_once_it_has_one():
    before = next(step for step in advise(misfire()).steps.repairs if step.work.unpriced)
    part = before.work.unpriced[0]
    priced = advise(misfire(), replace(PRICES, parts={part: 120.0}))
    after = next(step for step in priced.steps.repairs if step.repair.id == before.repair.id)
    assert after.work.money == pytest.approx(before.work.money + 120.0 * len(before.repair.places))
    assert part not in after.work.unpriced
    assert priced.steps.expected > advise(misfire()).steps.expected


def test_a_dear_part_makes_a_test_worth_its_time_that_was_not_before():
    cheap = advise(misfire())
    dear = advise(misfire(), replace(PRICES, parts={p: 900.0 for s in cheap.steps.repairs for p in s.repair.parts}))
    gain_before = cheap.steps.base - cheap.steps.tests[0].expected
    gain_after = dear.steps.base - dear.steps.tests[0].expected
    assert gain_after > gain_before
    assert dear.steps.kind is Kind.TEST


def test_the_shops_own_minutes_stand_in_place_of_the_rules():
    first = advise(misfire()).steps.tests[0].here.test
    slow = advise(misfire(), replace(PRICES, tests={first.id: 240.0}))
    step = next(one for one in slow.steps.tests if one.here.test.id == first.id)
    assert step.work.minutes >= 240.0


def test_twice_the_rate_is_twice_the_money_where_no_part_has_a_price():
    one, two = advise(misfire()), advise(misfire(), replace(PRICES, labour_rate=2.0 * PRICES.labour_rate))
    assert two.steps.expected == pytest.approx(2.0 * one.steps.expected)


def test_what_was_renewed_since_has_to_be_proven_before_anything_else():
    """Discs and pads with a thickness variation measured here were renewed here at the same visit."""
    story = a_case("judder-under-braking", "front-axle", FOUR).visit("2026-05-01", 90_000)
    story = story.complains("judder-under-braking", "front-axle")
    story = story.result("disc-thickness-eight-points", "front-left-wheel", "abnormal")
    story = story.result("disc-thickness-eight-points", "front-right-wheel", "abnormal")
    before = advise(story.case).steps
    after = advise(story.job("replace-discs-and-pads", "front-axle").case).steps
    assert before.kind is not Kind.GONE
    assert before.gone < 0.01
    assert after.kind is Kind.GONE
    assert after.gone > 0.5
    assert after.tests == ()


def offered(steps) -> set[str]:
    return {step.repair.operation.id for step in steps.repairs}


def test_what_was_just_done_here_in_vain_is_not_to_be_done_again_and_long_after_it_may_be():
    def after(km: float):
        story = a_case("misfire-counted", "cyl-2", FOUR).visit("2026-04-28", 90_000)
        story = story.complains("misfire-counted", "cyl-2").job("renew-injector", "cyl-2")
        story = story.visit("2026-05-01", 90_000 + km).complains("misfire-counted", "cyl-2")
        return advise(story.case).steps

    assert "renew-injector" in offered(advise(misfire()).steps)
    assert "renew-injector" not in offered(after(40))
    assert "renew-injector" in offered(after(30_000))


def test_while_it_is_open_names_only_what_lies_behind_what_is_off():
    assert advise(misfire()).open.tests == ()
    found = advise(misfire(open_covers=("plugs-out",))).open
    assert found.tests
    for one in found.tests:
        assert set(one.here.test.needs_open) == {"plugs-out"}
        assert (one.work.reach, one.work.restore) == (0.0, 0.0)
    assert all(set(one.repair.operation.opens) <= {"plugs-out"} for one in found.renewals)


def test_duties_of_earlier_work_behind_open_covers_are_named_until_somebody_has_looked():
    covers = RULES.operations["adjust-valve-lash"].opens
    story = a_case("misfire-counted", "cyl-2", FOUR).visit("2026-01-01", 80_000, here=False, shop="Weir Garage")
    job = story.job("adjust-valve-lash", "engine")
    looked = story.job("adjust-valve-lash", "engine", duties={"measured-at-temperature": "verified"})

    def open_duties(told) -> set[str]:
        case = told.visit("2026-05-01", 90_000).complains("misfire-counted", "cyl-2").case
        return {one.duty.id for one in advise(replace(case, open_covers=covers)).open.duties}

    assert "measured-at-temperature" in open_duties(job)
    assert "measured-at-temperature" not in open_duties(looked)
    assert "figures-not-swapped" in open_duties(looked)


def test_where_no_test_tells_the_likely_causes_apart_that_is_said_with_their_repairs():
    """The same case under rules that have no test at all, beside those that have them."""
    blind = build_advice(misfire(), replace(RULES, tests={}), PRICES)
    words = AdviceWords(FOUR, PRICES)
    assert advise(misfire()).steps.kind is not Kind.NOTHING_SEPARATES
    assert blind.steps.kind is Kind.NOTHING_SEPARATES
    assert len(blind.steps.alike) > 1
    said = " ".join(words.because(blind.steps))
    assert all(repair.operation.name in said for repair in blind.steps.alike)
    assert "Nothing in these rules separates the rest" in words.headline(blind.steps)


def test_after_all_likely_repairs_in_vain_the_advice_is_to_search_on_and_says_what_that_counts():
    story = a_case("charge-lamp-on", "vehicle", FOUR).visit("2026-05-01", 90_000)
    story, words = story.complains("charge-lamp-on", "vehicle"), AdviceWords(FOUR, PRICES)
    for _ in range(12):
        steps = advise(story.case).steps
        if steps.kind is Kind.SEARCH_ON:
            break
        first = steps.repairs[0].repair
        for place in first.places:
            story = story.job(first.operation.id, place)
        story = story.visit("2026-05-01", 90_000).complains("charge-lamp-on", "vehicle")
    assert steps.kind is Kind.SEARCH_ON
    assert steps.left > 0.5
    assert "Search on by hand" in words.headline(steps)
    (why,) = words.because(steps)
    assert words.money(steps.expected) in why
    assert "6 hours until it is found" in why


def test_where_no_test_could_be_reckoned_with_it_is_not_said_that_none_tells(monkeypatch):
    monkeypatch.setattr("app.advice.believed.gone", lambda complaint, sets, rows=(): untested(complaint, sets, rows))
    steps = advise(misfire()).steps
    assert steps.tests == ()
    assert steps.kind is Kind.REPAIR
    assert steps.alike == ()


def untested(complaint, sets, rows):
    found = gone(complaint, sets)
    return found and (found[0], [None for _ in rows])


def test_where_all_repairs_together_are_too_much_to_ask_the_first_are_weighed(monkeypatch):
    most = len(advise(misfire()).steps.repairs) // 2
    monkeypatch.setattr("app.advice.believed.gone", lambda complaint, sets, rows=(): few(complaint, sets, rows, most))
    steps = advise(misfire()).steps
    assert 0 < len(steps.repairs) <= most
    assert 0.0 < steps.left < 1.0


def few(complaint, sets, rows, most):
    """Nothing for more faults than so many."""
    return None if len(frozenset().union(*sets)) > most else gone(complaint, sets, rows)


def test_entries_that_cannot_all_be_true_get_no_advice_and_a_sentence():
    """A complaint that no cause can give: a leak of nought makes it impossible."""
    sure = replace(RULES, settings=replace(RULES.settings, leak=0.0, unlisted_share=0.0), causes={})
    advice = build_advice(misfire(), sure, PRICES)
    assert advice.steps is None
    assert AdviceWords(FOUR, PRICES).headline(None).startswith("No step can be advised")


def test_json_says_the_same_numbers():
    advice = advise(misfire())
    told = advice_as_json(advice)
    assert told["kind"] == advice.steps.kind.value
    assert told["expected_cost"] == advice.steps.expected
    assert [step["test"] for step in told["tests"]] == [step.here.test.id for step in advice.steps.tests]


def test_the_sentences_say_what_the_figure_is():
    advice = advise(misfire())
    words = AdviceWords(FOUR, PRICES)
    assert "EUR" in words.figure(advice.steps)
    assert "90 EUR an hour" in words.figure(advice.steps)
    assert all(sentence.endswith(".") for sentence in words.because(advice.steps))

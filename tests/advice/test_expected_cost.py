"""Advice against the exact optimum, and what is promised about the figure it shows.

The problems are seeded and small, so that every policy can be worked out; the larger run is `proofbay bench advice`.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.advice.expected_cost import advise
from app.advice.paths import Ground
from app.advice.plan import Cover, Repair, Situation, Test
from app.advice.separating import information
from app.advice.table import Table
from app.bench.optimum import Optimum, a_problem, cost_of
from app.bench.rules_of_thumb import by_advice

SIZES = ((3, 3, 30), (4, 4, 12), (5, 4, 8), (4, 5, 6), (5, 5, 4))
"""Faults, tests, and how many problems of that size, each with single and with several faults: 120 in all."""
MEAN_EXCESS, WORST_EXCESS = 0.02, 0.20


@cache
def costs(single: bool) -> tuple[tuple[float, float, float], ...]:
    """Optimum, advice and plain order of each problem."""
    found = []
    for faults, tests, problems in SIZES:
        for seed in range(problems):
            table, situation = a_problem(seed, faults=faults, tests=tests, single=single)
            optimum, advised = Optimum(table, situation).cost(), cost_of(by_advice, table, situation)
            found.append((optimum, advised, advise(table, situation).base))
    return tuple(found)


@pytest.mark.parametrize("single", [True, False], ids=["one fault", "several faults"])
def test_following_the_advice_costs_little_more_than_the_best_policy_there_is(single):
    excess = [advised / optimum - 1.0 for optimum, advised, _ in costs(single)]
    assert len(excess) == 60
    assert min(excess) > -1e-9
    assert np.mean(excess) <= MEAN_EXCESS
    assert max(excess) <= WORST_EXCESS


@pytest.mark.parametrize("single", [True, False], ids=["one fault", "several faults"])
def test_following_the_advice_is_never_dearer_on_average_than_the_plain_order(single):
    for _, advised, plain in costs(single):
        assert advised <= plain * (1.0 + 1e-9)


@pytest.mark.parametrize("single", [True, False], ids=["one fault", "several faults"])
def test_a_larger_problem_looked_at_one_step_ahead_stays_close_too(single):
    table, situation = a_problem(3, faults=5, tests=5, single=single)
    assert cost_of(by_advice, table, situation) <= Optimum(table, situation).cost() * (1.0 + WORST_EXCESS)


@settings(max_examples=40, deadline=None)
@given(st.integers(100, 10_000), st.integers(2, 4), st.integers(0, 3), st.booleans())
def test_the_figure_shown_is_an_upper_bound_of_what_following_the_advice_costs(seed, faults, tests, single):
    table, situation = a_problem(seed, faults=faults, tests=tests, single=single)
    advice = advise(table, situation)
    assert cost_of(by_advice, table, situation) <= advice.expected * (1.0 + 1e-9)
    assert advice.expected <= advice.base * (1.0 + 1e-9)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), st.floats(0.1, 10.0))
def test_all_costs_alike_times_a_factor_change_the_figure_and_not_the_advice(seed, factor):
    table, situation = a_problem(seed, faults=3, tests=3)
    dearer = Situation(
        tuple(replace(test, cost=test.cost * factor) for test in situation.tests),
        tuple(replace(repair, cost=repair.cost * factor) for repair in situation.repairs),
        {name: Cover(cover.reach * factor, cover.restore * factor) for name, cover in situation.covers.items()},
        situation.none_of_these * factor,
    )
    first, second = advise(table, situation), advise(table, dearer)
    assert second.expected == pytest.approx(first.expected * factor)
    assert (first.test is None) == (second.test is None)


TWO = Table(
    ("belt", "sensor"),
    np.array([1, 2]),
    np.array([0.6, 0.4]),
    {"look": np.array([[0.0, 1.0], [1.0, 0.0]]), "guess": np.array([[0.5, 0.5], [0.5, 0.5]])},
)
BELT, SENSOR = Repair("belt", frozenset({"belt"}), 200.0), Repair("sensor", frozenset({"sensor"}), 150.0)
LOOK, GUESS = Test("look", 10.0), Test("guess", 1.0)


def situation(*tests: Test, covers=None, open=frozenset(), repairs=(BELT, SENSOR)) -> Situation:
    return Situation(tests, repairs, covers or {}, none_of_these=500.0, open=open)


def test_a_sure_test_is_worth_its_cost_as_worked_out_by_hand():
    """Untested: belt (0.6/200) before sensor (0.4/150), 200 + 0.4 x 150 = 260; tested: 10 + 0.6 x 200 + 0.4 x 150."""
    advice = advise(TWO, situation(LOOK, GUESS))
    assert advice.base == pytest.approx(260.0)
    assert advice.test is LOOK
    assert advice.expected == pytest.approx(190.0)


def test_the_optimum_is_what_is_worked_out_by_hand():
    assert Optimum(TWO, situation(LOOK, GUESS)).cost() == pytest.approx(190.0)
    assert Optimum(TWO, situation(GUESS)).cost() == pytest.approx(260.0)
    assert Optimum(TWO, situation(repairs=())).cost() == pytest.approx(500.0)


def test_a_test_that_tells_nothing_is_never_advised():
    advice = advise(TWO, situation(GUESS))
    assert advice.test is None
    assert advice.repair is BELT
    assert advice.tests[0].cost == pytest.approx(261.0)


def test_what_is_open_costs_nothing_to_reach_and_to_restore():
    covers = {"cover": Cover(30.0, 40.0)}
    behind = replace(LOOK, covers=frozenset({"cover"}))
    shut, opened = (advise(TWO, situation(behind, covers=covers, open=o)) for o in (frozenset(), frozenset({"cover"})))
    assert shut.test is None
    assert opened.test is behind
    assert opened.expected == pytest.approx(190.0)


def test_a_cover_taken_off_for_the_test_is_off_for_the_repair():
    covers = {"cover": Cover(30.0, 40.0)}
    repairs = tuple(replace(one, covers=frozenset({"cover"})) for one in (BELT, SENSOR))
    behind = replace(LOOK, covers=frozenset({"cover"}))
    advice = advise(TWO, situation(behind, covers=covers, repairs=repairs))
    assert advice.expected == pytest.approx(190.0 + 70.0)


def test_with_nothing_to_repair_only_the_search_is_left():
    advice = advise(TWO, situation(repairs=()))
    assert (advice.test, advice.repair, advice.expected) == (None, None, 500.0)


def listed_with(other: float, *, price: float) -> tuple[Table, Situation]:
    """One listed fault with its repair, and so much for what no repair here puts right."""
    table = Table(("belt", "none of these"), np.array([1, 2]), np.array([1.0 - other, other]), {})
    return table, situation(repairs=(replace(BELT, cost=price),))


def test_where_nothing_listed_leads_and_its_repair_is_dear_the_advice_is_to_search_on():
    """Search on: 500 + 0.2 x 1000 for what is then found; repair first: 1000 + 0.8 x 500."""
    advice = advise(*listed_with(0.8, price=1000.0))
    assert (advice.test, advice.repair) == (None, None)
    assert advice.expected == pytest.approx(700.0)
    assert advice.repairs[0].cost == pytest.approx(1400.0)


def test_a_cheap_repair_is_tried_before_searching_on():
    """Repair first: 50 + 0.8 x 500; search on at once: 500 + 0.2 x 50."""
    advice = advise(*listed_with(0.8, price=50.0))
    assert advice.repair is not None
    assert advice.expected == pytest.approx(450.0)


def test_while_a_listed_fault_leads_its_repair_is_done_however_dear_it_is():
    advice = advise(*listed_with(0.4, price=1000.0))
    assert advice.repair is not None
    assert advice.expected == pytest.approx(1000.0 + 0.4 * 500.0)


def test_what_was_just_done_in_vain_is_done_again_only_after_something_else():
    """Culprit and victim: the new part was destroyed once more, so it helps only once the culprit is put right."""
    table = Table(("belt", "sensor"), np.array([2, 3]), np.array([0.5, 0.5]), {})
    again = replace(BELT, cost=1.0, again=True)
    advice = advise(table, situation(repairs=(again, SENSOR)))
    assert advice.repair is SENSOR
    assert advice.order == (SENSOR, again)
    assert advice.expected == pytest.approx(150.0 + 0.5 * 1.0)
    assert advise(table, situation(repairs=(again,))).repair is None


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), st.integers(2, 5), st.integers(1, 5))
def test_the_most_telling_test_is_the_one_with_most_bits_for_its_cost(seed, faults, tests):
    table, sit = a_problem(seed, faults=faults, tests=tests)
    ground = Ground(table, sit)
    worth = [information(table, test.id) / (test.cost + sit.access(test.covers)) for test in sit.tests]
    (most,) = ground.most_telling(ground.start())
    assert worth[most] == pytest.approx(max(worth), abs=1e-12)


def in_sequence(tests: int) -> tuple[Table, Situation]:
    """2^n dear faults, and n cheap tests of which each halves them: only all together tell which it is."""
    faults = tuple(f"fault-{n}" for n in range(1 << tests))
    worlds = np.array([1 << n for n in range(len(faults))])
    halves = [np.array([n >> bit & 1 for n in range(len(faults))], dtype=float) for bit in range(tests)]
    shown = {f"half-{bit}": np.array([1.0 - half, half]) for bit, half in enumerate(halves)}
    table = Table(faults, worlds, np.full(len(faults), 1.0 / len(faults)), shown)
    repairs = tuple(Repair(fault, frozenset({fault}), 300.0) for fault in faults)
    return table, Situation(tuple(Test(name, 100.0) for name in shown), repairs, {}, none_of_these=500.0)


def test_tests_that_tell_only_together_are_seen_to_be_worth_it():
    """Three halvings at 100 and one repair at 300; in the plain order 300 x (1 + 2 + … + 8) / 8."""
    advice = advise(*in_sequence(3))
    assert advice.base == pytest.approx(1350.0)
    assert advice.test is not None
    assert advice.expected == pytest.approx(600.0)

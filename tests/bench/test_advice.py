"""The bench of advice on a few problems."""

from __future__ import annotations

import numpy as np
import pytest

from app.advice.plan import Test
from app.bench.advice import advice, compared, interval
from app.bench.optimum import a_problem
from app.bench.page import untimed
from app.bench.rules_of_thumb import information, information_per_minute, most_probable_part
from tests.bench.small import SMALL


def test_the_advice_is_compared_with_three_rules_and_the_same_seed_gives_the_same():
    report = advice(SMALL)
    assert not report.failed
    rules = ["the advice", "the plain order of repairs", "most probable part first", "information per minute"]
    assert [[row[0] for row in table.rows] for table in report.tables] == [rules, rules]
    assert untimed(advice(SMALL)) == untimed(report)


@pytest.mark.parametrize("seed", range(6))
def test_no_rule_is_cheaper_than_the_cheapest_policy(seed):
    one = compared(seed, single=bool(seed % 2), faults=4, tests=3)
    assert all(cost >= one.optimum * (1.0 - 1e-9) for cost in (one.advised, one.plain, one.probable, one.informed))


def test_who_goes_by_information_tests_until_one_repair_is_likely_enough():
    table, situation = a_problem(0, faults=4, tests=3, single=True)
    first = information_per_minute(table, situation)
    assert isinstance(first, Test)
    sure = type(table)(table.faults, table.worlds, np.array([0.7, 0.1, 0.1, 0.1]), table.shown)
    assert information_per_minute(sure, situation) == most_probable_part(sure, situation)


def test_a_test_tells_at_most_what_there_is_to_know_and_nothing_where_it_shows_nothing():
    table, situation = a_problem(0, faults=4, tests=3, single=True)
    unknown = -float((table.chances * np.log2(table.chances)).sum())
    assert all(0.0 <= information(table, test) <= unknown for test in situation.tests)
    blind = dict.fromkeys(table.shown, np.array([[0.9] * 4, [0.1] * 4]))
    nothing = type(table)(table.faults, table.worlds, table.chances, blind)
    assert information(nothing, situation.tests[0]) == pytest.approx(0.0, abs=1e-12)


def test_the_interval_of_a_mean_holds_the_mean_and_narrows_with_more_problems():
    few, many = [0.0, 0.1, 0.3, 0.2], [0.0, 0.1, 0.3, 0.2] * 25
    low, high = interval(few, 1)
    assert low < 0.15 < high
    narrow_low, narrow_high = interval(many, 1)
    assert narrow_high - narrow_low < high - low

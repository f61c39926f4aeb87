"""Numbers as people type them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.measurements.numbers import read_number, write_number
from app.problem import Problem


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("0.25", 0.25),
        ("0,25", 0.25),
        (" 12 ", 12.0),
        ("-3", -3.0),
        ("−3", -3.0),
        ("+4", 4.0),
        (".5", 0.5),
        (",5", 0.5),
        ("5.", 5.0),
        ("0,234", 0.234),
        ("1.234", 1.234),
        ("1e-3", 0.001),
        ("84200", 84200.0),
        ("0123", 123.0),
    ],
)
def test_point_and_comma_are_decimal_signs(typed, number):
    assert read_number(typed, "reading") == number


@pytest.mark.parametrize(
    "typed",
    ["", " ", "nan", "inf", "-inf", "1e400", "1,234.5", "1.234,5", "1.234.567", "1 234", "1'234", "1,234", "12,345",
     "ten", "1..2", "1-2", "--1", "0x10", "1_000", "٣", "½", "²", "5 mm", "9**9", "1e", "e5", "+", ".", ",", "∞"],
)  # fmt: skip
def test_what_is_no_number_or_more_than_one_is_refused_with_a_sentence(typed):
    problem = read_number(typed, "reading")
    assert isinstance(problem, Problem)
    assert problem.where == "reading"
    assert problem.sentence.endswith(".")
    assert problem.mend.endswith(".")


def test_a_thousands_separator_is_named_as_such():
    problem = read_number("1,234.5", "reading")
    assert isinstance(problem, Problem)
    assert "more than one way" in problem.sentence


@given(st.floats(min_value=-1e12, max_value=1e12).map(lambda value: round(value, 6)))
def test_a_written_number_reads_back(value):
    assert read_number(write_number(value), "reading") == pytest.approx(value, rel=1e-12, abs=1e-12)


@given(st.text(max_size=40))
def test_whatever_is_typed_gives_a_finite_number_or_a_problem(typed):
    read = read_number(typed, "reading")
    assert isinstance(read, Problem) or abs(read) < float("inf")

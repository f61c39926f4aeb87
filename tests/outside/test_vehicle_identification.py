"""VIN check digits against 49 CFR 565.15(c), tables III to V; the sample of ones is the regulation's usual self-check.

Printed sample numbers name real makers, so none of them stands here.
"""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from app.vehicle.vin import VALUES, check_digit, vin_advice

ONES = "1" * 17


def test_seventeen_ones_check_themselves() -> None:
    """Weighted sum 89, remainder 1."""
    assert check_digit(ONES) == "1"
    assert vin_advice(ONES) == ""


@settings(derandomize=True, max_examples=60)
@given(st.text("".join(VALUES), min_size=17, max_size=17), st.integers(0, 16))
def test_every_single_wrong_digit_among_digits_is_caught(vin: str, at: int) -> None:
    """A weighted sum modulo the prime 11 catches every change of value at a weighted place."""
    vin = "1" + vin[1:8] + check_digit("1" + vin[1:]) + vin[9:]
    if at in (0, 8) or not vin[at].isdigit():
        return
    wrong = vin[:at] + str((int(vin[at]) + 1) % 10) + vin[at + 1 :]
    assert "check digit" in vin_advice(wrong)

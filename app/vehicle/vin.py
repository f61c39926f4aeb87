"""What can be said of a VIN by looking at it: advice, never a refusal (ISO 3779; check digit 49 CFR 565.15)."""

from __future__ import annotations

LENGTH = 17
VALUES = dict(
    zip("ABCDEFGHJKLMNPRSTUVWXYZ", (1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4, 5, 7, 9, 2, 3, 4, 5, 6, 7, 8, 9), strict=True)
)
VALUES |= {str(digit): digit for digit in range(10)}
WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
NORTH_AMERICA = "12345"


def vin_advice(typed: str) -> str:
    """One sentence where something looks wrong; "" for a VIN that looks right, and for none."""
    vin = "".join(typed.upper().split())
    if not vin:
        return ""
    foreign = sorted({letter for letter in vin if letter not in VALUES})
    if foreign:
        return f"A VIN holds no {' or '.join(foreign[:3])}; I, O and Q are left out of it, not to be taken for 1 and 0."
    if len(vin) != LENGTH:
        return f"This VIN has {len(vin)} characters; since 1981 a VIN has {LENGTH}."
    if vin[0] in NORTH_AMERICA and check_digit(vin) != vin[8]:
        return f"The ninth character of a North American VIN is its check digit; here it would be {check_digit(vin)}."
    return ""


def check_digit(vin: str) -> str:
    """The check digit of 17 characters: weighted sum of their values modulo 11, ten written as X."""
    remainder = sum(VALUES[letter] * weight for letter, weight in zip(vin, WEIGHTS, strict=True)) % 11
    return "X" if remainder == 10 else str(remainder)

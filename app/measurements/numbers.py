"""Numbers as people type them, read without guessing: decimal point or decimal comma, nothing else."""

from __future__ import annotations

import math
import re

from app.problem import Problem

_NUMBER = re.compile(r"[+-]?(?:\d{1,15}(?:[.,]\d{0,15})?|[.,]\d{1,15})(?:[eE][+-]?\d{1,3})?", re.ASCII)
_MAY_BE_THOUSANDS = re.compile(r"[+-]?(?:[1-9]\d{0,2},\d{3}|\d+['’\s]+\d+)", re.ASCII)
_MINUS_SIGNS = str.maketrans({"−": "-", "–": "-"})


def read_number(typed: str, field: str) -> float | Problem:
    """The number typed, point and comma alike as the decimal sign; finite.

    Refused: nothing, words, nan and infinities, numbers too big for a computer ("1e400"), and whatever may hold a
    thousands separator: "1,234.5", "1 234", also "1,234" (but not "0,234": no thousands begin with nought).
    """
    text = typed.strip().translate(_MINUS_SIGNS)
    if not text:
        return Problem(field, "There is no number.", "Type a number such as 0.25.")
    if _has_thousands_separator(text):
        return Problem(
            field,
            f"“{shortened(typed)}” can be read in more than one way.",
            "Leave out thousands separators; write decimals behind one point, such as 1234.5.",
        )
    if not _NUMBER.fullmatch(text):
        return Problem(field, f"“{shortened(typed)}” is not a number.", "Type digits, such as 0.25 or 0,25.")
    number = float(text.replace(",", "."))
    if not math.isfinite(number):
        return Problem(field, f"“{typed.strip()}” is too big.", "Check the exponent.")
    return number


def _has_thousands_separator(text: str) -> bool:
    """Two or more separators among digits, a space between digits, or a comma before exactly three digits."""
    if not re.fullmatch(r"[+-]?[\d.,'’\s]+", text, re.ASCII):
        return False
    return len(re.findall(r"[.,'’]|\d\s+\d", text)) > 1 or bool(_MAY_BE_THOUSANDS.fullmatch(text))


def write_number(value: float) -> str:
    """A number as it is shown and typed back: "0.25", "12", never more digits than it has, never an exponent."""
    text = f"{value:.12f}".rstrip("0").rstrip(".") if abs(value) < 1e15 else repr(value)
    return "0" if text in ("", "-0") else text


def shortened(typed: str) -> str:
    """What was typed, cut so that a sentence stays a sentence."""
    text = " ".join(typed.split())
    return text if len(text) <= 40 else f"{text[:40]}…"

"""The fields of a reading: value with unit, the limits it is judged by, and whose figures these are."""

from __future__ import annotations

from dataclasses import dataclass

from app.evidence.case import Reading, Specification
from app.measurements.quantities import Quantity
from app.measurements.reading import read_reading
from app.problem import Problem
from app.web.forms.fields import Field, FieldMaker, Sent, too_long


class ReadingSent(Sent):
    reading: str = ""
    unit: str = ""
    low: str = ""
    high: str = ""
    limits_from: str = ""


@dataclass(frozen=True, slots=True)
class ReadingFields:
    quantity: str
    reading: Field
    unit: Field
    low: Field
    high: Field
    limits_from: Field


def reading_fields(make: FieldMaker, sent: ReadingSent, quantity: Quantity) -> ReadingFields:
    """The unit is chosen, never guessed: with one possible unit it stands there, with several none is preset."""
    units = [(unit, unit) for unit in quantity.units]
    options = units if len(units) == 1 else [("", "unit?"), *units]
    return ReadingFields(
        quantity=quantity.name,
        reading=make.line("reading", f"Reading: {quantity.name}", value=sent.reading),
        unit=make.choice("unit", "Unit", options=options, chosen=sent.unit),
        low=make.line("low", "Allowed from", value=sent.low, hint="In the same unit."),
        high=make.line("high", "Allowed up to", value=sent.high, hint="In the same unit."),
        limits_from=make.line(
            "limits_from", "Whose limits?", value=sent.limits_from, hint="Such as: maker’s manual, page."
        ),
    )


def read_reading_fields(
    sent: ReadingSent, quantity: Quantity, *, problems: list[Problem]
) -> tuple[Reading | None, Specification | None]:
    """Reading and limits, both in the quantity's unit; each None where nothing was typed."""
    reading = _reading(sent, quantity, problems=problems)
    low, high = (_limit(name, sent, quantity=quantity, problems=problems) for name in ("low", "high"))
    problems += too_long("limits_from", sent.limits_from)
    if low is None and high is None:
        return reading, None
    if low is not None and high is not None and low > high:
        problems.append(
            Problem("high", "The upper limit lies under the lower one.", "Change them over, or check them.")
        )
    if not sent.limits_from.strip():
        problems.append(
            Problem("limits_from", "It is not said whose limits these are.", "Name the manual or the sheet.")
        )
    return reading, Specification(low, high, sent.limits_from.strip())


def _reading(sent: ReadingSent, quantity: Quantity, *, problems: list[Problem]) -> Reading | None:
    if not sent.reading.strip():
        return None
    measured = read_reading(sent.reading, quantity, "reading", unit=sent.unit)
    if isinstance(measured, Problem):
        problems.append(measured)
        return None
    return Reading(measured.typed, measured.value, measured.unit, measured.resolution)


def _limit(name: str, sent: ReadingSent, *, quantity: Quantity, problems: list[Problem]) -> float | None:
    typed = getattr(sent, name)
    if not typed.strip():
        return None
    measured = read_reading(typed, quantity, name, unit=sent.unit)
    if isinstance(measured, Problem):
        problems.append(measured)
        return None
    return measured.value

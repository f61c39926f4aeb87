"""Spellings of units: which of a quantity's own units a person meant, and whose unit a foreign one is."""

from __future__ import annotations

from app.measurements.quantities import Quantity

SPELLINGS = {
    "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "inch": "in", "inches": "in", '"': "in", "″": "in",
    "mil": "thou", "thousandths": "thou", "um": "µm", "μm": "µm", "micron": "µm", "microns": "µm",
    "percent": "%", "per cent": "%", "pct": "%",
    "volt": "V", "volts": "V", "millivolt": "mV", "millivolts": "mV",
    "amp": "A", "amps": "A", "ampere": "A", "amperes": "A", "milliamp": "mA", "milliamps": "mA",
    "ohms": "ohm", "ω": "ohm", "Ω": "ohm", "kω": "kohm", "kΩ": "kohm", "k": "kohm", "mΩ": "mohm",
    "c": "°C", "degc": "°C", "deg c": "°C", "celsius": "°C", "f": "°F", "degf": "°F", "deg f": "°F", "fahrenheit": "°F",
    "n m": "Nm", "n·m": "Nm", "newton metre": "Nm", "lb ft": "lbf ft", "lbft": "lbf ft", "ft lb": "lbf ft",
    "ft lbs": "lbf ft", "lbf·ft": "lbf ft", "lb in": "lbf in", "in lb": "lbf in",
    "rpm": "1/min", "r/min": "1/min", "/min": "1/min", "min-1": "1/min",
    "deg": "°", "degree": "°", "degrees": "°", "º": "°",
    "kilometre": "km", "kilometres": "km", "kms": "km", "mile": "mi", "miles": "mi",
    "kg/cm2": "kgf/cm2", "kgf/cm²": "kgf/cm2", "kg/cm²": "kgf/cm2",
}  # fmt: skip
"""Other ways the trade writes a unit, in small letters -> the spelling the quantities use (common practice)."""

MEASURES = {
    "mm": "length", "in": "length", "thou": "length", "µm": "length", "km": "distance", "mi": "distance",
    "bar": "pressure", "psi": "pressure", "kPa": "pressure", "MPa": "pressure", "mbar": "pressure", "hPa": "pressure",
    "V": "voltage", "mV": "voltage", "A": "current", "mA": "current", "ohm": "resistance", "kohm": "resistance",
    "°C": "temperature", "°F": "temperature", "Nm": "torque", "lbf ft": "torque", "lbf in": "torque",
    "1/min": "speed of rotation", "Hz": "frequency", "%": "share", "°": "angle", "s": "time", "ms": "time",
    "min": "time", "g": "mass", "kg": "mass", "l": "volume", "ml": "volume", "km/h": "speed", "mph": "speed",
}  # fmt: skip
"""What the usual units measure, to say so when one is typed for the wrong quantity."""


def shown_unit(typed: str, quantity: Quantity) -> str | None:
    """The quantity's own spelling of a typed unit; None where it has no such unit.

    Exact first, for mV and MV differ; then without regard to capitals where that leaves one only.
    """
    text = " ".join(typed.split()).rstrip(".")
    if text in quantity.units:
        return text
    usual = SPELLINGS.get(text, SPELLINGS.get(text.casefold(), text))
    if usual in quantity.units:
        return usual
    alike = [unit for unit in quantity.units if unit.casefold() == text.casefold()]
    return alike[0] if len(alike) == 1 else None


def belongs_elsewhere(typed: str, quantity: Quantity) -> str:
    """What a unit measures when it is a known unit of something else; "" when it is no such unit."""
    text = " ".join(typed.split()).rstrip(".")
    measures = MEASURES.get(SPELLINGS.get(text, SPELLINGS.get(text.casefold(), text)), "")
    return "" if measures == MEASURES.get(quantity.unit) else measures

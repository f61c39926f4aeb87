"""What can be read on a gauge: each quantity with its unit, accepted spellings and plausible range."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Quantity:
    """A named quantity. `unit`: the unit values are kept in; `units`: unit as shown -> its name for Pint.

    `plausible`: lowest and highest believable value, in `unit`.
    """

    id: str
    name: str
    unit: str
    units: Mapping[str, str]
    plausible: tuple[float, float]

"""What a shop says about its own costs: its hour, its minutes, its parts. Plain values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class FigureKind(StrEnum):
    """What a figure is. Minutes of an operation or test are for one place; those of a cover to reach and restore it."""

    LABOUR_RATE = "labour rate"
    CURRENCY = "currency"
    NONE_OF_THESE = "hours when nothing listed helps"
    OPERATION = "operation minutes"
    TEST = "test minutes"
    COVER = "cover minutes"
    PART = "part price"


MINUTES = (FigureKind.OPERATION, FigureKind.TEST, FigureKind.COVER)


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of the shop.

    `about`: id of the operation, test or cover, or the part's name ("" for the shop's own). `family`: the vehicles it
    holds for, in the shop's word ("": all). `value`: hours, minutes or money; 0 for the currency, which is `words`.
    """

    kind: FigureKind
    value: float
    words: str
    about: str = ""
    family: str = ""

    @property
    def same_as(self) -> tuple[str, str, str]:
        """Two figures with the same of this say the same thing; only one of them stands."""
        return self.kind.value, self.about, self.family


@dataclass(frozen=True, slots=True)
class FigureOnFile:
    """A figure that stands, with who said it and when."""

    id: str
    version: int
    figure: Figure
    at: datetime
    by: str

"""A word a person chose and the number it stands for (the table is seed_data/rules/strengths.yaml)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import NewType

FamilyId = NewType("FamilyId", str)
CauseId = NewType("CauseId", str)
SymptomId = NewType("SymptomId", str)
TestId = NewType("TestId", str)
OperationId = NewType("OperationId", str)
DutyId = NewType("DutyId", str)
SituationId = NewType("SituationId", str)
CoverId = NewType("CoverId", str)
DefectId = NewType("DefectId", str)


@dataclass(frozen=True, slots=True)
class Rated:
    """A verbal rating and its chance."""

    word: str
    chance: float


class WordList(StrEnum):
    """The lists in strengths.yaml; a word means one number within its list."""

    STRENGTH = "shows"
    EFFECT = "gives"
    MISHAP = "raised by"
    BLIND_SHARE = "blind when"
    DAMAGE = "damages"
    FALSE_ALARM = "false alarm"
    HOW_COMMON = "how common"
    STRIKES = "strikes"


class Course(StrEnum):
    """How a symptom follows its cause in time."""

    AT_ONCE = "at once"
    GROWS = "grows with use"
    COMES_AND_GOES = "comes and goes"


class Effect(StrEnum):
    """What an operation does to a cause's part."""

    RENEWS = "renews"
    SETS = "sets"
    OPENS = "opens"

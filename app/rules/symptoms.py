"""Symptoms: what can be observed, how a customer says it, and which trouble codes stand for it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.rules.words import FamilyId, Rated, SymptomId
from app.vehicle.layout import Level


class Sense(StrEnum):
    FELT = "felt"
    HEARD = "heard"
    SEEN = "seen"
    SMELT = "smelt"
    CODE = "code"
    DATA = "data"


@dataclass(frozen=True, slots=True)
class CodePattern:
    """A generic trouble code (SAE J2012 form) that is evidence for a symptom at a place.

    `place` is a place id, or None: the vehicle's place of the symptom's level, when there is only one.
    """

    code: str
    place: str | None


@dataclass(frozen=True, slots=True)
class Symptom:
    """Something observable, present / absent / could not be reproduced, at a place of `at`.

    `kind_of`: a more general symptom this is a kind of (only the most specific present one counts).
    `conditions`: under which it shows ("hot", "idle"). `says`: customer's words. `without_fault`: how often it is
    reported with nothing wrong. `may_drive`: a sentence when driving on is in question.
    """

    id: SymptomId
    family: FamilyId
    name: str
    at: Level
    sense: Sense
    kind_of: SymptomId | None
    conditions: tuple[str, ...]
    says: tuple[str, ...]
    codes: tuple[CodePattern, ...]
    without_fault: Rated | None
    may_drive: str | None

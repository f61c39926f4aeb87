"""A symptom of a family file as a typed value."""

from __future__ import annotations

import re
from collections.abc import Mapping

from app.rules.known_ids import KnownIds
from app.rules.reading import Reading, phrase, read_level
from app.rules.section import Section
from app.rules.symptoms import CodePattern, Sense, Symptom
from app.rules.tree import Notes
from app.rules.words import SymptomId, WordList

CODE = re.compile(r"[PCBU][0-3][0-9A-F]{3}")
"""Letter of the system, 0 to 3, three hexadecimal digits (SAE J2012 / ISO 15031-6)."""
PLACE = re.compile(r"vehicle|engine|bank-[1-9]|cyl-[1-9][0-9]?|(front|rear)-axle|(front|rear)-(left|right)-wheel")


def read_symptom(name: str, section: Section, reading: Reading) -> Symptom:
    """One symptom; unknown words and codes of a wrong form are noted."""
    kind_of = section.choice("kind of", reading.ids.symptoms, "symptom") if section.has("kind of") else None
    symptom = Symptom(
        id=SymptomId(name),
        family=reading.family,
        name=section.text("name"),
        at=read_level(section, "at"),
        sense=_read_sense(section),
        kind_of=SymptomId(kind_of) if kind_of else None,
        conditions=section.texts("under"),
        says=section.texts("says"),
        codes=_read_codes(section),
        without_fault=reading.optional_rated(section, "without a fault", WordList.FALSE_ALARM),
        may_drive=section.optional_text("may it be driven"),
    )
    section.close()
    return symptom


def _read_sense(section: Section) -> Sense:
    word = section.choice("sense", list(Sense), "sense")
    return Sense(word) if word in list(Sense) else Sense.FELT


def _read_codes(section: Section) -> tuple[CodePattern, ...]:
    patterns = []
    for code, entry in section.entries("codes").items():
        place = phrase(entry.node)
        if not CODE.fullmatch(code):
            section.notes.refuse(entry.where, f"“{code}” has not the form of a trouble code.", "Write it as in P0301.")
        if place and not PLACE.fullmatch(place):
            section.notes.refuse(
                entry.where, f"“{place}” is not a place.", "Write a place such as cyl-1, bank-1, engine or front-axle."
            )
        patterns.append(CodePattern(code, place or None))
    return tuple(patterns)


def refuse_circles(symptoms: Mapping[SymptomId, Symptom], ids: KnownIds, notes: Notes) -> None:
    """Notes each symptom that is, by way of others, a kind of itself."""
    for name in symptoms:
        met: set[SymptomId] = set()
        kind: SymptomId | None = name
        while kind is not None and kind in symptoms and kind not in met:
            met.add(kind)
            kind = symptoms[kind].kind_of
        if kind == name:
            notes.refuse(ids.symptoms[name], f"“{name}” is a kind of itself.", "Break the circle of “kind of”.")

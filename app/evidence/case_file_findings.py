"""Symptoms and trouble codes of a visit in a case file."""

from __future__ import annotations

from app.evidence.case import CodesCleared, CodeSeen, CodeState, Presence, SymptomSeen
from app.evidence.case_file_visit import (
    VisitReading,
    read_day,
    read_km,
    read_place,
    read_source,
    read_visit_number,
)
from app.rules.read_symptom import CODE
from app.rules.section import Section
from app.rules.words import SymptomId
from app.vehicle.layout import VEHICLE, PlaceId


def read_symptoms(visit: Section, reading: VisitReading) -> tuple[SymptomSeen, ...]:
    return tuple(_read_symptom(section, reading) for section in visit.listed("symptoms"))


def _read_symptom(section: Section, reading: VisitReading) -> SymptomSeen:
    name = SymptomId(section.choice("symptom", reading.rules.symptoms, "symptom"))
    section.what = f"symptom “{name}”"
    seen = SymptomSeen(
        symptom=name,
        place=_symptom_place(section, name, reading),
        presence=_read_presence(section),
        source=read_source(section, here=reading.here, usual=reading.usual),
        conditions=section.texts("under"),
        note=section.optional_text("note") or "",
        absent_for_km=read_km(section, "absent for"),
        after_visit=read_visit_number(section, "after visit", last=reading.number),
    )
    _check_absence(seen, section)
    section.close()
    return seen


def _symptom_place(section: Section, name: SymptomId, reading: VisitReading) -> PlaceId:
    if name not in reading.rules.symptoms:
        section.has("at")
        return VEHICLE
    return read_place(section, "at", reading.rules.symptoms[name].at, layout=reading.layout)


def _read_presence(section: Section) -> Presence:
    if not section.has("is"):
        return Presence.PRESENT
    word = section.choice("is", list(Presence), "presence")
    return Presence(word) if word in list(Presence) else Presence.PRESENT


def _check_absence(seen: SymptomSeen, section: Section) -> None:
    if section.has("absent for") != section.has("after visit"):
        section.notes.refuse(
            section.where,
            "“absent for” and “after visit” belong together.",
            "Write both: absent for: 5000 km, after visit: 1.",
        )
    if section.has("absent for") and seen.presence is not Presence.ABSENT:
        section.refuse("absent for", "“absent for” goes with “is: absent”.", "Add “is: absent”.")


def read_codes(visit: Section, reading: VisitReading) -> tuple[CodeSeen, ...]:
    return tuple(_read_code(section, reading) for section in visit.listed("codes"))


def _read_code(section: Section, reading: VisitReading) -> CodeSeen:
    code = section.text("code").upper()
    if code and not CODE.fullmatch(code):
        section.refuse("code", f"“{code}” has not the form of a trouble code.", "Write it as in P0301.")
    word = section.choice("state", list(CodeState), "state of a code:")
    seen = CodeSeen(
        code=code,
        state=CodeState(word) if word in list(CodeState) else CodeState.PENDING,
        source=read_source(section, here=reading.here, usual=reading.usual),
        freeze_frame=_read_freeze_frame(section),
        note=section.optional_text("note") or "",
    )
    section.close()
    return seen


def _read_freeze_frame(section: Section) -> dict[str, str]:
    if not section.has("freeze frame"):
        return {}
    frame = section.section("freeze frame")
    return {name: frame.text(name) for name in frame.table.entries}


def read_cleared(visit: Section, reading: VisitReading) -> tuple[CodesCleared, ...]:
    return tuple(_read_cleared(section, reading) for section in visit.listed("codes cleared"))


def _read_cleared(section: Section, reading: VisitReading) -> CodesCleared:
    day = read_day(section, "day", today=reading.today) if section.has("day") else None
    cleared = CodesCleared(section.text("where"), read_km(section, "ago"), day)
    section.close()
    return cleared

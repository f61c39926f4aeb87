"""Symptoms and trouble codes as statements about symptoms: what, where, when, present or absent."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.evidence.case import Case, CodesCleared, CodeSeen, CodeState, Presence, Source, SymptomSeen, Visit
from app.evidence.moments import Moment, Phase
from app.rules.library import Rules
from app.rules.words import SymptomId
from app.vehicle.layout import Layout, PlaceId

KM_BEFORE_A_CLEAN_SCAN_COUNTS = 100.0
"""After clearing, a code that is not there says nothing until its monitor has run (common practice: some drives)."""


@dataclass(frozen=True, slots=True)
class Statement:
    """Somebody said that a symptom was there, or looked and it was not."""

    symptom: SymptomId
    place: PlaceId
    at: Moment
    present: bool
    source: Source
    entry: str


def statements(case: Case, rules: Rules) -> tuple[tuple[Statement, ...], tuple[str, ...]]:
    """All statements in order of time, and what is not in the rules."""
    said: list[Statement] = []
    missing: list[str] = []
    for visit in case.visits:
        known = [seen for seen in visit.symptoms if seen.symptom in rules.symptoms]
        missing.extend(f"Symptom “{s.symptom}” (visit {visit.number})" for s in visit.symptoms if s not in known)
        said.extend(s for seen in known for s in _from_symptom(seen, visit))
        for code in visit.codes:
            found = tuple(_from_code(code, visit, rules, case.vehicle.layout))
            if not found and code.state is not CodeState.ABSENT:
                missing.append(f"Trouble code {code.code} (visit {visit.number})")
            said.extend(found)
    said.sort(key=lambda s: s.at)
    return tuple(said), tuple(missing)


def _from_symptom(seen: SymptomSeen, visit: Visit) -> Iterable[Statement]:
    """Tried and not reproduced is not absent: it says nothing."""
    entry = seen.entry or f"visit {visit.number}, {seen.symptom}"
    quiet_first = seen.absent_for_km is not None and seen.after_visit is not None
    if quiet_first and seen.after_visit is not None:
        quiet = Moment(seen.after_visit, Phase.ON_THE_ROAD)
        yield Statement(seen.symptom, seen.place, quiet, False, seen.source, f"{entry}, absent at first")
    present = seen.presence is Presence.PRESENT
    if present or (seen.presence is Presence.ABSENT and not quiet_first):
        yield Statement(seen.symptom, seen.place, Moment(visit.number, Phase.FOUND), present, seen.source, entry)


def _from_code(code: CodeSeen, visit: Visit, rules: Rules, layout: Layout) -> Iterable[Statement]:
    present = code.state is not CodeState.ABSENT
    if not present and any(_too_fresh(cleared) for cleared in visit.cleared):
        return
    entry = code.entry or f"visit {visit.number}, {code.code}"
    for symptom, place in rules.meanings_of(code.code, layout):
        yield Statement(symptom, place, Moment(visit.number, Phase.FOUND), present, code.source, entry)


def _too_fresh(cleared: CodesCleared) -> bool:
    return cleared.km_ago is None or cleared.km_ago < KM_BEFORE_A_CLEAN_SCAN_COUNTS

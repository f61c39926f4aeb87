"""What an entry says, in one line of trade language; used by timeline, board and half-page alike."""

from __future__ import annotations

from typing import assert_never

from app.board.words import capital, places_in_words
from app.evidence.case import (
    CodesCleared,
    CodeSeen,
    DefectSeen,
    DutyDone,
    Job,
    Outcome,
    Part,
    Presence,
    ProofRun,
    Reading,
    Result,
    ScanSeen,
    Source,
    Specification,
    SymptomSeen,
)
from app.history.values import Said
from app.measurements.numbers import write_number
from app.rules.library import Rules
from app.rules.words import TestId
from app.vehicle.layout import ENGINE, VEHICLE, Layout, PlaceId
from app.web.views.said_of_proof import run_in_words, scan_in_words

SOURCES = {
    Source.MEASURED_HERE: "measured here",
    Source.SEEN_HERE: "seen here",
    Source.PAPER: "on paper",
    Source.TOLD: "as told",
    Source.TRACES: "from traces",
}
PRESENCES = {
    Presence.PRESENT: "present",
    Presence.ABSENT: "looked for, absent",
    Presence.NOT_REPRODUCED: "tried, could not be reproduced",
}


def say(said: Said, layout: Layout, rules: Rules) -> str:
    """The entry in words, without its source."""
    match said:
        case SymptomSeen():
            return _symptom(said, layout, rules)
        case CodeSeen():
            return _code(said)
        case CodesCleared():
            return _cleared(said)
        case Result():
            return _result(said, layout, rules)
        case Job():
            return _job(said, layout, rules)
        case DutyDone():
            return _duty(said, rules)
        case ProofRun():
            return run_in_words(said)
        case ScanSeen():
            return scan_in_words(said, rules)
        case DefectSeen():
            return _defect(said, layout, rules)
        case _:
            assert_never(said)


def source_of(said: Said) -> str:
    """How we know it, in words; codes cleared carry no source of their own."""
    return "" if isinstance(said, CodesCleared) else SOURCES[said.source]


def is_whole(place: PlaceId) -> bool:
    """Whether a place need not be named: the whole vehicle, or its engine."""
    return place in (VEHICLE, ENGINE)


def at_place(place: PlaceId, layout: Layout) -> str:
    """ ", cylinder 3"; nothing for the whole vehicle or engine."""
    return "" if is_whole(place) else f", {layout.in_words(place)}"


def sentence(text: str) -> str:
    """The text with a capital and a full stop."""
    text = text.strip()
    return f"{capital(text)}{'' if text.endswith(('.', '!', '?')) else '.'}" if text else ""


def test_name(id: str, rules: Rules) -> str:
    test = rules.tests.get(TestId(id))
    return test.name if test else id


def outcome_words(test_id: str, outcome: Outcome, rules: Rules) -> str:
    """How this test says its outcome."""
    test = rules.tests.get(TestId(test_id))
    match outcome:
        case Outcome.NORMAL:
            return test.normal_word if test else "normal"
        case Outcome.ABNORMAL:
            return test.abnormal_word if test else "abnormal"
        case Outcome.UNCERTAIN:
            return "too near the limit to say"
        case _:
            assert_never(outcome)


def _symptom(said: SymptomSeen, layout: Layout, rules: Rules) -> str:
    symptom = rules.symptoms.get(said.symptom)
    name = symptom.name if symptom else said.symptom
    under = f" ({', '.join(said.conditions)})" if said.conditions else ""
    return f"{name}{at_place(said.place, layout)}{under}: {_presence(said)}{_note(said.note)}"


def _presence(said: SymptomSeen) -> str:
    if said.absent_for_km is None:
        return PRESENCES[said.presence]
    after = f" after visit {said.after_visit}" if said.after_visit else ""
    return f"{PRESENCES[said.presence]}; absent for {said.absent_for_km:,.0f} km{after}"


def _code(said: CodeSeen) -> str:
    frame = (
        f"; freeze frame: {', '.join(f'{k} {v}' for k, v in said.freeze_frame.items())}" if said.freeze_frame else ""
    )
    return f"{said.code} {said.state.value}{frame}{_note(said.note)}"


def _cleared(said: CodesCleared) -> str:
    ago = "" if said.km_ago is None else f", {said.km_ago:,.0f} km before they were read"
    day = f" on {said.day:%-d %b %Y}" if said.day else ""
    return f"codes cleared: {said.where or 'place not known'}{day}{ago}"


def _result(said: Result, layout: Layout, rules: Rules) -> str:
    words = outcome_words(said.test, said.outcome, rules)
    figures = _figures(said.reading, said.specification)
    name = test_name(said.test, rules)
    situations = [rules.situations[s].name for s, given in said.situations.items() if given and s in rules.situations]
    circumstances = "".join(f"; {name}" for name in situations) + ("; after the work" if said.after_work else "")
    return f"{name}{at_place(said.place, layout)}: {words}{figures}{circumstances}{_note(said.note)}"


def _figures(reading: Reading | None, specification: Specification | None) -> str:
    if reading is None:
        return ""
    return f" ({reading.typed}{_limits(specification, reading.unit)})"


def _limits(specification: Specification | None, unit: str) -> str:
    if specification is None:
        return ""
    low, high = (None if x is None else write_number(x) for x in (specification.low, specification.high))
    match low, high:
        case None, None:
            return ""
        case None, _:
            bounds = f"at most {high}"
        case _, None:
            bounds = f"at least {low}"
        case _:
            bounds = f"{low} to {high}"
    return f"; allowed {bounds} {unit}, {specification.source}"


def job_name(said: Job, layout: Layout, rules: Rules) -> str:
    """The operation and where it was done."""
    operation = rules.operations.get(said.operation)
    name = operation.name if operation else said.operation
    places = tuple(place for place in said.places if not is_whole(place))
    return f"{name}, {places_in_words(places, layout)}" if places else name


def _job(said: Job, layout: Layout, rules: Rules) -> str:
    parts = f"; parts: {', '.join(_part(part) for part in said.parts)}" if said.parts else ""
    return f"{job_name(said, layout, rules)}{parts}{_note(said.note)}"


def _part(part: Part) -> str:
    facts = [
        f"number {part.number}" if part.number else "",
        part.kind,
        f"date code {part.date_code}" if part.date_code else "",
    ]
    facts += ["receipt seen"] if part.receipt else []
    known = ", ".join(fact for fact in facts if fact)
    return f"{part.name} ({known})" if known else part.name


def _duty(said: DutyDone, rules: Rules) -> str:
    duty = next((d for op in rules.operations.values() for d in op.duties if d.id == said.duty), None)
    return f"{duty.text if duty else said.duty}: {said.state.value}{_note(said.note)}"


def _defect(said: DefectSeen, layout: Layout, rules: Rules) -> str:
    kind = rules.defects.get(said.kind)
    name = kind.name if kind else said.kind
    words = f": {said.words.rstrip('.')}" if said.words else ""
    return f"{name}{at_place(said.place, layout)}{words}{_left_by(said, rules)}{_note(said.note)}"


def _left_by(said: DefectSeen, rules: Rules) -> str:
    if said.after is None:
        return ""
    operation = rules.operations.get(said.after.operation)
    return f"; likely left by: {operation.name if operation else said.after.operation} (visit {said.after.visit})"


def _note(note: str) -> str:
    return f". {note}" if note else ""

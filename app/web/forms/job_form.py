"""Recording a job with its parts and duties, and later what was seen of a job's duty."""

from __future__ import annotations

from dataclasses import dataclass

from app.board.words import capital
from app.evidence.case import DutyDone, DutyState, Job, Part, Source
from app.history.values import Entry, EntryKind
from app.problem import Problem
from app.rules.operations import Duty, Operation
from app.rules.words import DutyId, OperationId
from app.vehicle.layout import PlaceId
from app.web.forms.evidence_fields import (
    About,
    EvidenceFields,
    EvidenceSent,
    Known,
    evidence_fields,
    one_of,
    place_options,
    read_common,
)
from app.web.forms.fields import NONE, Field, FieldMaker, Problems, too_long
from app.web.views.said import say, sentence

PART_LINES = ("1", "2", "3")
STATES = (
    (DutyState.VERIFIED.value, "verified"),
    (DutyState.FOUND_WRONG.value, "found wrong"),
    (DutyState.NOT_CHECKED.value, "not checked"),
    (DutyState.NOT_APPLICABLE.value, "does not apply"),
)


class JobSent(EvidenceSent):
    """Places come as `at_<place>`, duties as `duty_<id>`, parts as `part_1_name`, `part_1_number` …"""

    operation: str = ""


@dataclass(frozen=True, slots=True)
class PartFields:
    name: Field
    number: Field
    kind: Field
    date_code: Field
    receipt: Field


@dataclass(frozen=True, slots=True)
class JobEntry:
    operation: str
    name: str
    places: Field | None
    part: PartFields
    more_parts: tuple[PartFields, ...]
    more_open: bool
    duties: tuple[Field, ...]
    cautions: tuple[str, ...]
    common: EvidenceFields


def job_entry(sent: JobSent, around: About, *, problems: Problems = NONE) -> JobEntry:
    """The form for the operation chosen."""
    operation = _operation(sent, around)
    make = FieldMaker("job", problems, focus_on="at_")
    options = place_options(around.layout, operation.at)
    parts = tuple(_part_fields(make, sent, line) for line in PART_LINES)
    return JobEntry(
        operation=operation.id,
        name=capital(operation.name),
        places=make.choice("at_", "Where?", options=options, chosen=sent.ticked("at_")) if len(options) > 1 else None,
        part=parts[0],
        more_parts=parts[1:],
        more_open=any(sent.extra(f"part_{line}_") for line in PART_LINES[1:]),
        duties=tuple(_duty_field(make, sent, duty) for duty in around.rules.duties_on(operation, around.layout)),
        cautions=tuple(sentence(one) for one in operation.cautions),
        common=evidence_fields(make, sent, around=around, usual=Source.SEEN_HERE, timed=True),
    )


def knows_operation(sent: JobSent, around: About) -> bool:
    return sent.operation in around.rules.operations


def read_job(sent: JobSent, around: About) -> tuple[Job, Known] | Problems:
    """The job with its visit and minutes, or everything that is wrong."""
    operation = _operation(sent, around)
    known, problems = read_common(sent, around)
    places = _places(sent, around, operation=operation, problems=problems)
    parts = _parts(sent, problems)
    visit = around.visit(known.visit)
    duties = _duties(sent, operation, known=known, seen_at=visit.number if visit else 0)
    if problems:
        return Problems(problems)
    return Job(operation.id, places, known.source, parts=parts, duties=duties, note=known.note), known


def _operation(sent: JobSent, around: About) -> Operation:
    return around.rules.operations[OperationId(sent.operation)]


def _part_fields(make: FieldMaker, sent: JobSent, line: str) -> PartFields:
    typed = sent.extra(f"part_{line}_")
    name = f"part_{line}_"
    return PartFields(
        name=make.line(f"{name}name", f"Part {line}", value=typed.get("name", "")),
        number=make.line(f"{name}number", "Part number", value=typed.get("number", "")),
        kind=make.line(f"{name}kind", "Type", value=typed.get("kind", ""), hint="Such as: new, rebuilt, used."),
        date_code=make.line(f"{name}date_code", "Date code", value=typed.get("date_code", "")),
        receipt=make.choice(
            f"{name}",
            "Proof",
            options=[("receipt", "receipt seen")],
            chosen=["receipt"] if typed.get("receipt") else [],
        ),
    )


def _duty_field(make: FieldMaker, sent: JobSent, duty: Duty) -> Field:
    chosen = sent.extra("duty_").get(duty.id, DutyState.NOT_CHECKED.value)
    return make.choice(
        f"duty_{duty.id}", sentence(duty.text), options=STATES, chosen=chosen, hint=sentence(duty.consequence)
    )


def _places(sent: JobSent, around: About, *, operation: Operation, problems: list[Problem]) -> tuple[PlaceId, ...]:
    places = around.layout.places(operation.at)
    ticked = sent.ticked("at_")
    if len(places) == 1:
        return places
    if not ticked or not set(ticked) <= set(places):
        problems.append(
            Problem(
                "at_",
                "The place is missing." if not ticked else "One of these places is not on this vehicle.",
                "Choose where.",
            )
        )
    return tuple(place for place in places if place in ticked)


def _parts(sent: JobSent, problems: list[Problem]) -> tuple[Part, ...]:
    lines = [sent.extra(f"part_{line}_") for line in PART_LINES]
    for line, typed in zip(PART_LINES, lines, strict=True):
        for name, value in typed.items():
            problems += too_long(f"part_{line}_{name}", value)
        if not typed.get("name", "").strip() and any(
            typed.get(name, "").strip() for name in ("number", "kind", "date_code")
        ):
            problems.append(Problem(f"part_{line}_name", "The part has no name.", "Say what was fitted."))
    return tuple(_part(typed) for typed in lines if typed.get("name", "").strip())


def _part(typed: dict[str, str]) -> Part:
    kept = {name: typed.get(name, "").strip() for name in ("name", "number", "kind", "date_code")}
    return Part(**kept, receipt=bool(typed.get("receipt")))


def _duties(sent: JobSent, operation: Operation, *, known: Known, seen_at: int) -> tuple[DutyDone, ...]:
    answers = sent.extra("duty_")
    states = {duty.id: one_of(DutyState, answers.get(duty.id, "")) for duty in operation.duties}
    told = (DutyState.NOT_CHECKED, None)
    return tuple(
        DutyDone(id, state, known.source, seen_at) for id, state in states.items() if state and state not in told
    )


class DutySent(EvidenceSent):
    """`state` is the button pressed."""

    job: str = ""
    duty: str = ""
    state: str = ""


@dataclass(frozen=True, slots=True)
class DutyEntry:
    """What was seen later of a duty of a job on file."""

    job: str
    what: str
    duty: Field
    state: Field
    common: EvidenceFields


def duty_entry(sent: DutySent, around: About, *, problems: Problems = NONE) -> DutyEntry:
    job = job_on_file(sent.job, around)
    assert job is not None
    make = FieldMaker("duty", problems, focus_on="duty")
    duties = [(duty.id, duty.text) for duty in _duties_of(job, around)]
    return DutyEntry(
        job=job.id,
        what=say(job.said, around.layout, around.rules),
        duty=make.choice("duty", "Which duty?", options=duties, chosen=sent.duty),
        state=make.choice("state", "How was it found?", options=STATES, chosen=sent.state),
        common=evidence_fields(make, sent, around=around, usual=Source.SEEN_HERE),
    )


def read_duty(sent: DutySent, around: About) -> tuple[DutyDone, Known] | Problems:
    """What was seen of a duty, or everything that is wrong."""
    job = job_on_file(sent.job, around)
    assert job is not None
    known, problems = read_common(sent, around)
    if sent.duty not in {duty.id for duty in _duties_of(job, around)}:
        problems.append(Problem("duty", "The duty is missing.", "Choose one."))
    state = one_of(DutyState, sent.state)
    if state is None:
        problems.append(Problem("state", "It is not said how it was found.", "Choose one."))
    visit = around.visit(known.visit)
    if problems or state is None or visit is None:
        return Problems(problems)
    return DutyDone(DutyId(sent.duty), state, known.source, visit.number, note=known.note), known


def job_on_file(id: str, around: About) -> Entry | None:
    """A job of this case that stands."""
    return next((entry for entry in jobs_on_file(around) if entry.id == id), None)


def jobs_on_file(around: About) -> tuple[Entry, ...]:
    entries = [entry for visit in around.timeline.visits if visit.id in around.visit_ids for entry in visit.entries]
    ours = (None, around.case_id)
    return tuple(e for e in entries if e.kind is EntryKind.JOB and e.struck is None and e.at.case in ours)


def _duties_of(job: Entry, around: About) -> tuple[Duty, ...]:
    operation = around.rules.operations.get(job.said.operation) if isinstance(job.said, Job) else None
    return around.rules.duties_on(operation, around.layout) if operation else ()

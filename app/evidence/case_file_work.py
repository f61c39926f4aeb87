"""Jobs of a visit in a case file: operations done, parts fitted, duties looked after; and defects come upon."""

from __future__ import annotations

from collections.abc import Iterator

from app.evidence.case import DefectSeen, DutyDone, DutyState, Job, JobNamed, Part, Source
from app.evidence.case_file_visit import VisitReading, place_among, read_places, read_source, read_visit_number
from app.rules.operations import Operation
from app.rules.section import Section
from app.rules.words import DefectId, DutyId, OperationId


def read_jobs(visit: Section, reading: VisitReading) -> tuple[Job, ...]:
    return tuple(job for section in visit.listed("jobs") for job in _read_job(section, reading))


def _read_job(section: Section, reading: VisitReading) -> Iterator[Job]:
    name = section.choice("operation", reading.rules.operations, "operation")
    if name not in reading.rules.operations:
        return
    section.what = f"operation “{name}”"
    operation = reading.rules.operations[OperationId(name)]
    source = read_source(section, here=True, usual=reading.usual)
    job = Job(
        operation=operation.id,
        places=read_places(section, "at", operation.at, layout=reading.layout),
        source=source,
        parts=tuple(_read_part(part) for part in section.listed("parts")),
        duties=_read_duties(section, operation, source, reading=reading),
        note=section.optional_text("note") or "",
    )
    section.close()
    yield job


def _read_part(section: Section) -> Part:
    part = Part(
        name=section.text("name"),
        number=section.optional_text("number") or "",
        kind=section.optional_text("kind") or "",
        date_code=section.optional_text("date code") or "",
        receipt=section.yes("receipt"),
    )
    section.close()
    return part


def _read_duties(
    section: Section, operation: Operation, source: Source, *, reading: VisitReading
) -> tuple[DutyDone, ...]:
    """Each duty with its state: one word, or a table that also says how, when and where it was seen."""
    if not section.has("duties"):
        return ()
    duties = section.section("duties")
    known = [duty.id for duty in operation.duties]
    read = []
    for name, entry in duties.table.entries.items():
        duties.known(name, known, kind=f"duty of “{operation.id}”:", where=entry.where)
        node = entry.node
        if hasattr(node, "entries"):
            read.append(_read_duty(name, duties.within(entry, f"duty “{name}”", name), source, reading=reading))
        else:
            state = _read_state(duties, name)
            read.append(DutyDone(DutyId(name), state, source, reading.number))
    return tuple(read)


def _read_duty(name: str, section: Section, source: Source, *, reading: VisitReading) -> DutyDone:
    done = DutyDone(
        duty=DutyId(name),
        state=_read_state(section, "state"),
        source=read_source(section, here=True, usual=source),
        seen_at_visit=_seen_at(section, reading),
        note=section.optional_text("note") or "",
    )
    section.close()
    return done


def _seen_at(section: Section, reading: VisitReading) -> int:
    """The visit at which the duty was looked at: this one, or a later one."""
    typed = section.optional_text("at visit")
    if typed is None:
        return reading.number
    if typed.isascii() and typed.isdigit() and reading.number <= int(typed[:4]):
        return int(typed)
    section.refuse("at visit", f"“{typed}” is not this visit or a later one.", "Give the visit's number.")
    return reading.number


def _read_state(section: Section, key: str) -> DutyState:
    word = section.choice(key, list(DutyState), "state of a duty:")
    return DutyState(word) if word in list(DutyState) else DutyState.NOT_CHECKED


def read_defects(visit: Section, reading: VisitReading) -> tuple[DefectSeen, ...]:
    return tuple(defect for section in visit.listed("defects") for defect in _read_defect(section, reading))


def _read_defect(section: Section, reading: VisitReading) -> Iterator[DefectSeen]:
    name = section.choice("kind", reading.rules.defects, "kind of defect")
    if name not in reading.rules.defects:
        return
    section.what = f"defect “{name}”"
    kind = reading.rules.defects[DefectId(name)]
    defect = DefectSeen(
        kind=kind.id,
        place=place_among(section, "at", reading.rules.defect_places(kind, reading.layout), layout=reading.layout),
        source=read_source(section, here=reading.here, usual=reading.usual),
        words=section.optional_text("words") or "",
        after=_read_after(section, reading),
        note=section.optional_text("note") or "",
    )
    section.close()
    yield defect


def _read_after(section: Section, reading: VisitReading) -> JobNamed | None:
    """The job that is likely to have left it behind: its visit, this one unless said, and its operation."""
    if not section.has("after job"):
        return None
    after = section.section("after job")
    visit = read_visit_number(after, "visit", last=reading.number) or reading.number
    operation = after.choice("operation", reading.rules.operations, "operation")
    after.close()
    return JobNamed(visit, OperationId(operation))

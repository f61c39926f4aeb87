"""Rows of evidence → plain entries, for a case and for a vehicle's timeline alike."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from sqlmodel import Session, col, select

from app.evidence.case import (
    CodesCleared,
    CodeSeen,
    CodeState,
    DefectSeen,
    DutyDone,
    DutyState,
    Job,
    JobNamed,
    MonitorState,
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
from app.history.tables.findings import ClearedRow, CodeRow, ResultRow, SymptomRow
from app.history.tables.proof import ProofRunRow, ScanRow
from app.history.tables.stamped import EvidenceEntry, Strikeable
from app.history.tables.work import DefectRow, DutyRow, JobRow, PartRow
from app.history.values import At, Entry, EntryKind, Said, Struck
from app.rules.words import DefectId, DutyId, OperationId, SituationId, SymptomId, TestId
from app.vehicle.layout import PlaceId

TABLES: Mapping[EntryKind, type[EvidenceEntry]] = {
    EntryKind.SYMPTOM: SymptomRow,
    EntryKind.CODE: CodeRow,
    EntryKind.CLEARED: ClearedRow,
    EntryKind.RESULT: ResultRow,
    EntryKind.JOB: JobRow,
    EntryKind.DUTY: DutyRow,
    EntryKind.RUN: ProofRunRow,
    EntryKind.SCAN: ScanRow,
    EntryKind.DEFECT: DefectRow,
}


@dataclass(frozen=True, slots=True)
class Around:
    """What an entry's row refers to: visits by number, people by name, a job's parts and its duties that stand.

    `jobs`: how people name the jobs that stand.
    """

    numbers: Mapping[str, int]
    names: Mapping[str, str]
    parts: Mapping[str, Sequence[PartRow]]
    duties: Mapping[str, Sequence[DutyRow]]
    jobs: Mapping[str, JobNamed]


def read_entries(
    session: Session, site: str, *, numbers: Mapping[str, int], names: Mapping[str, str]
) -> dict[str, tuple[Entry, ...]]:
    """All entries of these visits, by visit, in the order they were recorded: ten selects, however many visits."""
    rows = {kind: _rows(session, table, site, numbers) for kind, table in TABLES.items()}
    around = Around(
        numbers=numbers,
        names=names,
        parts=_by_job(_parts(session, site, [row.id for row in rows[EntryKind.JOB]])),
        duties=_by_job(row for row in rows[EntryKind.DUTY] if isinstance(row, DutyRow) and row.voided_at is None),
        jobs={
            row.id: JobNamed(numbers[row.visit_id], OperationId(row.operation))
            for row in rows[EntryKind.JOB]
            if isinstance(row, JobRow) and row.voided_at is None
        },
    )
    entries = [entry_of(kind, row, around) for kind, found in rows.items() for row in found]
    by_visit: dict[str, list[Entry]] = defaultdict(list)
    for entry in sorted(entries, key=lambda entry: (entry.recorded_at, entry.id)):
        by_visit[entry.at.visit].append(entry)
    return {visit: tuple(found) for visit, found in by_visit.items()}


def _rows(session: Session, table: type[EvidenceEntry], site: str, visits: Iterable[str]) -> Sequence[EvidenceEntry]:
    query = select(table).where(col(table.site_id) == site, col(table.visit_id).in_(list(visits)))
    return session.exec(query.order_by(col(table.recorded_at), col(table.id))).all()


def _parts(session: Session, site: str, jobs: Sequence[str]) -> Sequence[PartRow]:
    query = select(PartRow).where(col(PartRow.site_id) == site, col(PartRow.job_id).in_(jobs))
    return session.exec(query.order_by(col(PartRow.position))).all()


Belonging = TypeVar("Belonging", PartRow, DutyRow)


def _by_job(rows: Iterable[Belonging]) -> dict[str, list[Belonging]]:
    by_job: dict[str, list[Belonging]] = defaultdict(list)
    for row in rows:
        by_job[row.job_id].append(row)
    return by_job


def entry_of(kind: EntryKind, row: EvidenceEntry, around: Around) -> Entry:
    return Entry(
        kind=kind,
        id=row.id,
        version=row.version,
        at=At(row.visit_id, row.case_id),
        said=said_by(row, around),
        minutes=row.minutes if isinstance(row, ResultRow | JobRow) else None,
        recorded_at=row.recorded_at,
        recorded_by=around.names.get(row.recorded_by, row.recorded_by),
        struck=struck(row, around.names),
        job=row.job_id if isinstance(row, DutyRow | DefectRow) else None,
    )


def struck(row: Strikeable, names: Mapping[str, str]) -> Struck | None:
    if row.voided_at is None or row.voided_by is None:
        return None
    return Struck(row.voided_at, names.get(row.voided_by, row.voided_by), row.void_reason)


def said_by(row: EvidenceEntry, around: Around) -> Said:
    match row:
        case SymptomRow():
            return _symptom(row, around)
        case CodeRow():
            return _code(row)
        case ClearedRow():
            return CodesCleared(row.cleared_where, row.km_ago, row.day, entry=row.id)
        case ResultRow():
            return _result(row)
        case JobRow():
            return _job(row, around)
        case DutyRow():
            return _duty(row, around)
        case ProofRunRow():
            return _run(row)
        case ScanRow():
            return _scan(row)
        case DefectRow():
            return _defect(row, around)
        case _:
            raise TypeError(type(row).__name__)


def _symptom(row: SymptomRow, around: Around) -> SymptomSeen:
    return SymptomSeen(
        symptom=SymptomId(row.symptom),
        place=PlaceId(row.place),
        presence=Presence(row.presence),
        source=Source(row.source),
        conditions=tuple(row.conditions),
        note=row.note,
        absent_for_km=row.absent_for_km,
        after_visit=None if row.after_visit_id is None else around.numbers.get(row.after_visit_id),
        entry=row.id,
    )


def _code(row: CodeRow) -> CodeSeen:
    return CodeSeen(
        code=row.code,
        state=CodeState(row.state),
        source=Source(row.source),
        freeze_frame=row.freeze_frame,
        note=row.note,
        entry=row.id,
    )


def _result(row: ResultRow) -> Result:
    return Result(
        test=TestId(row.test),
        place=PlaceId(row.place),
        outcome=Outcome(row.outcome),
        source=Source(row.source),
        reading=_reading(row),
        specification=_specification(row),
        weights=_weights(row),
        situations={SituationId(name): given for name, given in row.situations.items()},
        after_work=row.after_work,
        note=row.note,
        entry=row.id,
    )


def _reading(row: ResultRow) -> Reading | None:
    if row.reading_value is None or row.reading_unit is None:
        return None
    return Reading(row.reading_typed or "", row.reading_value, row.reading_unit, row.reading_resolution or 0.0)


def _specification(row: ResultRow) -> Specification | None:
    if row.specification_source is None:
        return None
    return Specification(row.low, row.high, row.specification_source)


def _weights(row: ResultRow) -> tuple[float, float] | None:
    if row.weight_abnormal is None or row.weight_normal is None:
        return None
    return row.weight_abnormal, row.weight_normal


def _job(row: JobRow, around: Around) -> Job:
    """A duty seen at a visit that is not among these (struck out, or of another case) is left out."""
    return Job(
        operation=OperationId(row.operation),
        places=tuple(PlaceId(place) for place in row.places),
        source=Source(row.source),
        parts=tuple(
            Part(part.name, part.number, part.kind, part.date_code, part.receipt)
            for part in around.parts.get(row.id, ())
        ),
        duties=tuple(_duty(duty, around) for duty in around.duties.get(row.id, ()) if duty.visit_id in around.numbers),
        note=row.note,
        entry=row.id,
    )


def _duty(row: DutyRow, around: Around) -> DutyDone:
    return DutyDone(
        duty=DutyId(row.duty),
        state=DutyState(row.state),
        source=Source(row.source),
        seen_at_visit=around.numbers.get(row.visit_id, 0),
        note=row.note,
        photo=row.photo,
        entry=row.id,
    )


def _defect(row: DefectRow, around: Around) -> DefectSeen:
    """The job named for it is left out where it was struck out or belongs to another case."""
    return DefectSeen(
        kind=DefectId(row.kind),
        place=PlaceId(row.place),
        source=Source(row.source),
        words=row.words,
        after=None if row.job_id is None else around.jobs.get(row.job_id),
        note=row.note,
        photo=row.photo,
        entry=row.id,
    )


def _run(row: ProofRunRow) -> ProofRun:
    return ProofRun(
        day=row.day,
        came_back=row.came_back,
        source=Source(row.source),
        conditions=tuple(row.conditions),
        ordinary=row.ordinary,
        km=row.km,
        minutes=row.minutes,
        starts=row.starts,
        cycles=row.cycles,
        route=row.route,
        note=row.note,
        entry=row.id,
    )


def _scan(row: ScanRow) -> ScanSeen:
    return ScanSeen(
        day=row.day,
        source=Source(row.source),
        monitors={id: MonitorState(word) for id, word in row.monitors.items()},
        codes={code: CodeState(word) for code, word in row.codes.items()},
        cleared=row.cleared,
        note=row.note,
        entry=row.id,
    )

"""Writing what was observed and done. An entry is appended or struck out, never changed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlmodel import col, select

from app.evidence.case import CodesCleared, CodeSeen, DefectSeen, DutyDone, DutyState, Job, Result, Source, SymptomSeen
from app.history.errors import Changed, NotHere
from app.history.read_case import visits_of_case
from app.history.read_timeline import visits_of_vehicle
from app.history.read_vehicle import read_vehicle
from app.history.tables.findings import ClearedRow, CodeRow, ResultRow, SymptomRow
from app.history.tables.visits import VisitRow
from app.history.tables.work import DefectRow, DutyRow, JobRow, PartRow
from app.history.values import At
from app.history.write_visits import VisitWrites
from app.problem import Problem, Refused
from app.vehicle.layout import PlaceId


class EvidenceWrites(VisitWrites):
    """The part of the desk where evidence is filed. Each call answers with the entry's id.

    An entry that comes with an id already stored is answered as saved: sending twice records once.
    """

    __slots__ = ()

    def record_symptom(self, at: At, said: SymptomSeen) -> str:
        if self.recorded(SymptomRow, said.entry):
            return said.entry
        self._check(at, (said.place,))
        row = SymptomRow(
            **self._entry(at, said.entry, source=said.source, note=said.note),
            symptom=said.symptom,
            place=said.place,
            presence=said.presence.value,
            conditions=list(said.conditions),
            absent_for_km=said.absent_for_km,
            after_visit_id=None if said.after_visit is None else self._visit_numbered(at, said.after_visit),
        )
        return self.file(row, "recorded a symptom", said=said.symptom)

    def record_code(self, at: At, said: CodeSeen) -> str:
        if self.recorded(CodeRow, said.entry):
            return said.entry
        self._check(at, ())
        row = CodeRow(
            **self._entry(at, said.entry, source=said.source, note=said.note),
            code=said.code,
            state=said.state.value,
            freeze_frame=dict(said.freeze_frame),
        )
        return self.file(row, "recorded a trouble code", said=said.code)

    def record_cleared(self, at: At, said: CodesCleared, *, source: Source) -> str:
        if self.recorded(ClearedRow, said.entry):
            return said.entry
        self._check(at, ())
        row = ClearedRow(
            **self._entry(at, said.entry, source=source, note=""),
            cleared_where=said.where,
            km_ago=said.km_ago,
            day=said.day,
        )
        return self.file(row, "recorded that codes had been cleared")

    def record_result(self, at: At, said: Result, *, minutes: float | None = None) -> str:
        if self.recorded(ResultRow, said.entry):
            return said.entry
        self._check(at, (said.place,))
        row = ResultRow(
            **self._entry(at, said.entry, source=said.source, note=said.note),
            **_measured(said),
            test=said.test,
            place=said.place,
            outcome=said.outcome.value,
            situations={str(name): given for name, given in said.situations.items()},
            after_work=said.after_work,
            minutes=minutes,
        )
        return self.file(row, "recorded a result", said=said.test)

    def record_job(self, at: At, said: Job, *, minutes: float | None = None) -> str:
        """File a job with its parts, and what is known of its duties (each at the visit it was seen at)."""
        if self.recorded(JobRow, said.entry):
            return said.entry
        self._check(at, said.places)
        row = JobRow(
            **self._entry(at, said.entry, source=said.source, note=said.note),
            operation=said.operation,
            places=list(said.places),
            minutes=minutes,
        )
        job_id = self.file(row, "recorded a job", said=said.operation)
        self._file_parts(job_id, said)
        for duty in said.duties:
            seen_at = At(self._visit_numbered(at, duty.seen_at_visit), at.case)
            self.record_duty(seen_at, job_id, duty)
        return job_id

    def _file_parts(self, job_id: str, said: Job) -> None:
        for position, part in enumerate(said.parts):
            self.session.add(
                PartRow(
                    **self.stamp(),
                    job_id=job_id,
                    position=position,
                    name=part.name,
                    number=part.number,
                    kind=part.kind,
                    date_code=part.date_code,
                    receipt=part.receipt,
                )
            )
        self.session.flush()

    def record_duty(self, at: At, job_id: str, said: DutyDone, *, seen: Sequence[str] | None = None) -> str:
        """File what was seen of a job's duty. `at.visit` is the visit at which it was seen.

        `seen`: the entries on this duty that were known when it was looked at; refused as `Changed` (with the state it
        says now) where another has come since.
        """
        if self.recorded(DutyRow, said.entry):
            return said.entry
        self._check(at, ())
        self._check_job(at, job_id)
        self._check_seen(job_id, said, seen)
        row = DutyRow(
            **self._entry(at, said.entry, source=said.source, note=said.note),
            job_id=job_id,
            duty=said.duty,
            state=said.state.value,
            photo=said.photo,
        )
        return self.file(row, "recorded a duty", said=said.duty)

    def record_defect(self, at: At, said: DefectSeen, *, job_id: str | None = None) -> str:
        """File a defect somebody came upon; `job_id`: the job that is likely to have left it behind."""
        if self.recorded(DefectRow, said.entry):
            return said.entry
        self._check(at, (said.place,))
        if job_id is not None:
            self._check_job(at, job_id)
        row = DefectRow(
            **self._entry(at, said.entry, source=said.source, note=said.note),
            kind=said.kind,
            place=said.place,
            words=said.words.strip(),
            job_id=job_id,
            photo=said.photo,
        )
        return self.file(row, "recorded a defect", said=said.kind)

    def _check_seen(self, job_id: str, said: DutyDone, seen: Sequence[str] | None) -> None:
        if seen is None:
            return
        query = select(DutyRow).where(
            col(DutyRow.site_id) == self.site,
            col(DutyRow.job_id) == job_id,
            col(DutyRow.duty) == said.duty,
            col(DutyRow.voided_at).is_(None),
        )
        since = [row for row in self.session.exec(query) if row.id not in seen]
        if since:
            raise Changed(DutyState(max(since, key=lambda row: row.recorded_at).state))

    def _entry(self, at: At, entry_id: str, *, source: Source, note: str) -> dict[str, Any]:
        placed = {"visit_id": at.visit, "case_id": at.case, "source": source.value, "note": note.strip()}
        return {**self.stamp(entry_id), **placed}

    def _check(self, at: At, places: Iterable[PlaceId]) -> None:
        """The visit stands, belongs to the case's vehicle (and is joined to the case), and the places exist on it."""
        visit = self.fetch(VisitRow, "visit", at.visit)
        if visit.voided_at is not None:
            raise Refused([Problem("visit", "This visit was struck out.", "Record it at another visit.")])
        layout = read_vehicle(self.session, self.site, visit.vehicle_id).vehicle.layout
        unknown = [place for place in places if not layout.has(place)]
        if unknown:
            raise Refused(_no_such_place(place) for place in unknown)
        if at.case is not None:
            self.link_visit(at.case, at.visit)

    def _check_job(self, at: At, job_id: str) -> None:
        if self.fetch(JobRow, "job", job_id).voided_at is not None:
            raise Refused([Problem("job", "This job was struck out.", "Nothing is recorded about it any more.")])
        done, seen = self.visit_of_job(job_id), self.fetch(VisitRow, "visit", at.visit)
        if done.vehicle_id != seen.vehicle_id:
            raise Refused([Problem("job", "This job was done on another vehicle.", "Choose one of this vehicle’s.")])
        if seen.position < done.position:
            raise Refused([Problem("visit", "The job had not been done yet at this visit.", "Choose a later visit.")])

    def _visit_numbered(self, at: At, number: int) -> str:
        """The visit that people call by this number: within the case, or else among the vehicle's visits."""
        visits = self._visits_counted(at)
        if not 1 <= number <= len(visits):
            raise NotHere("visit", str(number))
        return visits[number - 1].id

    def _visits_counted(self, at: At) -> Sequence[VisitRow]:
        if at.case is not None:
            return visits_of_case(self.session, self.site, at.case)
        return visits_of_vehicle(self.session, self.site, self.fetch(VisitRow, "visit", at.visit).vehicle_id)


def _no_such_place(place: PlaceId) -> Problem:
    return Problem("place", f"This vehicle has no place “{place}”.", "Choose one of its places, or mend its layout.")


def _measured(said: Result) -> dict[str, Any]:
    reading, limits = said.reading, said.specification
    abnormal, normal = said.weights or (None, None)
    return {
        "reading_typed": None if reading is None else reading.typed,
        "reading_value": None if reading is None else reading.value,
        "reading_unit": None if reading is None else reading.unit,
        "reading_resolution": None if reading is None else reading.resolution,
        "low": None if limits is None else limits.low,
        "high": None if limits is None else limits.high,
        "specification_source": None if limits is None else limits.source,
        "weight_abnormal": abnormal,
        "weight_normal": normal,
    }

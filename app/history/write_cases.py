"""Writing cases: opening, changing, keeping the board, closing and reopening."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from sqlalchemy import update
from sqlmodel import col

from app.history.errors import Changed
from app.history.read_case import visits_of_case
from app.history.read_cases import read_case_on_file
from app.history.read_vehicle import read_vehicle
from app.history.tables.conclusions import ClosingRow, SnapshotRow
from app.history.tables.findings import ResultRow
from app.history.tables.proof import ProofRow
from app.history.tables.visits import CaseRow, VisitRow
from app.history.tables.work import PutBackRow
from app.history.values import CaseDetails, CaseState, Closing, Introduced, SnapshotWhy
from app.history.write_visits import VisitWrites
from app.problem import Problem, Refused
from app.rules.words import CoverId


class CaseWrites(VisitWrites):
    """The part of the desk where cases are filed."""

    __slots__ = ()

    def open_case(
        self, vehicle_id: str, details: CaseDetails, *, visits: Sequence[str] = (), entry_id: str = ""
    ) -> str:
        """Open a case about one complaint, joined to these visits of the vehicle."""
        if self.recorded(CaseRow, entry_id):
            return entry_id
        if not read_vehicle(self.session, self.site, vehicle_id).vehicle.layout.has(details.complaint_place):
            where = f"This vehicle has no place “{details.complaint_place}”."
            raise Refused([Problem("place", where, "Choose one of its places, or mend its layout.")])
        row = CaseRow(**self.stamp(entry_id), vehicle_id=vehicle_id, **_columns(details))
        case_id = self.file(row, "opened a case", complaint=details.complaint)
        for visit in visits:
            self.link_visit(case_id, visit)
        return case_id

    def change_case(self, case_id: str, seen: int, *, details: CaseDetails) -> None:
        """Refused as `Changed` (with what it is now) if someone changed it since version `seen`."""
        self._guarded(case_id, seen, _columns(details))
        self.note("changed a case", case_id)

    def set_open_covers(self, case_id: str, seen: int, *, covers: Sequence[CoverId]) -> None:
        """Say what is off or open on the vehicle now; what was open before and is so no longer was put back."""
        before = self.fetch(CaseRow, "case", case_id).open_covers
        self._guarded(case_id, seen, {"open_covers": list(covers)})
        self.note("said what is open", case_id, covers=list(covers))
        for cover in before:
            if cover not in covers:
                self._file_put_back(case_id, CoverId(cover))

    def put_back(self, case_id: str, seen: int, *, cover: CoverId) -> None:
        """Tick one cover as put back. Refused as `Changed` if someone changed the case since version `seen`."""
        row = self.fetch(CaseRow, "case", case_id)
        if cover in row.open_covers:
            still = [CoverId(one) for one in row.open_covers if one != cover]
            self.set_open_covers(case_id, seen, covers=still)
            return
        self._guarded(case_id, seen, {})
        self._file_put_back(case_id, cover)

    def _file_put_back(self, case_id: str, cover: CoverId) -> None:
        ours = [visit.id for visit in visits_of_case(self.session, self.site, case_id) if visit.here]
        row = PutBackRow(**self.stamp(), case_id=case_id, visit_id=ours[-1] if ours else None, cover=cover)
        self.file(row, "put a cover back", cover=cover)

    def snapshot(
        self,
        case_id: str,
        why: SnapshotWhy,
        *,
        rules_version: str,
        board: Mapping[str, Any],
        minutes: float | None = None,
    ) -> str:
        """Keep the board as it stands: its rows and its advice, ready for JSON."""
        self.fetch(CaseRow, "case", case_id)
        row = SnapshotRow(
            **self.stamp(),
            case_id=case_id,
            why=why.value,
            rules_version=rules_version,
            board=dict(board),
            minutes=minutes,
        )
        self.session.add(row)
        self.session.flush()
        return row.id

    def close_case(self, case_id: str, seen: int, *, closing: Closing, entry_id: str = "") -> str:
        """Close a case with what was confirmed: a cause at its place, the result that decided, what brought it in."""
        if self.recorded(ClosingRow, entry_id):
            return entry_id
        self._check_closing(case_id, closing)
        self._guarded(case_id, seen, {"state": CaseState.CLOSED.value})
        row = ClosingRow(
            **self.stamp(entry_id),
            case_id=case_id,
            cause=closing.cause or "",
            place=closing.place or "",
            deciding_result_id=closing.deciding_result,
            introduced=closing.introduced.value,
            introduced_by_job_id=closing.introduced_by_job,
            minutes=closing.minutes,
            note=closing.note.strip(),
            left_open=list(closing.left_open),
            left_open_why=closing.left_open_why.strip(),
        )
        return self.file(row, "closed a case", case=case_id)

    def reopen_case(self, case_id: str, seen: int, *, why: str) -> None:
        """Open a case again; how it was closed and what was believed mended is struck out and stays readable."""
        self._guarded(case_id, seen, {"state": CaseState.OPEN.value})
        self._strike_conclusions(ClosingRow, case_id, why)
        self._strike_conclusions(ProofRow, case_id, why)
        self.note("reopened a case", case_id, why=why)

    def _strike_conclusions(self, table: type[ClosingRow] | type[ProofRow], case_id: str, why: str) -> None:
        standing = update(table).where(
            col(table.site_id) == self.site, col(table.case_id) == case_id, col(table.voided_at).is_(None)
        )
        struck = {"voided_at": self.now, "voided_by": self.person.id, "void_reason": why.strip()}
        self.session.execute(standing.values(version=col(table.version) + 1, **struck))

    def _check_closing(self, case_id: str, closing: Closing) -> None:
        case = self.fetch(CaseRow, "case", case_id)
        problems = [*_unfit(case, closing), *self._from_elsewhere(case, closing)]
        if problems:
            raise Refused(problems)

    def _from_elsewhere(self, case: CaseRow, closing: Closing) -> Iterator[Problem]:
        """What decided, and what brought the cause in, happened to this vehicle."""
        result, job = closing.deciding_result, closing.introduced_by_job
        if result is not None and self._visit_of_result(result).vehicle_id != case.vehicle_id:
            yield Problem("deciding result", "This result is about another vehicle.", "Choose one of this case’s.")
        if job is not None and self.visit_of_job(job).vehicle_id != case.vehicle_id:
            yield Problem("job", "This job was done on another vehicle.", "Choose one of this vehicle’s.")

    def _visit_of_result(self, result_id: str) -> VisitRow:
        return self.fetch(VisitRow, "visit", self.fetch(ResultRow, "result", result_id).visit_id)

    def _guarded(self, case_id: str, seen: int, values: Mapping[str, Any]) -> None:
        self.fetch(CaseRow, "case", case_id)
        if not self.change(CaseRow, case_id, seen, **values):
            self.session.expire_all()
            raise Changed(read_case_on_file(self.session, self.site, case_id))


def _unfit(case: CaseRow, closing: Closing) -> Iterator[Problem]:
    if case.state == CaseState.CLOSED:
        yield Problem("case", "This case is closed already.", "Reopen it first.")
    if (closing.cause is None) != (closing.place is None):
        yield Problem("place", "Cause and place belong together.", "Say where the cause was, or neither.")
    if closing.left_open and not closing.left_open_why.strip():
        yield Problem(
            "left_open_why", "Something is still open, and nothing says why.", "Write the reason, or tick it."
        )
    if closing.introduced_by_job is not None and closing.introduced is not Introduced.BY_A_JOB:
        yield Problem(
            "job", "A job is named, but it is not said to have brought the cause in.", "Say so, or name none."
        )


def _columns(details: CaseDetails) -> dict[str, Any]:
    return {
        "complaint": details.complaint,
        "complaint_place": details.complaint_place,
        "reproduced": details.reproduced.value,
        "reproduced_conditions": list(details.reproduced_conditions),
        "may_drive": dict(details.may_drive),
        "open_covers": list(details.open_covers),
    }

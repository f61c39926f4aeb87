"""Writing proof of repair: runs and scans after a repair, going under proof, and what a return does to a case."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from sqlmodel import col, select

from app.evidence.case import Presence, ProofRun, ScanSeen, SymptomSeen
from app.history.read_case import visits_of_case
from app.history.tables.conclusions import ClosingRow
from app.history.tables.findings import SymptomRow
from app.history.tables.proof import AMOUNTS, ProofRow, ProofRunRow, ReturnRow, ScanRow
from app.history.tables.visits import CaseRow, VisitRow
from app.history.tables.work import JobRow
from app.history.values import At, Belief, CaseState
from app.history.write_cases import CaseWrites
from app.history.write_evidence import EvidenceWrites
from app.problem import Problem, Refused

CAME_BACK = "The complaint came back."


class ProofWrites(EvidenceWrites, CaseWrites):
    """The part of the desk where proof is filed. `at.visit` is the visit of the repair that the use came after."""

    __slots__ = ()

    def record_run(self, at: At, said: ProofRun, *, today: date) -> str:
        """File use after a repair; the complaint being back reopens a case under proof or closed."""
        if self.recorded(ProofRunRow, said.entry):
            return said.entry
        visits = self._visits_of(at)
        problems = [*_impossible(said), *_not_after(said.day, at, visits, today)]
        if problems:
            raise Refused(problems)
        row = ProofRunRow(
            **self._entry(at, said.entry, source=said.source, note=said.note),
            **{name: getattr(said, name) for name in AMOUNTS},
            day=said.day,
            came_back=said.came_back,
            ordinary=said.ordinary,
            conditions=list(said.conditions),
            route=said.route.strip(),
        )
        run = self.file(row, "recorded a run after a repair", came_back=said.came_back)
        if said.came_back and not self._repaired_later(at, visits):
            self._came_back(at.case or "", run)
        return run

    def record_scan(self, at: At, said: ScanSeen, *, today: date) -> str:
        """File readiness and codes read after a repair."""
        if self.recorded(ScanRow, said.entry):
            return said.entry
        problems = [*_not_after(said.day, at, self._visits_of(at), today)]
        if problems:
            raise Refused(problems)
        row = ScanRow(
            **self._entry(at, said.entry, source=said.source, note=said.note),
            day=said.day,
            monitors={id: state.value for id, state in said.monitors.items()},
            codes={code: state.value for code, state in said.codes.items()},
            cleared=said.cleared,
        )
        return self.file(row, "recorded a scan after a repair")

    def record_symptom(self, at: At, said: SymptomSeen) -> str:
        """As any symptom; the complaint at a visit after the repair reopens a case under proof or closed."""
        known = self.recorded(SymptomRow, said.entry)
        entry = super().record_symptom(at, said)
        if not known and at.case is not None and said.presence is Presence.PRESENT and self._is_a_return(at, said):
            self._came_back(at.case, entry)
        return entry

    def start_proof(self, case_id: str, seen: int, *, belief: Belief, entry_id: str = "") -> str:
        """The case goes from open to under proof, with what is believed to be mended."""
        if self.recorded(ProofRow, entry_id):
            return entry_id
        case = self.fetch(CaseRow, "case", case_id)
        problems = [*_unfit(case, belief, visits_of_case(self.session, self.site, case_id))]
        if problems:
            raise Refused(problems)
        self._guarded(case_id, seen, {"state": CaseState.UNDER_PROOF.value})
        row = ProofRow(
            **self.stamp(entry_id),
            case_id=case_id,
            visit_id=belief.repair,
            cause=belief.cause or "",
            place=belief.place or "",
            worked=belief.worked,
            note=belief.note.strip(),
        )
        return self.file(row, "put a case under proof", case=case_id)

    def _visits_of(self, at: At) -> Sequence[VisitRow]:
        """The case's visits; the repair must be one of them."""
        visits = visits_of_case(self.session, self.site, at.case or "")
        if at.visit not in {visit.id for visit in visits}:
            raise Refused([Problem("visit", "This visit is not part of the case.", "Choose one of the list.")])
        return visits

    def _repaired_later(self, at: At, visits: Sequence[VisitRow]) -> bool:
        """Whether a job was done after this repair, so that what came back then is history."""
        number = next(n for n, visit in enumerate(visits) if visit.id == at.visit)
        later = [visit.id for visit in visits[number + 1 :]]
        query = select(JobRow.id).where(
            col(JobRow.site_id) == self.site, col(JobRow.visit_id).in_(later), col(JobRow.voided_at).is_(None)
        )
        return self.session.exec(query).first() is not None

    def _is_a_return(self, at: At, said: SymptomSeen) -> bool:
        """Whether this is the complaint, at a visit after the one whose repair is believed in."""
        case = self.fetch(CaseRow, "case", at.case or "")
        if said.symptom != case.complaint or case.state == CaseState.OPEN:
            return False
        repaired = self._standing(ProofRow, case.id)
        if repaired is None:
            return True
        return (
            self.fetch(VisitRow, "visit", at.visit).position > self.fetch(VisitRow, "visit", repaired.visit_id).position
        )

    def _came_back(self, case_id: str, entry: str) -> None:
        """Reopen, and keep which belief the return proves wrong: that of the closing, else that of the proof."""
        case = self.fetch(CaseRow, "case", case_id)
        if case.state == CaseState.OPEN:
            return
        closed = self._standing(ClosingRow, case_id) if case.state == CaseState.CLOSED else None
        wrong = closed or self._standing(ProofRow, case_id)
        believed = {} if wrong is None else {"cause": wrong.cause, "place": wrong.place}
        row = ReturnRow(**self.stamp(), case_id=case_id, entry_id=entry, state=case.state, **believed)
        self.file(row, "the complaint came back", case=case_id)
        self.reopen_case(case_id, case.version, why=CAME_BACK)

    def _standing(self, table: Any, case_id: str) -> Any:  # noqa: ANN401 - either of two table classes
        query = select(table).where(
            col(table.site_id) == self.site, col(table.case_id) == case_id, col(table.voided_at).is_(None)
        )
        return self.session.exec(query).first()


def _impossible(said: ProofRun) -> Iterator[Problem]:
    amounts = {name: getattr(said, name) for name in AMOUNTS}
    for name, amount in amounts.items():
        if amount is not None and amount < 0:
            yield Problem(name, f"{amount:g} is less than nothing.", "Type what was driven, or leave it empty.")
    if not said.came_back and not any(amounts.values()):
        yield Problem("km", "It is not said how much it was used.", "Fill in distance, time, starts or drive cycles.")


def _not_after(day: date | None, at: At, visits: Sequence[VisitRow], today: date) -> Iterator[Problem]:
    """What was before the repair proves nothing of it."""
    if day is None:
        return
    repair = next(visit.day for visit in visits if visit.id == at.visit)
    if day > today:
        yield Problem("day", f"{day:%-d %b %Y} lies in the future.", "Check the day.")
    if repair is not None and day < repair:
        mend = "Check the day, or choose the repair it came after."
        yield Problem(
            "day", f"{day:%-d %b %Y} was before this repair ({repair:%-d %b %Y}): it proves nothing of it.", mend
        )


def _unfit(case: CaseRow, belief: Belief, visits: Sequence[VisitRow]) -> Iterator[Problem]:
    if case.state != CaseState.OPEN:
        yield Problem("case", f"This case is {case.state} already.", "Reopen it first.")
    if belief.repair not in {visit.id for visit in visits}:
        yield Problem("repair", "No repair is on file for this case.", "Record the job first.")
    if (belief.cause is None) != (belief.place is None):
        yield Problem("cause", "Cause and place belong together.", "Say where the cause was, or neither.")

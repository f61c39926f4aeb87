"""Cases without their evidence: state, details, visits and how they ended; one, a vehicle's, or the newest."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from sqlalchemy import ColumnElement, SQLColumnExpression
from sqlmodel import Session, col, select

from app.history.errors import NotHere
from app.history.read_vehicle import names_of_people, vehicle_on_file
from app.history.tables.conclusions import ClosingRow
from app.history.tables.proof import ProofRow, ReturnRow
from app.history.tables.vehicles import CustomerRow, VehicleRow
from app.history.tables.visits import CaseRow, CaseVisitRow, VisitRow
from app.history.values import (
    Belief,
    CaseDetails,
    CaseOnFile,
    CaseState,
    Closing,
    ClosingOnFile,
    Introduced,
    ProofOnFile,
    Reproduced,
    Return,
)
from app.rules.words import CauseId, CoverId, SymptomId
from app.vehicle.layout import PlaceId


def read_case_on_file(session: Session, site: str, case_id: str) -> CaseOnFile:
    found = _cases(session, site, col(CaseRow.id) == case_id, limit=1)
    if not found:
        raise NotHere("case", case_id)
    return found[0]


def read_cases_of(session: Session, site: str, vehicle_id: str) -> tuple[CaseOnFile, ...]:
    """The vehicle's cases, newest first."""
    return _cases(session, site, col(CaseRow.vehicle_id) == vehicle_id, limit=None)


def read_recent_cases(session: Session, site: str, *, state: CaseState | None, limit: int) -> tuple[CaseOnFile, ...]:
    """The newest cases, all or those in one state."""
    wanted = col(CaseRow.state).in_([state.value] if state else [each.value for each in CaseState])
    return _cases(session, site, wanted, limit=limit)


def _cases(session: Session, site: str, wanted: ColumnElement[bool], *, limit: int | None) -> tuple[CaseOnFile, ...]:
    """Five selects, however many cases."""
    query = (
        select(CaseRow, VehicleRow, CustomerRow)
        .join(VehicleRow, _same(VehicleRow, col(CaseRow.vehicle_id), CaseRow))
        .outerjoin(CustomerRow, _same(CustomerRow, col(VehicleRow.customer_id), VehicleRow))
        .where(col(CaseRow.site_id) == site, wanted)
        .order_by(col(CaseRow.recorded_at).desc(), col(CaseRow.id).desc())
        .limit(limit)
    )
    rows = session.exec(query).all()
    ids = [case.id for case, _, _ in rows]
    names = names_of_people(session, site)
    visits = _visits(session, site, ids)
    closings, proofs = _closings(session, site, ids, names), _proofs(session, site, ids, names)
    return tuple(
        replace(
            _on_file(case, vehicle, customer, visits=visits[case.id], closing=closings.get(case.id), names=names),
            proof=proofs.get(case.id),
        )
        for case, vehicle, customer in rows
    )


def _same(table: Any, reference: SQLColumnExpression[Any], holder: Any) -> ColumnElement[bool]:  # noqa: ANN401 - table classes
    """Join condition: the row of `table` on the holder's site that `reference` names."""
    return (col(table.site_id) == col(holder.site_id)) & (col(table.id) == reference)


def _visits(session: Session, site: str, cases: Sequence[str]) -> Mapping[str, Sequence[VisitRow]]:
    query = (
        select(CaseVisitRow.case_id, VisitRow)
        .join(VisitRow, _same(VisitRow, col(CaseVisitRow.visit_id), CaseVisitRow))
        .where(
            col(CaseVisitRow.site_id) == site, col(CaseVisitRow.case_id).in_(cases), col(VisitRow.voided_at).is_(None)
        )
        .order_by(col(VisitRow.position))
    )
    by_case: dict[str, list[VisitRow]] = defaultdict(list)
    for case_id, visit in session.exec(query):
        by_case[case_id].append(visit)
    return by_case


def _closings(
    session: Session, site: str, cases: Sequence[str], names: Mapping[str, str]
) -> Mapping[str, ClosingOnFile]:
    query = select(ClosingRow).where(
        col(ClosingRow.site_id) == site, col(ClosingRow.case_id).in_(cases), col(ClosingRow.voided_at).is_(None)
    )
    return {row.case_id: _closing(row, names) for row in session.exec(query)}


def _closing(row: ClosingRow, names: Mapping[str, str]) -> ClosingOnFile:
    return ClosingOnFile(
        id=row.id,
        closing=Closing(
            cause=CauseId(row.cause) if row.cause else None,
            place=PlaceId(row.place) if row.place else None,
            deciding_result=row.deciding_result_id,
            introduced=Introduced(row.introduced),
            introduced_by_job=row.introduced_by_job_id,
            minutes=row.minutes,
            note=row.note,
            left_open=tuple(row.left_open),
            left_open_why=row.left_open_why,
        ),
        closed_at=row.recorded_at,
        closed_by=names.get(row.recorded_by, row.recorded_by),
    )


def _proofs(session: Session, site: str, cases: Sequence[str], names: Mapping[str, str]) -> Mapping[str, ProofOnFile]:
    query = select(ProofRow).where(
        col(ProofRow.site_id) == site, col(ProofRow.case_id).in_(cases), col(ProofRow.voided_at).is_(None)
    )
    return {row.case_id: _proof(row, names) for row in session.exec(query)}


def _proof(row: ProofRow, names: Mapping[str, str]) -> ProofOnFile:
    return ProofOnFile(
        id=row.id,
        belief=Belief(row.visit_id, *_cause_at(row), worked=row.worked, note=row.note),
        begun_at=row.recorded_at,
        begun_by=names.get(row.recorded_by, row.recorded_by),
    )


def _cause_at(row: ProofRow | ReturnRow) -> tuple[CauseId | None, PlaceId | None]:
    return (CauseId(row.cause), PlaceId(row.place)) if row.cause else (None, None)


def read_returns(session: Session, site: str, case_id: str) -> tuple[Return, ...]:
    """Every time the complaint came back to a case under proof or closed, the oldest first."""
    names = names_of_people(session, site)
    query = select(ReturnRow).where(col(ReturnRow.site_id) == site, col(ReturnRow.case_id) == case_id)
    rows = session.exec(query.order_by(col(ReturnRow.recorded_at), col(ReturnRow.id))).all()
    return tuple(
        Return(
            row.id,
            row.entry_id,
            CaseState(row.state),
            *_cause_at(row),
            at=row.recorded_at,
            by=names.get(row.recorded_by, row.recorded_by),
        )
        for row in rows
    )


def _on_file(
    case: CaseRow,
    vehicle: VehicleRow,
    customer: CustomerRow | None,
    *,
    visits: Sequence[VisitRow],
    closing: ClosingOnFile | None,
    names: Mapping[str, str],
) -> CaseOnFile:
    return CaseOnFile(
        id=case.id,
        version=case.version,
        vehicle=vehicle_on_file(vehicle, customer),
        details=details_of(case),
        state=CaseState(case.state),
        opened_at=case.recorded_at,
        opened_by=names.get(case.recorded_by, case.recorded_by),
        visits=tuple(visit.id for visit in visits),
        complaint_words=next((visit.complaint_words for visit in reversed(visits) if visit.complaint_words), ""),
        closing=closing,
    )


def details_of(case: CaseRow) -> CaseDetails:
    return CaseDetails(
        complaint=SymptomId(case.complaint),
        complaint_place=PlaceId(case.complaint_place),
        reproduced=Reproduced(case.reproduced),
        reproduced_conditions=tuple(case.reproduced_conditions),
        may_drive=case.may_drive,
        open_covers=tuple(CoverId(cover) for cover in case.open_covers),
    )

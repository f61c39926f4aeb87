"""Rows → one case as plain values, and cases without their evidence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeVar

from sqlmodel import Session, col, select

from app.evidence.case import (
    Case,
    CodesCleared,
    CodeSeen,
    DefectSeen,
    Job,
    ProofRun,
    Result,
    ScanSeen,
    SymptomSeen,
    Visit,
)
from app.history.errors import NotHere
from app.history.read_entries import read_entries
from app.history.read_vehicle import names_of_people, read_vehicle
from app.history.tables.conclusions import SnapshotRow
from app.history.tables.visits import CaseRow, CaseVisitRow, VisitRow
from app.history.tables.work import PutBackRow
from app.history.values import Cost, Entry, PutBack, Said, Snapshot, SnapshotWhy, Spent
from app.rules.words import CoverId, SymptomId
from app.vehicle.layout import PlaceId


def read_case(session: Session, site: str, case_id: str) -> Case:
    """All that stands about a complaint, struck-out entries left out: thirteen selects, however long the history."""
    row = _case_row(session, site, case_id)
    visits = visits_of_case(session, site, case_id)
    numbers = {visit.id: number for number, visit in enumerate(visits, 1)}
    entries = read_entries(session, site, numbers=numbers, names={})
    return Case(
        vehicle=read_vehicle(session, site, row.vehicle_id).vehicle,
        complaint=SymptomId(row.complaint),
        complaint_place=PlaceId(row.complaint_place),
        visits=tuple(
            _visit(visit, numbers[visit.id], _standing(entries.get(visit.id, ()), case_id)) for visit in visits
        ),
        open_covers=tuple(CoverId(cover) for cover in row.open_covers),
    )


def _case_row(session: Session, site: str, case_id: str) -> CaseRow:
    query = select(CaseRow).where(col(CaseRow.site_id) == site, col(CaseRow.id) == case_id)
    found = session.exec(query).first()
    if found is None:
        raise NotHere("case", case_id)
    return found


def visits_of_case(session: Session, site: str, case_id: str) -> Sequence[VisitRow]:
    """The case's visits that stand, in order of time."""
    of_case = select(CaseVisitRow.visit_id).where(
        col(CaseVisitRow.site_id) == site, col(CaseVisitRow.case_id) == case_id
    )
    query = select(VisitRow).where(
        col(VisitRow.site_id) == site, col(VisitRow.id).in_(of_case), col(VisitRow.voided_at).is_(None)
    )
    return session.exec(query.order_by(col(VisitRow.position))).all()


def _standing(entries: Iterable[Entry], case_id: str) -> tuple[Entry, ...]:
    """What a case hears: entries about it and entries about the vehicle whatever the complaint."""
    return tuple(entry for entry in entries if entry.struck is None and entry.at.case in (None, case_id))


def _visit(row: VisitRow, number: int, entries: Sequence[Entry]) -> Visit:
    said = [entry.said for entry in entries]
    return Visit(
        number=number,
        here=row.here,
        shop=row.shop,
        day=row.day,
        odometer_km=row.odometer_km,
        complaint_words=row.complaint_words,
        symptoms=_of(said, SymptomSeen),
        codes=_of(said, CodeSeen),
        cleared=_of(said, CodesCleared),
        results=_of(said, Result),
        jobs=_of(said, Job),
        runs=_of(said, ProofRun),
        scans=_of(said, ScanSeen),
        defects=_of(said, DefectSeen),
        cost=row.cost,
        minutes=minutes_of(row.minutes, entries),
        entry=row.id,
    )


Kind = TypeVar("Kind", SymptomSeen, CodeSeen, CodesCleared, Result, Job, DefectSeen, ProofRun, ScanSeen)


def _of(said: Sequence[Said], kind: type[Kind]) -> tuple[Kind, ...]:
    return tuple(one for one in said if isinstance(one, kind))


def minutes_of(stated: float | None, entries: Iterable[Entry]) -> float | None:
    """Time a visit took: as stated for the whole visit, else the sum over its entries; None: nothing is known."""
    if stated is not None:
        return stated
    known = [entry.minutes for entry in entries if entry.minutes is not None]
    return sum(known) if known else None


def read_spent(session: Session, site: str, case_id: str) -> Spent:
    """Time and money that went into this complaint so far, over all its visits that stand."""
    _case_row(session, site, case_id)
    visits = visits_of_case(session, site, case_id)
    entries = read_entries(session, site, numbers={visit.id: 0 for visit in visits}, names={})
    minutes = [minutes_of(visit.minutes, _standing(entries.get(visit.id, ()), case_id)) for visit in visits]
    return Spent(
        minutes=sum(known for known in minutes if known is not None),
        minutes_known=None not in minutes,
        visits=len(visits),
        costs=tuple(Cost(visit.id, visit.shop, visit.here, visit.cost) for visit in visits),
    )


def read_snapshots(session: Session, site: str, case_id: str) -> tuple[Snapshot, ...]:
    """The boards kept for a case, oldest first."""
    names = names_of_people(session, site)
    query = select(SnapshotRow).where(col(SnapshotRow.site_id) == site, col(SnapshotRow.case_id) == case_id)
    rows = session.exec(query.order_by(col(SnapshotRow.recorded_at), col(SnapshotRow.id))).all()
    return tuple(
        Snapshot(
            id=row.id,
            case=row.case_id,
            why=SnapshotWhy(row.why),
            at=row.recorded_at,
            by=names.get(row.recorded_by, row.recorded_by),
            rules_version=row.rules_version,
            board=row.board,
            minutes=row.minutes,
        )
        for row in rows
    )


def read_put_back(session: Session, site: str, case_id: str) -> tuple[PutBack, ...]:
    """The covers put back on a case, in the order they were ticked."""
    names = names_of_people(session, site)
    query = select(PutBackRow).where(
        col(PutBackRow.site_id) == site, col(PutBackRow.case_id) == case_id, col(PutBackRow.voided_at).is_(None)
    )
    rows = session.exec(query.order_by(col(PutBackRow.recorded_at), col(PutBackRow.id))).all()
    return tuple(
        PutBack(CoverId(row.cover), row.visit_id, names.get(row.recorded_by, row.recorded_by), row.recorded_at)
        for row in rows
    )

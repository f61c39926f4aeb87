"""Everything that ever happened to a vehicle, what was struck out included."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from sqlmodel import Session, col, select

from app.history.read_cases import read_cases_of
from app.history.read_entries import read_entries, struck
from app.history.read_vehicle import names_of_people, read_vehicle
from app.history.tables.visits import CaseVisitRow, VisitRow
from app.history.values import Entry, Odometer, OdometerUnit, Stay, Timeline, VisitOnFile


def read_timeline(session: Session, site: str, vehicle_id: str) -> Timeline:
    """All visits in order of time with all their entries, in a fixed number of selects."""
    names = names_of_people(session, site)
    rows = visits_of_vehicle(session, site, vehicle_id)
    numbers = {row.id: number for number, row in enumerate(rows, 1)}
    cases = _cases_by_visit(session, site, list(numbers))
    entries = read_entries(session, site, numbers=numbers, names=names)
    return Timeline(
        vehicle=read_vehicle(session, site, vehicle_id),
        visits=tuple(
            visit_on_file(row, numbers[row.id], cases=cases[row.id], entries=entries.get(row.id, ()), names=names)
            for row in rows
        ),
        cases=read_cases_of(session, site, vehicle_id),
    )


def visits_of_vehicle(session: Session, site: str, vehicle_id: str) -> Sequence[VisitRow]:
    query = select(VisitRow).where(col(VisitRow.site_id) == site, col(VisitRow.vehicle_id) == vehicle_id)
    return session.exec(query.order_by(col(VisitRow.position), col(VisitRow.id))).all()


def _cases_by_visit(session: Session, site: str, visits: Sequence[str]) -> Mapping[str, Sequence[str]]:
    query = select(CaseVisitRow).where(col(CaseVisitRow.site_id) == site, col(CaseVisitRow.visit_id).in_(visits))
    by_visit: dict[str, list[str]] = defaultdict(list)
    for row in session.exec(query.order_by(col(CaseVisitRow.recorded_at), col(CaseVisitRow.id))):
        by_visit[row.visit_id].append(row.case_id)
    return by_visit


def visit_on_file(
    row: VisitRow, number: int, *, cases: Sequence[str], entries: tuple[Entry, ...], names: Mapping[str, str]
) -> VisitOnFile:
    return VisitOnFile(
        id=row.id,
        version=row.version,
        number=number,
        stay=stay_of(row),
        cases=tuple(cases),
        recorded_at=row.recorded_at,
        recorded_by=names.get(row.recorded_by, row.recorded_by),
        struck=struck(row, names),
        entries=entries,
    )


def stay_of(row: VisitRow) -> Stay:
    """The visit as it was entered; its place in time is its position, so `before` is not given back."""
    return Stay(
        here=row.here,
        shop=row.shop,
        order_number=row.order_number,
        day=row.day,
        when=row.when_words,
        odometer=_odometer(row),
        complaint_words=row.complaint_words,
        cost=row.cost,
        minutes=row.minutes,
    )


def _odometer(row: VisitRow) -> Odometer | None:
    if row.odometer_km is None:
        return None
    return Odometer(row.odometer_typed, OdometerUnit(row.odometer_unit), row.odometer_km)

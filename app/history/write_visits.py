"""Writing visits: their place in time, and what cannot be true of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from sqlalchemy import update
from sqlmodel import col, select

from app.history.errors import Changed, NotHere
from app.history.read_timeline import visit_on_file, visits_of_vehicle
from app.history.read_vehicle import names_of_people
from app.history.stamping import Stamping
from app.history.tables.vehicles import VehicleRow
from app.history.tables.visits import CaseRow, CaseVisitRow, VisitRow
from app.history.tables.work import JobRow
from app.history.values import Stay
from app.history.vehicle_words import rewrite_words
from app.problem import Problem, Refused


class VisitWrites(Stamping):
    """The part of the desk where visits are filed and joined to cases."""

    __slots__ = ()

    def add_visit(self, vehicle_id: str, stay: Stay, *, today: date, entry_id: str = "") -> str:
        """File a visit at its place in time; refused if it lies ahead or the odometer would go backwards."""
        if self.recorded(VisitRow, entry_id):
            return entry_id
        self.fetch(VehicleRow, "vehicle", vehicle_id)
        index = self._place(visits_of_vehicle(self.session, self.site, vehicle_id), stay, today)
        self._make_room(vehicle_id, index)
        row = VisitRow(**self.stamp(entry_id), vehicle_id=vehicle_id, position=index, **_columns(stay))
        visit_id = self.file(row, "added a visit")
        rewrite_words(self.session, self.site, vehicle_id)
        return visit_id

    def change_visit(self, visit_id: str, seen: int, *, stay: Stay, today: date) -> None:
        """Refused as `Changed` (with what it is now) if someone changed it since version `seen`."""
        row = self.fetch(VisitRow, "visit", visit_id)
        others = [v for v in visits_of_vehicle(self.session, self.site, row.vehicle_id) if v.id != visit_id]
        stays_put = stay.day == row.day and stay.before is None
        index = _index_of(others, row.position) if stays_put else _index_for(others, stay)
        _refuse_impossible(others, stay, index=index, today=today)
        if not self.change(VisitRow, visit_id, seen, **_columns(stay)):
            raise Changed(self.visit_now(visit_id))
        self._put_in_order([*others[:index], row, *others[index:]])
        self.note("changed a visit", visit_id)
        rewrite_words(self.session, self.site, row.vehicle_id)

    def link_visit(self, case_id: str, visit_id: str) -> None:
        """Say that a visit was (also) about this complaint; said twice, it counts once."""
        case, visit = self.fetch(CaseRow, "case", case_id), self.fetch(VisitRow, "visit", visit_id)
        if case.vehicle_id != visit.vehicle_id:
            raise Refused([Problem("visit", "This visit is about another vehicle.", "Choose one of this vehicle’s.")])
        query = select(CaseVisitRow.id).where(
            col(CaseVisitRow.site_id) == self.site,
            col(CaseVisitRow.case_id) == case_id,
            col(CaseVisitRow.visit_id) == visit_id,
        )
        if self.session.exec(query).first() is None:
            row = CaseVisitRow(**self.stamp(), case_id=case_id, visit_id=visit_id)
            self.file(row, "joined a visit to a case", case=case_id, visit=visit_id)

    def visit_of_job(self, job_id: str) -> VisitRow:
        return self.fetch(VisitRow, "visit", self.fetch(JobRow, "job", job_id).visit_id)

    def visit_now(self, visit_id: str) -> object:
        """The visit as it is stored, without its entries."""
        self.session.expire_all()
        row = self.fetch(VisitRow, "visit", visit_id)
        names = names_of_people(self.session, self.site)
        return visit_on_file(row, row.position + 1, cases=(), entries=(), names=names)

    def _place(self, others: Sequence[VisitRow], stay: Stay, today: date) -> int:
        index = _index_for(others, stay)
        _refuse_impossible(others, stay, index=index, today=today)
        return index

    def _make_room(self, vehicle_id: str, index: int) -> None:
        later = update(VisitRow).where(
            col(VisitRow.site_id) == self.site, col(VisitRow.vehicle_id) == vehicle_id, col(VisitRow.position) >= index
        )
        self.session.execute(later.values(position=col(VisitRow.position) + 1))

    def _put_in_order(self, rows: Sequence[VisitRow]) -> None:
        for position, row in enumerate(rows):
            row.position = position
        self.session.flush()


def _index_for(others: Sequence[VisitRow], stay: Stay) -> int:
    """Where a stay belongs among the others: by its day, else before the visit it names, else last."""
    if stay.day is not None:
        later = (i for i, row in enumerate(others) if row.day is not None and row.day > stay.day)
        return next(later, len(others))
    if stay.before is None:
        return len(others)
    named = (i for i, row in enumerate(others) if row.id == stay.before)
    index = next(named, None)
    if index is None:
        raise NotHere("visit", stay.before)
    return index


def _index_of(others: Sequence[VisitRow], position: int) -> int:
    return sum(row.position < position for row in others)


def _refuse_impossible(others: Sequence[VisitRow], stay: Stay, *, index: int, today: date) -> None:
    problems = [*_ahead(stay, today), *_backwards(others, stay, index)]
    if problems:
        raise Refused(problems)


def _ahead(stay: Stay, today: date) -> Iterator[Problem]:
    if stay.day is not None and stay.day > today:
        yield Problem("day", f"{stay.day.isoformat()} has not come yet.", "Check day, month and year.")


def _backwards(others: Sequence[VisitRow], stay: Stay, index: int) -> Iterator[Problem]:
    if stay.odometer is None:
        return
    before = [row.odometer_km for row in others[:index] if row.odometer_km is not None and row.voided_at is None]
    after = [row.odometer_km for row in others[index:] if row.odometer_km is not None and row.voided_at is None]
    mend = "Check the figure, its unit and the day; leave it empty if it is not known."
    if before and stay.odometer.km < max(before):
        yield Problem("odometer", f"An earlier visit already had {max(before):.0f} km, this one has less.", mend)
    if after and stay.odometer.km > min(after):
        yield Problem("odometer", f"A later visit had only {min(after):.0f} km, this one has more.", mend)


def _columns(stay: Stay) -> dict[str, Any]:
    odometer = stay.odometer
    return {
        "here": stay.here,
        "shop": stay.shop.strip(),
        "order_number": stay.order_number.strip(),
        "day": stay.day,
        "when_words": stay.when.strip(),
        "odometer_typed": "" if odometer is None else odometer.typed,
        "odometer_unit": "" if odometer is None else odometer.unit.value,
        "odometer_km": None if odometer is None else odometer.km,
        "complaint_words": stay.complaint_words.strip(),
        "cost": stay.cost.strip(),
        "minutes": stay.minutes,
    }

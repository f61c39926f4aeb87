"""Striking an entry out: it stays readable, and no longer counts."""

from __future__ import annotations

from sqlmodel import Session, col, select

from app.history.errors import Changed, NotHere
from app.history.read_entries import TABLES, read_entries
from app.history.read_timeline import visits_of_vehicle
from app.history.read_vehicle import names_of_people
from app.history.tables.stamped import EvidenceEntry, Strikeable
from app.history.tables.visits import VisitRow
from app.history.values import Entry, EntryKind
from app.history.vehicle_words import rewrite_words
from app.history.write_visits import VisitWrites
from app.problem import Problem, Refused


class Striking(VisitWrites):
    """The part of the desk where entries are struck out."""

    __slots__ = ()

    def void(self, kind: EntryKind, entry_id: str, *, seen: int, why: str) -> None:
        """Strike an entry out. Refused as `Changed` (with what it is now) if someone touched it since `seen`."""
        if not why.strip():
            raise Refused([Problem("why", "Nothing says why it is struck out.", "Write the reason in a few words.")])
        table: type[Strikeable] = VisitRow if kind is EntryKind.VISIT else TABLES[kind]
        row = self.fetch(table, kind.value, entry_id)
        struck = {"voided_at": self.now, "voided_by": self.person.id, "void_reason": why.strip()}
        if row.voided_at is not None or not self.change(table, entry_id, seen, **struck):
            raise Changed(self._now(kind, entry_id))
        self.note(f"struck out a {kind.value}", entry_id, why=why.strip())
        if isinstance(row, VisitRow):
            rewrite_words(self.session, self.site, row.vehicle_id)

    def _now(self, kind: EntryKind, entry_id: str) -> object:
        if kind is EntryKind.VISIT:
            return self.visit_now(entry_id)
        self.session.expire_all()
        return read_entry(self.session, self.site, kind=kind, entry_id=entry_id)


def read_entry(session: Session, site: str, *, kind: EntryKind, entry_id: str) -> Entry:
    """One entry, struck out or not; visits in it are counted among all of the vehicle's."""
    table: type[EvidenceEntry] = TABLES[kind]
    row = session.exec(select(table).where(col(table.site_id) == site, col(table.id) == entry_id)).first()
    if row is None:
        raise NotHere(kind.value, entry_id)
    visit = session.exec(select(VisitRow).where(col(VisitRow.site_id) == site, col(VisitRow.id) == row.visit_id)).one()
    numbers = {each.id: n for n, each in enumerate(visits_of_vehicle(session, site, visit.vehicle_id), 1)}
    entries = read_entries(session, site, numbers=numbers, names=names_of_people(session, site))
    return next(entry for entry in entries[row.visit_id] if entry.id == entry_id)

"""The history of one site: what can be read, and the desk for writing. It hands out plain values, never rows."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Engine
from sqlmodel import Session

from app.evidence.case import Case
from app.history.desk import Desk
from app.history.errors import in_our_words
from app.history.figures import FigureOnFile
from app.history.read_case import read_case, read_put_back, read_snapshots, read_spent
from app.history.read_cases import read_case_on_file, read_cases_of, read_recent_cases, read_returns
from app.history.read_figures import read_figures, read_vehicle_families
from app.history.read_timeline import read_timeline
from app.history.read_vehicle import nobody_here, read_customers, read_people, read_vehicle
from app.history.search import find_vehicles
from app.history.strike import read_entry
from app.history.values import (
    CaseOnFile,
    CaseState,
    Customer,
    Entry,
    EntryKind,
    FoundVehicle,
    Person,
    PutBack,
    Return,
    Snapshot,
    Spent,
    Timeline,
    VehicleOnFile,
)


@dataclass(frozen=True, slots=True)
class History:
    """Carries engine and site, so that no query forgets the site. Every call is one transaction of its own."""

    engine: Engine
    site: str

    @contextmanager
    def write(self, person: Person, now: datetime) -> Iterator[Desk]:
        """A desk; its entries are stamped with `person` and `now`, and stored at the end of the block or not at all."""
        writer = self.engine.execution_options(write=True)
        with in_our_words(), Session(writer, expire_on_commit=False) as session, session.begin():
            yield Desk(session, self.site, person, now)

    @contextmanager
    def _reading(self) -> Iterator[Session]:
        with in_our_words(), Session(self.engine, expire_on_commit=False) as session:
            yield session

    def case(self, case_id: str) -> Case:
        """All that stands about a complaint, as the core thinks about it."""
        with self._reading() as session:
            return read_case(session, self.site, case_id)

    def case_on_file(self, case_id: str) -> CaseOnFile:
        """A case's state, version and details, without its evidence."""
        with self._reading() as session:
            return read_case_on_file(session, self.site, case_id)

    def cases_of(self, vehicle_id: str) -> tuple[CaseOnFile, ...]:
        """The vehicle's cases, newest first."""
        with self._reading() as session:
            return read_cases_of(session, self.site, vehicle_id)

    def recent_cases(self, limit: int, *, state: CaseState | None = None) -> tuple[CaseOnFile, ...]:
        """The newest cases, all or those in one state."""
        with self._reading() as session:
            return read_recent_cases(session, self.site, state=state, limit=limit)

    def timeline(self, vehicle_id: str) -> Timeline:
        """Everything that ever happened to a vehicle, struck-out entries too."""
        with self._reading() as session:
            return read_timeline(session, self.site, vehicle_id)

    def vehicle(self, vehicle_id: str) -> VehicleOnFile:
        with self._reading() as session:
            return read_vehicle(session, self.site, vehicle_id)

    def find(self, text: str, limit: int = 20) -> tuple[FoundVehicle, ...]:
        """Vehicles by plate, VIN, name, customer or repair-order number; best match first."""
        with self._reading() as session:
            return find_vehicles(session, self.site, text, limit=limit)

    def entry(self, kind: EntryKind, entry_id: str) -> Entry:
        """One entry with its version, as a form that strikes it out needs it."""
        with self._reading() as session:
            return read_entry(session, self.site, kind=kind, entry_id=entry_id)

    def spent(self, case_id: str) -> Spent:
        """Minutes and money that went into this complaint so far."""
        with self._reading() as session:
            return read_spent(session, self.site, case_id)

    def put_back(self, case_id: str) -> tuple[PutBack, ...]:
        """The covers put back on a case, in the order they were ticked."""
        with self._reading() as session:
            return read_put_back(session, self.site, case_id)

    def snapshots(self, case_id: str) -> tuple[Snapshot, ...]:
        """The boards kept for a case, oldest first."""
        with self._reading() as session:
            return read_snapshots(session, self.site, case_id)

    def figures(self) -> tuple[FigureOnFile, ...]:
        """What the shop says of its own costs."""
        with self._reading() as session:
            return read_figures(session, self.site)

    def vehicle_families(self) -> tuple[str, ...]:
        """The shop's words for families of vehicles that it has given so far."""
        with self._reading() as session:
            return read_vehicle_families(session, self.site)

    def returns(self, case_id: str) -> tuple[Return, ...]:
        """Every time the complaint came back to this case while it was under proof or closed, the oldest first."""
        with self._reading() as session:
            return read_returns(session, self.site, case_id)

    def is_new(self) -> bool:
        """Whether nothing is on file yet: no vehicle, no person."""
        with self._reading() as session:
            return nobody_here(session, self.site)

    def people(self, *, active_only: bool = True) -> tuple[Person, ...]:
        with self._reading() as session:
            return read_people(session, self.site, active_only=active_only)

    def customers(self) -> tuple[Customer, ...]:
        with self._reading() as session:
            return read_customers(session, self.site)

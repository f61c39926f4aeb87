"""What every write shares: who, when, on which site, fresh ids, the trail, and guarded changes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any, TypeVar

from sqlalchemy import CursorResult, update
from sqlmodel import Session, col, select

from app.history.errors import NotHere
from app.history.ids import ids_from
from app.history.tables.conclusions import TrailRow
from app.history.tables.stamped import Stamped
from app.history.values import Person

Row = TypeVar("Row", bound=Stamped)


@dataclass(slots=True)
class Stamping:
    """One person writing at one moment. `now` needs a zone; all rows of one write carry the same time."""

    session: Session
    site: str
    person: Person
    now: datetime
    _ids: Iterator[str] = field(init=False)

    def __post_init__(self) -> None:
        if self.now.tzinfo is None:
            raise ValueError("A time of writing needs its zone.")
        self.now = self.now.astimezone(UTC)
        self._ids = ids_from(self.now)

    def stamp(self, entry_id: str = "") -> dict[str, Any]:
        """The columns every row begins with; an id of its own unless one was made before (a form's)."""
        return {
            "site_id": self.site,
            "id": entry_id or next(self._ids),
            "recorded_at": self.now,
            "recorded_by": self.person.id,
        }

    def file(self, row: Stamped, what: str, **details: object) -> str:
        """Store a row and say so on the trail."""
        self.session.add(row)
        self.session.flush()
        self.note(what, row.id, **details)
        return row.id

    def note(self, what: str, entry_id: str, **details: object) -> None:
        self.session.add(
            TrailRow(
                site_id=self.site,
                id=next(self._ids),
                at=self.now,
                who=self.person.id,
                what=what,
                entry_id=entry_id,
                details=details,
            )
        )

    def recorded(self, table: type[Stamped], entry_id: str) -> bool:
        """Whether this id is stored already: sent twice, it counts as saved."""
        if not entry_id:
            return False
        query = select(table.id).where(col(table.site_id) == self.site, col(table.id) == entry_id)
        return self.session.exec(query).first() is not None

    def fetch(self, table: type[Row], what: str, id: str) -> Row:
        row = self.session.exec(select(table).where(col(table.site_id) == self.site, col(table.id) == id)).first()
        if row is None:
            raise NotHere(what, id)
        return row

    def change(self, table: type[Stamped], id: str, seen: int, **values: object) -> bool:
        """Change a row only if it still has the version that was seen; False: someone else was faster."""
        guarded = update(table).where(col(table.site_id) == self.site, col(table.id) == id, col(table.version) == seen)
        done = self.session.execute(guarded.values(version=seen + 1, **values))
        return isinstance(done, CursorResult) and done.rowcount == 1

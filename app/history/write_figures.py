"""Writing the shop's own figures, and the word it has for a vehicle's family."""

from __future__ import annotations

from sqlmodel import col, select

from app.history.errors import Changed
from app.history.figures import Figure
from app.history.read_figures import on_file
from app.history.read_vehicle import names_of_people, read_vehicle
from app.history.stamping import Stamping
from app.history.tables.figures import FigureRow
from app.history.tables.vehicles import VehicleRow
from app.problem import Problem, Refused

REPLACED = "another figure was given"
LONGEST_WORD = 60


class FigureWrites(Stamping):
    """The part of the desk where the shop says what it takes and costs."""

    __slots__ = ()

    def set_figure(self, figure: Figure, *, seen: str, entry_id: str = "") -> str:
        """`seen`: id of the figure it stands in place of ("": none). Refused as `Changed` where another one stands."""
        if self.recorded(FigureRow, entry_id):
            return entry_id
        if figure.value < 0.0:
            raise Refused([Problem("value", "A figure cannot be less than nothing.", "Give nought or more.")])
        standing = self._figure_standing(figure)
        if (standing.id if standing else "") != seen:
            raise Changed(self._figure_now(standing))
        if standing is not None:
            self._strike_figure(standing, standing.version, why=REPLACED)
        row = FigureRow(
            **self.stamp(entry_id),
            kind=figure.kind.value,
            about=figure.about,
            family=figure.family,
            value=figure.value,
            words=figure.words,
        )
        return self.file(row, "set a figure", kind=figure.kind.value, about=figure.about, words=figure.words)

    def take_back_figure(self, id: str, *, seen: int) -> None:
        """What the rules say holds again. Refused as `Changed` if it was changed or taken back since."""
        row = self.fetch(FigureRow, "figure", id)
        if row.voided_at is not None:
            raise Changed(self._figure_now(None))
        self._strike_figure(row, seen, why="taken back")
        self.note("took back a figure", id)

    def set_family(self, vehicle_id: str, *, seen: int, family: str) -> None:
        """The shop's word for this kind of vehicle; refused as `Changed` if the vehicle was changed since."""
        self.fetch(VehicleRow, "vehicle", vehicle_id)
        if not self.change(VehicleRow, vehicle_id, seen, family=family.strip()):
            self.session.expire_all()
            raise Changed(read_vehicle(self.session, self.site, vehicle_id))
        self.note("named a vehicle's family", vehicle_id, family=family.strip())

    def _figure_standing(self, figure: Figure) -> FigureRow | None:
        query = select(FigureRow).where(
            col(FigureRow.site_id) == self.site,
            col(FigureRow.kind) == figure.kind.value,
            col(FigureRow.about) == figure.about,
            col(FigureRow.family) == figure.family,
            col(FigureRow.voided_at).is_(None),
        )
        return self.session.exec(query).first()

    def _strike_figure(self, row: FigureRow, seen: int, *, why: str) -> None:
        struck = {"voided_at": self.now, "voided_by": self.person.id, "void_reason": why}
        if not self.change(FigureRow, row.id, seen, **struck):
            raise Changed(self._figure_now(row))
        self.session.flush()

    def _figure_now(self, row: FigureRow | None) -> object:
        if row is None:
            return None
        names = names_of_people(self.session, self.site)
        return on_file(row, names.get(row.recorded_by, row.recorded_by))

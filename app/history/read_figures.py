"""The shop's own figures as plain values."""

from __future__ import annotations

from sqlmodel import Session, col, select

from app.history.figures import Figure, FigureKind, FigureOnFile
from app.history.read_vehicle import names_of_people
from app.history.tables.figures import FigureRow
from app.history.tables.vehicles import VehicleRow


def read_figures(session: Session, site: str) -> tuple[FigureOnFile, ...]:
    """All that stand, by kind, thing and family."""
    standing = (col(FigureRow.site_id) == site, col(FigureRow.voided_at).is_(None))
    order = (col(FigureRow.kind), col(FigureRow.about), col(FigureRow.family))
    names = names_of_people(session, site)
    rows = session.exec(select(FigureRow).where(*standing).order_by(*order))
    return tuple(on_file(row, names.get(row.recorded_by, row.recorded_by)) for row in rows)


def on_file(row: FigureRow, by: str) -> FigureOnFile:
    figure = Figure(FigureKind(row.kind), row.value, row.words, row.about, row.family)
    return FigureOnFile(row.id, row.version, figure, row.recorded_at, by)


def read_vehicle_families(session: Session, site: str) -> tuple[str, ...]:
    """The words the shop has given its vehicles, each once."""
    query = select(VehicleRow.family).where(col(VehicleRow.site_id) == site, col(VehicleRow.family) != "")
    return tuple(session.exec(query.distinct().order_by(col(VehicleRow.family))))

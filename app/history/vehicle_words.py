"""The summary a vehicle is found by, kept in step in the same transaction as what it sums up."""

from __future__ import annotations

from sqlmodel import Session, col, select

from app.history.plate import plate_key
from app.history.tables.vehicles import CustomerRow, VehicleRow, VehicleWordsRow
from app.history.tables.visits import VisitRow


def rewrite_words(session: Session, site: str, vehicle_id: str) -> None:
    """Say anew what this vehicle can be found by; the full-text index follows by triggers."""
    vehicle = session.exec(
        select(VehicleRow).where(col(VehicleRow.site_id) == site, col(VehicleRow.id) == vehicle_id)
    ).one()
    row = _row(session, site, vehicle_id)
    row.plate = f"{vehicle.plate} {vehicle.plate_key}".strip()
    row.vin, row.name = vehicle.vin, vehicle.name
    row.customer = _customer(session, site, vehicle.customer_id)
    row.orders = " ".join(f"{order} {plate_key(order)}" for order in _orders(session, site, vehicle_id))
    session.add(row)
    session.flush()


def _row(session: Session, site: str, vehicle_id: str) -> VehicleWordsRow:
    query = select(VehicleWordsRow).where(
        col(VehicleWordsRow.site_id) == site, col(VehicleWordsRow.vehicle_id) == vehicle_id
    )
    found = session.exec(query).first()
    return found or VehicleWordsRow(site_id=site, vehicle_id=vehicle_id)


def _customer(session: Session, site: str, customer_id: str | None) -> str:
    query = select(CustomerRow.name).where(col(CustomerRow.site_id) == site, col(CustomerRow.id) == customer_id)
    return session.exec(query).first() or ""


def _orders(session: Session, site: str, vehicle_id: str) -> list[str]:
    query = select(VisitRow.order_number).where(
        col(VisitRow.site_id) == site,
        col(VisitRow.vehicle_id) == vehicle_id,
        col(VisitRow.order_number) != "",
        col(VisitRow.voided_at).is_(None),
    )
    return list(session.exec(query.order_by(col(VisitRow.position))))

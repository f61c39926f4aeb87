"""Vehicles, customers and people as plain values."""

from __future__ import annotations

from sqlmodel import Session, col, select

from app.evidence.case import Vehicle
from app.history.errors import NotHere
from app.history.tables.vehicles import CustomerRow, PersonRow, VehicleRow
from app.history.values import PROGRAM, Customer, Person, Role, VehicleOnFile
from app.vehicle.layout import Layout


def read_vehicle(session: Session, site: str, vehicle_id: str) -> VehicleOnFile:
    query = (
        select(VehicleRow, CustomerRow)
        .outerjoin(
            CustomerRow,
            (col(CustomerRow.site_id) == col(VehicleRow.site_id))
            & (col(CustomerRow.id) == col(VehicleRow.customer_id)),
        )
        .where(col(VehicleRow.site_id) == site, col(VehicleRow.id) == vehicle_id)
    )
    found = session.exec(query).first()
    if found is None:
        raise NotHere("vehicle", vehicle_id)
    return vehicle_on_file(found[0], found[1])


def vehicle_on_file(row: VehicleRow, customer: CustomerRow | None) -> VehicleOnFile:
    layout = Layout(tuple(tuple(bank) for bank in row.banks), tuple(row.firing_order), row.traits)
    return VehicleOnFile(
        id=row.id,
        version=row.version,
        vehicle=Vehicle(layout, row.name, row.plate, row.vin, "" if customer is None else customer.name, row.family),
        customer=None if customer is None else Customer(customer.id, customer.name, customer.phone),
    )


def nobody_here(session: Session, site: str) -> bool:
    """Whether the site is new: no vehicle and no person on file."""
    tables = (VehicleRow, PersonRow)
    return all(
        session.exec(select(table.id).where(col(table.site_id) == site).limit(1)).first() is None for table in tables
    )


def read_people(session: Session, site: str, *, active_only: bool) -> tuple[Person, ...]:
    """The workshop's people by name."""
    query = select(PersonRow).where(col(PersonRow.site_id) == site, col(PersonRow.active).in_([True, active_only]))
    rows = session.exec(query.order_by(col(PersonRow.name), col(PersonRow.id))).all()
    return tuple(Person(row.id, row.name, Role(row.role), row.active) for row in rows)


def names_of_people(session: Session, site: str) -> dict[str, str]:
    """Whose id is whose name, the program's included."""
    people = read_people(session, site, active_only=False)
    return {PROGRAM.id: PROGRAM.name, **{person.id: person.name for person in people}}


def read_customers(session: Session, site: str) -> tuple[Customer, ...]:
    """All customers by name."""
    query = select(CustomerRow).where(col(CustomerRow.site_id) == site).order_by(col(CustomerRow.name))
    return tuple(Customer(row.id, row.name, row.phone) for row in session.exec(query))

"""Writing people, customers and vehicles."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sqlmodel import col, select

from app.evidence.case import Vehicle
from app.history.errors import Changed
from app.history.plate import plate_key
from app.history.read_vehicle import read_vehicle
from app.history.stamping import Stamping
from app.history.tables.vehicles import CustomerRow, PersonRow, VehicleRow
from app.history.values import Role
from app.history.vehicle_words import rewrite_words
from app.problem import Problem, Refused


class VehicleWrites(Stamping):
    """The part of the desk where people, customers and vehicles are filed."""

    __slots__ = ()

    def add_person(self, name: str, role: Role, *, entry_id: str = "") -> str:
        if self.recorded(PersonRow, entry_id):
            return entry_id
        _refuse(_unnamed(name))
        return self.file(PersonRow(**self.stamp(entry_id), name=name.strip(), role=role.value), "added a person")

    def add_customer(self, name: str, phone: str = "", *, entry_id: str = "") -> str:
        if self.recorded(CustomerRow, entry_id):
            return entry_id
        _refuse(_unnamed(name))
        row = CustomerRow(
            **self.stamp(entry_id), name=name.strip(), name_key=name.strip().casefold(), phone=phone.strip()
        )
        return self.file(row, "added a customer")

    def add_vehicle(self, vehicle: Vehicle, customer: str | None, *, entry_id: str = "") -> str:
        """File a vehicle; refused if its plate or VIN is on file already, or if it is called nothing."""
        if self.recorded(VehicleRow, entry_id):
            return entry_id
        stamp = self.stamp(entry_id)
        self._check_vehicle(vehicle, customer, own_id=stamp["id"])
        vehicle_id = self.file(VehicleRow(**stamp, **_columns(vehicle, customer)), "added a vehicle")
        rewrite_words(self.session, self.site, vehicle_id)
        return vehicle_id

    def change_vehicle(self, vehicle_id: str, seen: int, *, vehicle: Vehicle, customer: str | None) -> None:
        """Refused as `Changed` (with what it is now) if someone changed it since version `seen`."""
        self.fetch(VehicleRow, "vehicle", vehicle_id)
        self._check_vehicle(vehicle, customer, own_id=vehicle_id)
        if not self.change(VehicleRow, vehicle_id, seen, **_columns(vehicle, customer)):
            self.session.expire_all()
            raise Changed(read_vehicle(self.session, self.site, vehicle_id))
        self.note("changed a vehicle", vehicle_id)
        rewrite_words(self.session, self.site, vehicle_id)

    def _check_vehicle(self, vehicle: Vehicle, customer: str | None, *, own_id: str) -> None:
        if customer is not None:
            self.fetch(CustomerRow, "customer", customer)
        _refuse(*self._vehicle_problems(vehicle, own_id))

    def _vehicle_problems(self, vehicle: Vehicle, own_id: str) -> Iterator[Problem]:
        columns = _columns(vehicle, None)
        if not (columns["name"] or columns["plate_key"] or columns["vin"]):
            yield Problem("name", "The vehicle has no name, plate or VIN.", "Give at least one of them.")
        if columns["plate_key"] and (other := self._other("plate_key", columns["plate_key"], own_id)):
            yield Problem(
                "plate", f"The plate {vehicle.plate} is on file already ({_called(other)}).", "Open that one."
            )
        if columns["vin"] and (other := self._other("vin", columns["vin"], own_id)):
            yield Problem("vin", f"This VIN is on file already ({_called(other)}).", "Open that one.")

    def _other(self, column: str, value: str, own_id: str) -> VehicleRow | None:
        query = select(VehicleRow).where(
            col(VehicleRow.site_id) == self.site,
            col(getattr(VehicleRow, column)) == value,
            col(VehicleRow.id) != own_id,
        )
        return self.session.exec(query).first()


def _columns(vehicle: Vehicle, customer: str | None) -> dict[str, Any]:
    return {
        "name": vehicle.name.strip(),
        "plate": vehicle.plate.strip(),
        "plate_key": plate_key(vehicle.plate),
        "vin": plate_key(vehicle.vin),
        "customer_id": customer,
        "banks": [list(bank) for bank in vehicle.layout.banks],
        "firing_order": list(vehicle.layout.firing_order),
        "traits": dict(vehicle.layout.traits),
        "family": vehicle.family.strip(),
    }


def _called(row: VehicleRow) -> str:
    return row.name or row.plate or row.vin


def _unnamed(name: str) -> Problem | None:
    return None if name.strip() else Problem("name", "The name is empty.", "Write a name.")


def _refuse(*problems: Problem | None) -> None:
    found = [problem for problem in problems if problem is not None]
    if found:
        raise Refused(found)

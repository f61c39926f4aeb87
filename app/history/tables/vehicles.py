"""People of the workshop, customers, vehicles, and the words a vehicle is found by."""

from __future__ import annotations

from sqlalchemy import JSON, CheckConstraint, Index, UniqueConstraint, text
from sqlmodel import Field, SQLModel

from app.history.tables.stamped import Stamped, found_by, one_of, refers
from app.history.values import Role


class PersonRow(Stamped, table=True):
    __tablename__ = "people"
    __table_args__ = (one_of("role", Role), CheckConstraint("name <> ''", name="name_given"))

    name: str
    role: str
    active: bool = True


class CustomerRow(Stamped, table=True):
    """`name_key`: the name without capitals, as it is looked up."""

    __tablename__ = "customers"
    __table_args__ = (
        CheckConstraint("name <> ''", name="name_given"),
        found_by("name_key"),
    )

    name: str
    name_key: str
    phone: str = ""


class VehicleRow(Stamped, table=True):
    """`plate` as written; `plate_key`: its letters and digits, by which it is found and may occur once.

    `banks`: cylinder numbers bank by bank; `traits`: what is known of the build (fuel, brakes per axle …).
    `family`: the shop's word for vehicles of this kind, by which its own minutes are found.
    """

    __tablename__ = "vehicles"
    __table_args__ = (
        refers("customer_id", "customers"),
        Index("uq_vehicles_plate", "site_id", "plate_key", unique=True, sqlite_where=text("plate_key <> ''")),
        Index("uq_vehicles_vin", "site_id", "vin", unique=True, sqlite_where=text("vin <> ''")),
        found_by("customer_id"),
        CheckConstraint("name <> '' OR plate <> '' OR vin <> ''", name="called_something"),
    )

    name: str = ""
    plate: str = ""
    plate_key: str = ""
    vin: str = ""
    customer_id: str | None = None
    banks: list[list[int]] = Field(sa_type=JSON)
    firing_order: list[int] = Field(sa_type=JSON)
    traits: dict[str, str] = Field(sa_type=JSON)
    family: str = Field(default="", sa_column_kwargs={"server_default": ""})


class VehicleWordsRow(SQLModel, table=True):
    """What a vehicle can be found by, in one row: a summary, rewritten whenever the vehicle or its visits change.

    Full-text search refers to rows by a whole number that must never move, hence the counter as the key.
    """

    __tablename__ = "vehicle_words"
    metadata = Stamped.metadata
    __table_args__ = (refers("vehicle_id", "vehicles"), UniqueConstraint("site_id", "vehicle_id"))

    number: int | None = Field(default=None, primary_key=True)
    site_id: str
    vehicle_id: str
    plate: str = ""
    vin: str = ""
    name: str = ""
    customer: str = ""
    orders: str = ""

"""What every table has: site and id, a version, who recorded it and when; and how constraints are named."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index, MetaData
from sqlmodel import Field, SQLModel

NAMES = {
    "pk": "pk_%(table_name)s",
    "fk": "fk_%(table_name)s_%(column_1_name)s_%(referred_table_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
}


class Stamped(SQLModel):
    """One row of one site. `recorded_by` is the id of a person, or PROGRAM for what the program did by itself."""

    metadata = MetaData(naming_convention=NAMES)

    site_id: str = Field(primary_key=True)
    id: str = Field(primary_key=True)
    version: int = 1
    recorded_at: datetime
    recorded_by: str


class Strikeable(Stamped):
    """A row that is never changed away, only struck out: voided, by whom, when and why."""

    voided_at: datetime | None = None
    voided_by: str | None = None
    void_reason: str = ""


class EvidenceEntry(Strikeable):
    """Something said of a visit, and the case it belongs to (None: it is about the vehicle, whatever the complaint)."""

    visit_id: str
    case_id: str | None = None
    source: str
    note: str = ""


def refers(column: str, table: str) -> ForeignKeyConstraint:
    """`column` holds the id of a row of `table`, on the same site."""
    return ForeignKeyConstraint(["site_id", column], [f"{table}.site_id", f"{table}.id"])


def one_of(column: str, words: Iterable[str]) -> CheckConstraint:
    """`column` holds one of these words (kept as text: an enum would be stored by its member's name)."""
    listed = ", ".join(f"'{word}'" for word in words)
    return CheckConstraint(f"{column} IN ({listed})", name=f"{column}_word")


def found_by(*columns: str) -> Index:
    """An index that begins with the site, as every hot query does."""
    return Index(None, "site_id", *columns)

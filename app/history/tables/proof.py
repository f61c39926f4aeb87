"""Proof of repair: use and scans after a repair, what is believed to be mended, and returns that prove it wrong."""

from __future__ import annotations

from datetime import date

from sqlalchemy import JSON, CheckConstraint
from sqlmodel import Field

from app.evidence.case import Source
from app.history.tables.stamped import EvidenceEntry, Stamped, Strikeable, found_by, one_of, refers
from app.history.values import CaseState

AMOUNTS = ("km", "minutes", "starts", "cycles")


class ProofRunRow(EvidenceEntry, table=True):
    """Use after the repair done at `visit_id`. Distances are kept in km."""

    __tablename__ = "proof_runs"
    __table_args__ = (
        refers("visit_id", "visits"),
        refers("case_id", "cases"),
        found_by("visit_id"),
        one_of("source", Source),
        *(CheckConstraint(f"{name} IS NULL OR {name} >= 0", name=f"{name}_not_negative") for name in AMOUNTS),
    )

    day: date | None = None
    came_back: bool
    ordinary: bool = False
    conditions: list[str] = Field(sa_type=JSON)
    km: float | None = None
    minutes: float | None = None
    starts: float | None = None
    cycles: float | None = None
    route: str = ""


class ScanRow(EvidenceEntry, table=True):
    """Readiness and codes read after the repair done at `visit_id`; each by its id or number, with its word."""

    __tablename__ = "scans"
    __table_args__ = (
        refers("visit_id", "visits"),
        refers("case_id", "cases"),
        found_by("visit_id"),
        one_of("source", Source),
    )

    day: date | None = None
    monitors: dict[str, str] = Field(sa_type=JSON)
    codes: dict[str, str] = Field(sa_type=JSON)
    cleared: bool | None = None


class ProofRow(Strikeable, table=True):
    """A case went under proof: what is believed to be mended. Reopening strikes it out."""

    __tablename__ = "proofs"
    __table_args__ = (
        refers("case_id", "cases"),
        refers("visit_id", "visits"),
        found_by("case_id"),
        CheckConstraint("(cause = '') = (place = '')", name="cause_with_place"),
        CheckConstraint("worked IS NULL OR (worked >= 0 AND worked <= 1)", name="worked_is_a_chance"),
    )

    case_id: str
    visit_id: str
    cause: str = ""
    place: str = ""
    worked: float | None = None
    note: str = ""


class ReturnRow(Stamped, table=True):
    """The complaint came back to a case under proof or closed. `entry_id`: the run or symptom that says so."""

    __tablename__ = "returns"
    __table_args__ = (
        refers("case_id", "cases"),
        found_by("case_id"),
        found_by("entry_id"),
        one_of("state", CaseState),
        CheckConstraint("(cause = '') = (place = '')", name="cause_with_place"),
    )

    case_id: str
    entry_id: str
    state: str
    cause: str = ""
    place: str = ""

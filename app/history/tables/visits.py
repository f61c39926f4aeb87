"""Visits, cases, and which visit belongs to which case."""

from __future__ import annotations

from datetime import date

from sqlalchemy import JSON, CheckConstraint, UniqueConstraint
from sqlmodel import Field

from app.history.tables.stamped import Stamped, Strikeable, found_by, one_of, refers
from app.history.values import CaseState, OdometerUnit, Reproduced


class VisitRow(Strikeable, table=True):
    """One stay at a shop. `position` orders a vehicle's visits in time, dated or not."""

    __tablename__ = "visits"
    __table_args__ = (
        refers("vehicle_id", "vehicles"),
        found_by("vehicle_id", "position"),
        found_by("order_number"),
        one_of("odometer_unit", ("", *OdometerUnit)),
        CheckConstraint("odometer_km IS NULL OR odometer_km >= 0", name="odometer_not_negative"),
        CheckConstraint("(odometer_km IS NULL) = (odometer_unit = '')", name="odometer_with_unit"),
        CheckConstraint("minutes IS NULL OR minutes >= 0", name="minutes_not_negative"),
    )

    vehicle_id: str
    position: int
    here: bool
    shop: str = ""
    order_number: str = ""
    day: date | None = None
    when_words: str = ""
    odometer_typed: str = ""
    odometer_unit: str = ""
    odometer_km: float | None = None
    complaint_words: str = ""
    cost: str = ""
    minutes: float | None = None


class CaseRow(Stamped, table=True):
    """One complaint on one vehicle. Opened at and by are its stamp."""

    __tablename__ = "cases"
    __table_args__ = (
        refers("vehicle_id", "vehicles"),
        found_by("vehicle_id"),
        found_by("state", "recorded_at"),
        one_of("state", CaseState),
        one_of("reproduced", Reproduced),
    )

    vehicle_id: str
    complaint: str
    complaint_place: str
    state: str = CaseState.OPEN.value
    reproduced: str = Reproduced.NOT_TRIED.value
    reproduced_conditions: list[str] = Field(default_factory=list, sa_type=JSON)
    may_drive: dict[str, str] = Field(default_factory=dict, sa_type=JSON)
    open_covers: list[str] = Field(default_factory=list, sa_type=JSON)


class CaseVisitRow(Stamped, table=True):
    __tablename__ = "case_visits"
    __table_args__ = (
        refers("case_id", "cases"),
        refers("visit_id", "visits"),
        UniqueConstraint("site_id", "case_id", "visit_id"),
        found_by("visit_id"),
    )

    case_id: str
    visit_id: str

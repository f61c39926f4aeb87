"""What was observed at a visit: symptoms, trouble codes, codes cleared, results of tests."""

from __future__ import annotations

from datetime import date

from sqlalchemy import JSON, CheckConstraint
from sqlmodel import Field

from app.evidence.case import CodeState, Outcome, Presence, Source
from app.history.tables.stamped import EvidenceEntry, found_by, one_of, refers


class SymptomRow(EvidenceEntry, table=True):
    __tablename__ = "symptoms"
    __table_args__ = (
        refers("visit_id", "visits"),
        refers("case_id", "cases"),
        refers("after_visit_id", "visits"),
        found_by("visit_id"),
        one_of("presence", Presence),
        one_of("source", Source),
    )

    symptom: str
    place: str
    presence: str
    conditions: list[str] = Field(sa_type=JSON)
    absent_for_km: float | None = None
    after_visit_id: str | None = None


class CodeRow(EvidenceEntry, table=True):
    __tablename__ = "codes"
    __table_args__ = (
        refers("visit_id", "visits"),
        refers("case_id", "cases"),
        found_by("visit_id"),
        found_by("code"),
        one_of("state", CodeState),
        one_of("source", Source),
    )

    code: str
    state: str
    freeze_frame: dict[str, str] = Field(sa_type=JSON)


class ClearedRow(EvidenceEntry, table=True):
    """Codes had been cleared before they were read at this visit."""

    __tablename__ = "codes_cleared"
    __table_args__ = (
        refers("visit_id", "visits"),
        refers("case_id", "cases"),
        found_by("visit_id"),
        one_of("source", Source),
    )

    cleared_where: str
    km_ago: float | None = None
    day: date | None = None


class ResultRow(EvidenceEntry, table=True):
    """One test at one place. The reading is kept as typed beside its value; value and limits are in `reading_unit`."""

    __tablename__ = "results"
    __table_args__ = (
        refers("visit_id", "visits"),
        refers("case_id", "cases"),
        found_by("visit_id"),
        found_by("test", "outcome"),
        one_of("outcome", Outcome),
        one_of("source", Source),
        CheckConstraint("(reading_value IS NULL) = (reading_unit IS NULL)", name="reading_with_unit"),
        CheckConstraint("(weight_abnormal IS NULL) = (weight_normal IS NULL)", name="weights_together"),
        CheckConstraint("minutes IS NULL OR minutes >= 0", name="minutes_not_negative"),
    )

    test: str
    place: str
    outcome: str
    reading_typed: str | None = None
    reading_value: float | None = None
    reading_unit: str | None = None
    reading_resolution: float | None = None
    low: float | None = None
    high: float | None = None
    specification_source: str | None = None
    weight_abnormal: float | None = None
    weight_normal: float | None = None
    situations: dict[str, bool] = Field(sa_type=JSON)
    after_work: bool = False
    minutes: float | None = None

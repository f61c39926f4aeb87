"""What was done at a visit: jobs, their parts, and what is known of their duties."""

from __future__ import annotations

from sqlalchemy import JSON, CheckConstraint
from sqlmodel import Field

from app.evidence.case import DutyState, Source
from app.history.tables.stamped import EvidenceEntry, Stamped, found_by, one_of, refers


class JobRow(EvidenceEntry, table=True):
    __tablename__ = "jobs"
    __table_args__ = (
        refers("visit_id", "visits"),
        refers("case_id", "cases"),
        found_by("visit_id"),
        found_by("operation"),
        one_of("source", Source),
        CheckConstraint("minutes IS NULL OR minutes >= 0", name="minutes_not_negative"),
    )

    operation: str
    places: list[str] = Field(sa_type=JSON)
    minutes: float | None = None


class PartRow(Stamped, table=True):
    """A part put in by a job; struck out together with it."""

    __tablename__ = "parts"
    __table_args__ = (refers("job_id", "jobs"), found_by("job_id"), found_by("number"))

    job_id: str
    position: int
    name: str
    number: str = ""
    kind: str = ""
    date_code: str = ""
    receipt: bool = False


class DutyRow(EvidenceEntry, table=True):
    """What was seen of a duty; `visit_id` is the visit at which it was seen, not the job's."""

    __tablename__ = "duties"
    __table_args__ = (
        refers("visit_id", "visits"),
        refers("case_id", "cases"),
        refers("job_id", "jobs"),
        found_by("visit_id"),
        found_by("job_id"),
        one_of("state", DutyState),
        one_of("source", Source),
    )

    job_id: str
    duty: str
    state: str

"""What was done at a visit: jobs, their parts, what is known of their duties, defects come upon, covers put back."""

from __future__ import annotations

from sqlalchemy import JSON, CheckConstraint
from sqlmodel import Field

from app.evidence.case import DutyState, Source
from app.history.tables.stamped import EvidenceEntry, Stamped, Strikeable, found_by, one_of, refers


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
    photo: str = ""


class DefectRow(EvidenceEntry, table=True):
    """A defect that somebody came upon, and the job that is likely to have left it behind."""

    __tablename__ = "defects"
    __table_args__ = (
        refers("visit_id", "visits"),
        refers("case_id", "cases"),
        refers("job_id", "jobs"),
        found_by("visit_id"),
        found_by("job_id"),
        found_by("kind"),
        one_of("source", Source),
    )

    kind: str
    place: str
    words: str = ""
    job_id: str | None = None
    photo: str = ""


class PutBackRow(Strikeable, table=True):
    """A cover that was put back at a visit (None: at no visit of ours)."""

    __tablename__ = "put_back"
    __table_args__ = (refers("case_id", "cases"), refers("visit_id", "visits"), found_by("case_id"))

    case_id: str
    visit_id: str | None = None
    cover: str

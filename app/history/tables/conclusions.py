"""What was concluded and when: snapshots of the board, closings, and the trail of who did what."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, CheckConstraint
from sqlmodel import Field, SQLModel

from app.history.tables.stamped import Stamped, Strikeable, found_by, one_of, refers
from app.history.values import Introduced, SnapshotWhy


class SnapshotRow(Stamped, table=True):
    """The board as it stood (rows and advice), so that its advice can be judged later."""

    __tablename__ = "snapshots"
    __table_args__ = (
        refers("case_id", "cases"),
        found_by("case_id", "recorded_at"),
        one_of("why", SnapshotWhy),
        CheckConstraint("minutes IS NULL OR minutes >= 0", name="minutes_not_negative"),
    )

    case_id: str
    why: str
    rules_version: str
    board: dict[str, Any] = Field(sa_type=JSON)
    minutes: float | None = None


class ClosingRow(Strikeable, table=True):
    """How a case ended, as the technician accepts it; reopening strikes it out."""

    __tablename__ = "closings"
    __table_args__ = (
        refers("case_id", "cases"),
        refers("deciding_result_id", "results"),
        refers("introduced_by_job_id", "jobs"),
        found_by("case_id"),
        found_by("cause"),
        one_of("introduced", Introduced),
        CheckConstraint("(cause = '') = (place = '')", name="cause_with_place"),
        CheckConstraint("introduced_by_job_id IS NULL OR introduced = 'by a job'", name="job_introduced"),
        CheckConstraint("minutes IS NULL OR minutes >= 0", name="minutes_not_negative"),
    )

    case_id: str
    cause: str = ""
    place: str = ""
    deciding_result_id: str | None = None
    introduced: str = Introduced.NOT_KNOWN.value
    introduced_by_job_id: str | None = None
    minutes: float | None = None
    note: str = ""
    left_open: list[str] = Field(default_factory=list, sa_type=JSON)
    left_open_why: str = ""


class TrailRow(SQLModel, table=True):
    """Who did what, when. Written with every change, in the same transaction; never changed."""

    __tablename__ = "trail"
    metadata = Stamped.metadata
    __table_args__ = (found_by("at"), found_by("entry_id"))

    site_id: str = Field(primary_key=True)
    id: str = Field(primary_key=True)
    at: datetime
    who: str
    what: str
    entry_id: str
    details: dict[str, Any] = Field(sa_type=JSON)

"""What the shop says of its own costs."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, Index, text

from app.history.figures import FigureKind
from app.history.tables.stamped import Strikeable, one_of


class FigureRow(Strikeable, table=True):
    """A new figure strikes the old one out, which stays readable; one stands for each thing and vehicle family."""

    __tablename__ = "figures"
    __table_args__ = (
        one_of("kind", FigureKind),
        CheckConstraint("value >= 0", name="value_not_negative"),
        Index(
            "uq_figures_standing",
            "site_id",
            "kind",
            "about",
            "family",
            unique=True,
            sqlite_where=text("voided_at IS NULL"),
            postgresql_where=text("voided_at IS NULL"),
        ),
    )

    kind: str
    about: str = ""
    family: str = ""
    value: float
    words: str

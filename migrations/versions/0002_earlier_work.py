"""Earlier work: defects come upon, covers put back, photos of duties, what was left open when a case was closed."""

import sqlalchemy as sa
import sqlmodel
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = depends_on = None

TEXT = sqlmodel.AutoString()
MOMENT = sqlmodel.sql.sqltypes.UTCDateTime()


def upgrade():
    defects()
    put_back()
    for table, column, kind, default in (
        ("closings", "left_open", sa.JSON(), "[]"),
        ("closings", "left_open_why", TEXT, ""),
        ("duties", "photo", TEXT, ""),
    ):
        op.add_column(table, sa.Column(column, kind, nullable=False, server_default=default))


def downgrade():
    raise NotImplementedError("A way back is a restored backup.")


def stamped():
    return (
        sa.Column("site_id", TEXT, nullable=False),
        sa.Column("id", TEXT, nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("recorded_at", MOMENT, nullable=False),
        sa.Column("recorded_by", TEXT, nullable=False),
        sa.Column("voided_at", MOMENT, nullable=True),
        sa.Column("voided_by", TEXT, nullable=True),
        sa.Column("void_reason", TEXT, nullable=False),
    )


def refers(table, column, other):
    name = op.f(f"fk_{table}_{column}_{other}")
    return sa.ForeignKeyConstraint(["site_id", column], [f"{other}.site_id", f"{other}.id"], name=name)


def defects():
    op.create_table(
        "defects",
        *stamped(),
        sa.Column("visit_id", TEXT, nullable=False),
        sa.Column("case_id", TEXT, nullable=True),
        sa.Column("source", TEXT, nullable=False),
        sa.Column("note", TEXT, nullable=False),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("place", TEXT, nullable=False),
        sa.Column("words", TEXT, nullable=False),
        sa.Column("job_id", TEXT, nullable=True),
        sa.Column("photo", TEXT, nullable=False),
        sa.CheckConstraint(
            "source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')",
            name=op.f("ck_defects_source_word"),
        ),
        refers("defects", "visit_id", "visits"),
        refers("defects", "case_id", "cases"),
        refers("defects", "job_id", "jobs"),
        sa.PrimaryKeyConstraint("site_id", "id", name=op.f("pk_defects")),
    )
    for column in ("visit_id", "job_id", "kind"):
        op.create_index(op.f(f"ix_defects_site_id_{column}"), "defects", ["site_id", column])


def put_back():
    op.create_table(
        "put_back",
        *stamped(),
        sa.Column("case_id", TEXT, nullable=False),
        sa.Column("visit_id", TEXT, nullable=True),
        sa.Column("cover", TEXT, nullable=False),
        refers("put_back", "case_id", "cases"),
        refers("put_back", "visit_id", "visits"),
        sa.PrimaryKeyConstraint("site_id", "id", name=op.f("pk_put_back")),
    )
    op.create_index(op.f("ix_put_back_site_id_case_id"), "put_back", ["site_id", "case_id"])

"""Proof of repair: cases under proof; runs and scans after a repair; what is believed to be mended; returns."""

import sqlalchemy as sa
import sqlmodel
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = depends_on = None

TEXT = sqlmodel.AutoString()
MOMENT = sqlmodel.sql.sqltypes.UTCDateTime()
SOURCES = "source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')"
STATES = "state IN ('open', 'under proof', 'closed')"


def upgrade():
    with op.batch_alter_table("cases") as cases:
        cases.drop_constraint(op.f("ck_cases_state_word"), type_="check")
        cases.create_check_constraint(op.f("ck_cases_state_word"), STATES)
    proof_runs()
    scans()
    proofs()
    returns()


def downgrade():
    raise NotImplementedError("A way back is a restored backup.")


def stamped():
    return (
        *each(TEXT, "site_id", "id"),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("recorded_at", MOMENT, nullable=False),
        sa.Column("recorded_by", TEXT, nullable=False),
    )


def strikeable():
    return (
        *stamped(),
        sa.Column("voided_at", MOMENT, nullable=True),
        sa.Column("voided_by", TEXT, nullable=True),
        sa.Column("void_reason", TEXT, nullable=False),
    )


def of_a_visit(table):
    return (
        *strikeable(),
        sa.Column("visit_id", TEXT, nullable=False),
        sa.Column("case_id", TEXT, nullable=True),
        *each(TEXT, "source", "note"),
        sa.CheckConstraint(SOURCES, name=op.f(f"ck_{table}_source_word")),
        refers(table, "visit_id", "visits"),
        refers(table, "case_id", "cases"),
        site_and_id(table),
    )


def each(kind, *names, nullable=False):
    return (sa.Column(name, kind, nullable=nullable) for name in names)


def site_and_id(table):
    return sa.PrimaryKeyConstraint("site_id", "id", name=f"pk_{table}")


def refers(table, column, other):
    name = f"fk_{table}_{column}_{other}"
    return sa.ForeignKeyConstraint(["site_id", column], [f"{other}.site_id", f"{other}.id"], name=name)


def check(table, name, words):
    return sa.CheckConstraint(words, name=op.f(f"ck_{table}_{name}"))


def found_by(table, column):
    op.create_index(f"ix_{table}_site_id_{column}", table, ["site_id", column])


def proof_runs():
    amounts = ("km", "minutes", "starts", "cycles")
    op.create_table(
        "proof_runs",
        *of_a_visit("proof_runs"),
        sa.Column("day", sa.Date(), nullable=True),
        *each(sa.Boolean(), "came_back", "ordinary"),
        sa.Column("conditions", sa.JSON(), nullable=False),
        *each(sa.Float(), *amounts, nullable=True),
        sa.Column("route", TEXT, nullable=False),
        *(check("proof_runs", f"{name}_not_negative", f"{name} IS NULL OR {name} >= 0") for name in amounts),
    )
    found_by("proof_runs", "visit_id")


def scans():
    op.create_table(
        "scans",
        *of_a_visit("scans"),
        sa.Column("day", sa.Date(), nullable=True),
        *each(sa.JSON(), "monitors", "codes"),
        sa.Column("cleared", sa.Boolean(), nullable=True),
    )
    found_by("scans", "visit_id")


def proofs():
    op.create_table(
        "proofs",
        *strikeable(),
        *each(TEXT, "case_id", "visit_id", "cause", "place"),
        sa.Column("worked", sa.Float(), nullable=True),
        sa.Column("note", TEXT, nullable=False),
        check("proofs", "cause_with_place", "(cause = '') = (place = '')"),
        check("proofs", "worked_is_a_chance", "worked IS NULL OR (worked >= 0 AND worked <= 1)"),
        refers("proofs", "case_id", "cases"),
        refers("proofs", "visit_id", "visits"),
        site_and_id("proofs"),
    )
    found_by("proofs", "case_id")


def returns():
    op.create_table(
        "returns",
        *stamped(),
        *each(TEXT, "case_id", "entry_id", "state", "cause", "place"),
        check("returns", "state_word", STATES),
        check("returns", "cause_with_place", "(cause = '') = (place = '')"),
        refers("returns", "case_id", "cases"),
        site_and_id("returns"),
    )
    found_by("returns", "case_id")
    found_by("returns", "entry_id")

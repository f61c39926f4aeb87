"""The shop's own figures (its hour, its minutes, its parts), and its word for a vehicle's family."""

import sqlalchemy as sa
import sqlmodel
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = depends_on = None

TEXT = sqlmodel.AutoString()
MOMENT = sqlmodel.sql.sqltypes.UTCDateTime()


def upgrade():
    op.add_column("vehicles", sa.Column("family", TEXT, nullable=False, server_default=""))
    op.create_table(
        "figures",
        sa.Column("site_id", TEXT, nullable=False),
        sa.Column("id", TEXT, nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("recorded_at", MOMENT, nullable=False),
        sa.Column("recorded_by", TEXT, nullable=False),
        sa.Column("voided_at", MOMENT, nullable=True),
        sa.Column("voided_by", TEXT, nullable=True),
        sa.Column("void_reason", TEXT, nullable=False),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("about", TEXT, nullable=False),
        sa.Column("family", TEXT, nullable=False),
        sa.Column("value", sa.Float(), nullable=False),
        sa.Column("words", TEXT, nullable=False),
        sa.PrimaryKeyConstraint("site_id", "id", name="pk_figures"),
        sa.CheckConstraint(KINDS, name="kind_word"),
        sa.CheckConstraint("value >= 0", name="value_not_negative"),
    )
    standing = sa.text("voided_at IS NULL")
    op.create_index(
        "uq_figures_standing",
        "figures",
        ["site_id", "kind", "about", "family"],
        unique=True,
        sqlite_where=standing,
        postgresql_where=standing,
    )


KINDS = (
    "kind IN ('labour rate', 'currency', 'hours when nothing listed helps', 'operation minutes', 'test minutes', "
    "'cover minutes', 'part price')"
)


def downgrade():
    raise NotImplementedError("A way back is a restored backup.")

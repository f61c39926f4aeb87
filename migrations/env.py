"""Alembic works on the connection it is given (app/history/migrate.py), inside that connection's transaction."""

from alembic import context

import app.history.tables.conclusions
import app.history.tables.figures
import app.history.tables.findings
import app.history.tables.proof
import app.history.tables.vehicles
import app.history.tables.visits
import app.history.tables.work  # noqa: F401 - each import brings its tables into the metadata
from app.history.tables.stamped import Stamped

FULL_TEXT = "vehicle_words_text"
"""The full-text index and the tables SQLite keeps for it; models know nothing of them."""


def ours(name, kind, _parents):
    return not (kind == "table" and name.startswith(FULL_TEXT))


connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=Stamped.metadata,
    render_as_batch=True,
    transactional_ddl=True,
    include_name=ours,
)
with context.begin_transaction():
    context.run_migrations()

"""Bringing the database to this program's tables (Alembic, settings in pyproject.toml)."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, make_url

from app.history.engine import open_engine
from app.history.errors import NewerThanProgram, Unreadable, in_our_words
from app.settings import PROJECT

PRAGMAS = ("busy_timeout=5000", "journal_mode=wal", "synchronous=full", "foreign_keys=off")
"""A changed table is copied and the old one dropped: with foreign keys on, that would empty its children."""


def migrate(url: str, revision: str = "head") -> None:
    """Make or bring up the database at this address, wholly or not at all; one of a newer program is left alone."""
    _make_folder(url)
    engine = open_engine(url, PRAGMAS)
    try:
        with in_our_words(), engine.execution_options(write=True).begin() as connection:
            _refuse_newer(connection)
            command.upgrade(config_for(connection), revision)
            _refuse_orphans(connection)
    finally:
        engine.dispose()


def config_for(connection: Connection) -> Config:
    """Alembic's settings, working on this connection."""
    config = Config(toml_file=PROJECT / "pyproject.toml")
    config.attributes["connection"] = connection
    return config


def _make_folder(url: str) -> None:
    database = make_url(url).database
    if database:
        Path(database).parent.mkdir(parents=True, exist_ok=True)


def _refuse_newer(connection: Connection) -> None:
    known = {script.revision for script in ScriptDirectory.from_config(config_for(connection)).walk_revisions()}
    for revision in MigrationContext.configure(connection).get_current_heads():
        if revision not in known:
            raise NewerThanProgram(revision)


def _refuse_orphans(connection: Connection) -> None:
    orphans = connection.exec_driver_sql("pragma foreign_key_check").fetchall()
    if orphans:
        raise Unreadable(f"rows of {orphans[0][0]} refer to rows of {orphans[0][2]} that are not there")

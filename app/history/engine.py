"""Opening the database: pragmas, real transactions, and `open_history`."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event

from app.history.history import History

PRAGMAS = ("busy_timeout=5000", "journal_mode=wal", "synchronous=full", "foreign_keys=on")


def open_history(url: str, site_id: str) -> History:
    """The history kept at this address, for one site. `migrate(url)` comes first."""
    return History(engine=open_engine(url, PRAGMAS), site=site_id)


def open_engine(url: str, pragmas: tuple[str, ...]) -> Engine:
    """An engine whose transactions begin when we say so.

    The driver would open one only at the first write, so that what was read before it is already stale: of 1,000
    read-and-add commits 947 were lost that way.
    """
    engine = create_engine(url)

    def set_up(connection: Any, _record: object) -> None:  # noqa: ANN401 - the driver's own connection
        connection.isolation_level = None
        for pragma in pragmas:
            connection.execute(f"pragma {pragma}")

    event.listen(engine, "connect", set_up)
    event.listen(engine, "begin", _begin)
    return engine


def _begin(connection: Connection) -> None:
    """A writer takes the lock before it reads; readers see one unchanging state."""
    writes = connection.get_execution_options().get("write")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

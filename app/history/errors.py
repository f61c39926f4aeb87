"""What can go wrong with the history, as one tree; each says what happened and what to do.

    HistoryError
    ├── NotHere            no such vehicle, case, entry … on this site
    ├── Changed            someone changed it since it was read; carries what it is now
    ├── NoRoom             the disk is full or faulty: nothing was stored
    ├── Busy               another writer holds the database for too long
    ├── Unreadable         the file is no database, damaged, missing or not to be written
    └── NewerThanProgram   the database was written by a newer program

Input that cannot be taken is `app.problem.Refused`.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError


class HistoryError(Exception):
    """Something the history could not do."""


class NotHere(HistoryError):
    def __init__(self, what: str, id: str) -> None:
        super().__init__(f"There is no {what} “{id}” here.")
        self.what, self.id = what, id


class Changed(HistoryError):
    """Someone changed it since it was read. `current`: what it is now, as the plain value its read gives."""

    def __init__(self, current: object) -> None:
        super().__init__("Someone changed this since you opened it. Look at both, then decide.")
        self.current = current


class NoRoom(HistoryError):
    def __init__(self) -> None:
        super().__init__("The disk is full or faulty, so nothing was stored. Make room, then send it again.")


class Busy(HistoryError):
    def __init__(self) -> None:
        super().__init__("The history is being written by someone else. Nothing was stored; send it again.")


class Unreadable(HistoryError):
    def __init__(self, why: str) -> None:
        super().__init__(f"The history cannot be used: {why}. Bring back the last backup or mend the folder’s rights.")


class NewerThanProgram(HistoryError):
    def __init__(self, revision: str) -> None:
        super().__init__(
            f"This history was written by a newer Proofbay (revision {revision}). Nothing was changed; start that one."
        )
        self.revision = revision


UNREADABLE = {
    "SQLITE_NOTADB": "the file is not a database",
    "SQLITE_CORRUPT": "the file is damaged",
    "SQLITE_CANTOPEN": "the file cannot be opened",
    "SQLITE_READONLY": "the file may not be written",
}


@contextmanager
def in_our_words() -> Iterator[None]:
    """Turn what the database says into one of the errors above; anything else passes as it is."""
    try:
        yield
    except (DBAPIError, sqlite3.Error) as error:
        known = _known(error.orig if isinstance(error, DBAPIError) else error)
        if known is None:
            raise
        raise known from error


def _known(error: object) -> HistoryError | None:
    """A full disk shows as FULL or, under a limit on file size, as an I/O error: both mean that nothing was stored."""
    if not isinstance(error, sqlite3.Error):
        return None
    name = getattr(error, "sqlite_errorname", None) or ""
    if name == "SQLITE_FULL" or name.startswith("SQLITE_IOERR"):
        return NoRoom()
    if name.startswith("SQLITE_BUSY"):
        return Busy()
    return next((Unreadable(why) for start, why in UNREADABLE.items() if name.startswith(start)), None)

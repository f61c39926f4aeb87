"""Ids made by the program: UUIDs that sort by the time they were made (RFC 9562, version 7)."""

from __future__ import annotations

import secrets
from collections.abc import Iterator
from datetime import datetime
from itertools import count
from uuid import UUID


def new_id(now: datetime) -> str:
    """A fresh id, for a form that is about to be shown: sent twice, it is recorded once."""
    return next(ids_from(now))


def ids_from(now: datetime) -> Iterator[str]:
    """Fresh ids that sort in the order they are drawn, even within one millisecond.

    The 12 bits after the version count up and carry into the milliseconds (RFC 9562, section 6.2, method 1).
    """
    start = int(now.timestamp() * 1000) << 12
    return (str(_version_7(ticks)) for ticks in count(start))


def _version_7(ticks: int) -> UUID:
    milliseconds, counter = ticks >> 12, ticks & 0xFFF
    return UUID(int=(milliseconds << 80) | (7 << 76) | (counter << 64) | (2 << 62) | secrets.randbits(62))

"""Confirmed, ruled out, raised, lowered or open: computed from the posterior and from what was seen here."""

from __future__ import annotations

from collections.abc import Iterable

from app.board.answered import Answered
from app.board.board import Status
from app.board.old_results import changed_since, rules_in, rules_out
from app.network.lines import TestLine
from app.rules.thresholds import LEANS_FROM, LEANS_TO

CONFIRMED_FROM = 0.95
RULED_OUT_TO = 0.02


def status_of(number: int, answered: Answered) -> Status:
    """Nothing is confirmed or ruled out but by a result measured or seen here that can do so."""
    chance = answered.chance(number)
    if chance.yes >= CONFIRMED_FROM and any(rules_in(f, number, answered) for f in _seen_here(number, answered)):
        return Status.CONFIRMED
    if chance.yes <= RULED_OUT_TO and any(rules_out(f, number, answered) for f in _seen_here(number, answered)):
        return Status.RULED_OUT
    return _direction(number, answered)


def _seen_here(number: int, answered: Answered) -> Iterable[int]:
    """The results, duties and defects, measured or seen here, that speak about the row as it is now."""
    row = answered.network.rows[number]
    for line in answered.network.lines.tests:
        if line.result is None or not line.result.source.here or not _has_link(line, number, answered):
            continue
        if row.job is None and changed_since(line, row, answered) is not None:
            continue
        yield line.finding
    for duty in answered.network.lines.duties:
        if duty.duty.source.here and duty.duty.cause == row.cause:
            yield duty.finding
    for defect in answered.network.lines.defects:
        if defect.defect.source.here and defect.defect.cause == row.cause and row.job is None:
            yield defect.finding


def _has_link(line: TestLine, number: int, answered: Answered) -> bool:
    return number in answered.asked.speaks_of.get(line.finding, ())


def _direction(number: int, answered: Answered) -> Status:
    """What all test results together have done to it."""
    factor = answered.results_factor(number)
    if factor is None or LEANS_TO < factor < LEANS_FROM:
        return Status.OPEN
    return Status.RAISED if factor >= LEANS_FROM else Status.LOWERED

"""What a test can do to a row: rules in, rules out, both, leans, or cannot show and why (DESIGN section 8)."""

from __future__ import annotations

from app.beliefs.beliefs import Masses
from app.board.answered import Answered
from app.board.board import Cell, Mark
from app.network.lines import TestLine
from app.network.rows import RowMembers
from app.rules.tests import Test
from app.rules.thresholds import CAN_RULE_IN, CAN_RULE_OUT, LEANS_FROM, LEANS_TO
from app.rules.words import CauseId

MASKED_FROM = 0.3
KNOWN_FROM = 0.95


def cell(line: TestLine, row: RowMembers, masses: Masses | None, answered: Answered) -> Cell:
    """The mark of a test (to come, or done and taken back for the question) for one row."""
    blind = _known_blind(line, row.cause)
    if blind is not None:
        return Cell(Mark.CANNOT_SHOW, None, None, blind)
    if masses is None:
        return Cell(Mark.CANNOT_SHOW, None, None, no_link_reason(line.test, row.cause))
    mark = mark_of(masses.lr_plus, masses.lr_minus)
    reason = "" if mark is not Mark.CANNOT_SHOW else _computed_reason(line, row, masses, answered)
    return Cell(mark, masses.lr_plus, masses.lr_minus, reason)


def mark_of(lr_plus: float | None, lr_minus: float | None) -> Mark:
    """LR+ below 1 and LR- above 1 are explaining away and make no mark."""
    rules_in = lr_plus is not None and lr_plus >= CAN_RULE_IN
    rules_out = lr_minus is not None and lr_minus <= CAN_RULE_OUT
    if rules_in and rules_out:
        return Mark.BOTH
    if rules_in or rules_out:
        return Mark.RULES_IN if rules_in else Mark.RULES_OUT
    leans = (lr_plus is not None and lr_plus >= LEANS_FROM) or (lr_minus is not None and lr_minus <= LEANS_TO)
    return Mark.LEANS if leans else Mark.CANNOT_SHOW


def no_link_reason(test: Test, cause: CauseId) -> str:
    """The rule's own sentence."""
    for named in test.cannot_show:
        if named.cause == cause:
            return named.reason
    return "These rules name no way in which this test would show it."


def _known_blind(line: TestLine, cause: CauseId) -> str | None:
    """The rule's sentence when a result was taken in a situation in which the test misses this cause."""
    if line.result is None:
        return None
    taken_in = line.result.situations
    return next(
        (b.reason for b in line.test.blind_when if b.cause == cause and taken_in.get(b.situation)),
        None,
    )


def _computed_reason(line: TestLine, row: RowMembers, masses: Masses, answered: Answered) -> str:
    off = masses.off_present + masses.off_absent
    if off > 0.0 and masses.off_present / off >= MASKED_FROM:
        return _masked_reason(line, row, answered)
    if line.finding in answered.asked.of_result and _has_mates(line.finding, answered):
        return "It would miss this for the same reason as another test already done."
    return "Fault or no fault, its result would hardly differ."


def _has_mates(finding: int, answered: Answered) -> bool:
    together = answered.asked.further.retests[answered.asked.of_result[finding]]
    return len(together) > 1


def _masked_reason(line: TestLine, row: RowMembers, answered: Answered) -> str:
    """Names the likeliest other cause that would make this test fail anyway."""
    shown = {s.cause for s in line.test.shows} - {row.cause}
    others = (number for number in answered.likeliest_at(line.place) if answered.network.rows[number].cause in shown)
    number = next(others, None)
    if number is None:
        return "It would often come out abnormal anyway."
    other = answered.network.rows[number]
    name = answered.rules.causes[other.cause].name
    where = answered.case.vehicle.layout.in_words(other.place) if other.place else ""
    sure = "is known" if answered.chance(number).yes >= KNOWN_FROM else "is likely"
    return f"It would come out abnormal anyway: {name} ({where}) {sure}."

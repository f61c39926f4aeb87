"""Lines of evidence as findings: what a hypothesis may have to answer for, before asking which hypothesis."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from app.evidence.belief import Belief
from app.evidence.case import Case
from app.evidence.moments import Moment, Phase
from app.evidence.observe import DefectFinding, DutyFinding, Evidence, ResultFinding
from app.network.book import FindingBook
from app.rules.library import Rules
from app.rules.tests import Test
from app.rules.words import CauseId, SymptomId
from app.vehicle.layout import PlaceId

SEEN_WITH_OWN_EYES = 1e-4
"""Chance that a duty reported wrong was right: it was looked at, not inferred (judgement)."""


@dataclass(frozen=True, slots=True)
class SymptomLine:
    """A symptom told or looked for. `brought`: it is the complaint and was there, so the vehicle came because of it."""

    finding: int
    symptom: SymptomId = field(hash=False)
    place: PlaceId = field(hash=False)
    at: Moment = field(hash=False)
    brought: bool = field(default=False, hash=False)


@dataclass(frozen=True, slots=True)
class TestLine:
    """A result, or a test to come (`result` None), at the moment whose state it speaks about."""

    __test__ = False

    finding: int
    test: Test
    place: PlaceId
    at: Moment
    result: ResultFinding | None


@dataclass(frozen=True, slots=True)
class ToCome:
    """A test that could be done next, at a place."""

    test: Test
    place: PlaceId


@dataclass(frozen=True, slots=True)
class DutyLine:
    finding: int
    duty: DutyFinding


@dataclass(frozen=True, slots=True)
class DefectLine:
    finding: int
    defect: DefectFinding


@dataclass(frozen=True, slots=True)
class Lines:
    """All findings by what they are.

    `complaint`: where it was last seen; `once`: its other moments. `tests`: results, then the tests to come that were
    asked for. `showing`: per cause the lines of the tests that show it, with the strength. `possible`: every test that
    could be done next and shows one of the case's causes.
    """

    complaint: tuple[SymptomLine, ...]
    once: tuple[SymptomLine, ...]
    symptoms: tuple[SymptomLine, ...]
    tests: tuple[TestLine, ...]
    duties: tuple[DutyLine, ...]
    defects: tuple[DefectLine, ...]
    showing: Mapping[CauseId, tuple[tuple[TestLine, float], ...]]
    possible: tuple[ToCome, ...]

    def moments(self) -> frozenset[Moment]:
        """Every moment that a line speaks about."""
        told = (line.at for line in (*self.complaint, *self.once, *self.symptoms))
        tested = (line.at for line in self.tests)
        looked_at = (*(line.duty.at for line in self.duties), *(line.defect.at for line in self.defects))
        return frozenset((*told, *tested, *looked_at))


StillCurrent = Callable[[ResultFinding], bool]
"""Whether a result was taken here and speaks about the present state of all that its test can show."""


def lines_of(
    case: Case,
    evidence: Evidence,
    current: StillCurrent,
    *,
    causes: Collection[CauseId],
    rules: Rules,
    book: FindingBook,
    tests: Iterable[ToCome],
    possible: tuple[ToCome, ...] = (),
) -> Lines:
    """Enter every statement, result, duty and defect into the book, then the tests to come that are asked for.

    `causes`: those the case has to do with. `possible`: the tests that can be done, where that is known already.
    """
    now = Moment(case.visits[-1].number, Phase.TIME_PASSED)
    leak = rules.settings.leak
    details, once = _complaint_lines(case, evidence, leak, book)
    symptoms = tuple(
        SymptomLine(
            book.reported(s.belief, leak=_without_fault(s.symptom, rules), entry=s.entry), s.symptom, s.place, s.at
        )
        for s in evidence.symptoms
    )
    results = tuple(_result_line(r, rules, book) for r in evidence.results)
    duties = tuple(
        DutyLine(book.reported(d.belief, leak=SEEN_WITH_OWN_EYES, entry=d.entry), d) for d in evidence.duties
    )
    defects = tuple(DefectLine(book.reported(d.belief, leak=leak, entry=d.entry), d) for d in evidence.defects)
    to_come = tuple(_line_to_come(one, now, book) for one in tests)
    lines = (*results, *to_come)
    can_be_done = possible or tuple(_to_come(case, results, current, _showing_any(causes, rules)))
    return Lines(details, once, symptoms, lines, duties, defects, _showing(lines), can_be_done)


def _complaint_lines(
    case: Case, evidence: Evidence, leak: float, book: FindingBook
) -> tuple[tuple[SymptomLine, ...], tuple[SymptomLine, ...]]:
    """In detail where it was last seen, and once for every other moment."""
    complaint = evidence.complaint
    details = tuple(
        SymptomLine(_said(book, d.present, leak, d.entry), d.symptom, d.place, d.at, d.present)
        for d in complaint.details
    )
    once = tuple(
        SymptomLine(_said(book, o.present, leak, o.entry), complaint.symptom, case.complaint_place, o.at, o.present)
        for o in complaint.once
    )
    return details, once


def _showing_any(causes: Collection[CauseId], rules: Rules) -> list[Test]:
    return [test for test in rules.tests.values() if any(shows.cause in causes for shows in test.shows)]


def _line_to_come(one: ToCome, now: Moment, book: FindingBook) -> TestLine:
    finding = book.to_be_tested(one.test.id, one.place, leak=one.test.false_alarm.chance)
    return TestLine(finding, one.test, one.place, now, None)


def _showing(tests: Iterable[TestLine]) -> Mapping[CauseId, tuple[tuple[TestLine, float], ...]]:
    found: dict[CauseId, list[tuple[TestLine, float]]] = defaultdict(list)
    for line in tests:
        for shows in line.test.shows:
            found[shows.cause].append((line, shows.strength.chance))
    return {cause: tuple(lines) for cause, lines in found.items()}


def _said(book: FindingBook, present: bool, leak: float, entry: str) -> int:
    """The complaint itself is taken as said: the customer knows what brought them."""
    return book.reported(Belief(float(present), float(not present)), leak=leak, entry=entry)


def _without_fault(symptom: SymptomId, rules: Rules) -> float:
    rated = rules.symptoms[symptom].without_fault
    return rules.settings.leak if rated is None else rated.chance


def _result_line(result: ResultFinding, rules: Rules, book: FindingBook) -> TestLine:
    test = rules.tests[result.test]
    finding = book.reported(result.belief, leak=test.false_alarm.chance, entry=result.entry)
    return TestLine(finding, test, result.place, result.at, result)


def _to_come(
    case: Case, results: tuple[TestLine, ...], current: StillCurrent, tests: Iterable[Test]
) -> Iterator[ToCome]:
    """Each of these tests at every place where it can be done and has not been done here on the present state."""
    done = {(line.test.id, line.place) for line in results if line.result is not None and current(line.result)}
    for test in tests:
        for place in test.can_be_done_at(case.vehicle.layout):
            if (test.id, place) not in done:
                yield ToCome(test, place)

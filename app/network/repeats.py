"""The same test repeated on one state fails falsely for the same reason: its false alarm is one draw."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from app.network.book import FindingBook
from app.network.candidates import Candidate
from app.network.lines import Lines, TestLine
from app.network.noisy_or import Group, Hypothesis, Leaf, State
from app.vehicle.layout import Layout


def repeated_false_alarms(
    lines: Lines, book: FindingBook, found: Sequence[Candidate], layout: Layout
) -> list[Hypothesis]:
    """For each test repeated on one state: an always-on hypothesis that takes over the leaks of its readings."""
    hypotheses = []
    for repeats in _repeats(lines, found, layout):
        alarm = repeats[0].test.false_alarm.chance
        again = (1.0 + alarm) / 2.0
        for line in repeats:
            book.take_over_leak(line.finding)
        leaves = tuple(Leaf(line.finding, again) for line in repeats)
        hypotheses.append(Hypothesis((State(1.0, (Group(alarm / again, leaves),)),)))
    return hypotheses


def _repeats(lines: Lines, found: Sequence[Candidate], layout: Layout) -> Iterable[list[TestLine]]:
    """Readings of one test at one place between which no job changed anything the test can show."""
    by_place: dict[tuple[str, str], list[TestLine]] = defaultdict(list)
    for line in lines.tests:
        by_place[line.test.id, line.place].append(line)
    for readings in by_place.values():
        if len(readings) > 1:
            by_state: dict[int, list[TestLine]] = defaultdict(list)
            for line in readings:
                by_state[_state(line, found, layout)].append(line)
            yield from (same for same in by_state.values() if len(same) > 1)


def _state(line: TestLine, found: Sequence[Candidate], layout: Layout) -> int:
    shown = {s.cause for s in line.test.shows}
    return sum(
        cut.at < line.at
        for candidate in found
        if candidate.cause.id in shown and layout.related(candidate.place, line.place)
        for cut in candidate.cuts
        if cut.job is not None
    )

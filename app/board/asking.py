"""What a board asks of its network, and which answer belongs to what."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from app.network.build import CaseNetwork
from app.network.lines import DefectLine, DutyLine, TestLine
from app.network.noisy_or import Questions, Report, Without
from app.network.rows import RowMembers
from app.vehicle.layout import Layout, PlaceId


@dataclass(frozen=True, slots=True)
class Asked:
    """The questions with the keys to their answers.

    `of_result`: finding of a result, duty or defect -> number of its retest (it, its repeats and blind mates left out);
    `of_places`: finding and place of a row -> retest without all readings of that test in the place (None: anywhere);
    `blame_of`: row -> number of its blame question (rows of the same hypotheses share one); `all_listed`: number of the
    question about every listed cause.
    """

    questions: Questions
    of_result: Mapping[int, int]
    of_places: Mapping[tuple[int, PlaceId | None], int]
    blame_of: tuple[int, ...]
    all_listed: int

    def retest_for(self, finding: int, place: PlaceId | None) -> int:
        """The retest that judges a result for a row: readings at several places of one fault are taken together."""
        return self.of_places.get((finding, place), self.of_result[finding])


def ask(network: CaseNetwork, layout: Layout) -> Asked:
    """What the entries so far say and could have said; each set of findings only once."""
    results = [line for line in network.lines.tests if line.result is not None]
    sets = _Sets()
    of_result = {line.finding: sets.number(_taken_together(line, results)) for line in results}
    of_places = _over_places(results, sets, layout)
    of_result |= {line.finding: sets.number((line.finding,)) for line in _looked_at(network)}
    spoken_of = relevant(results, network, layout) | _of_looked_at(network)
    blamed: dict[tuple[int, ...], int] = {}
    blame_of = tuple(blamed.setdefault(row.members, len(blamed)) for row in network.rows)
    blamed.setdefault(network.listed, len(blamed))
    questions = Questions(
        retests=tuple(sets.found),
        without=_all_results(results, spoken_of),
        relevant=spoken_of,
        complaint=complaint_findings(network),
        blamed=tuple(blamed),
    )
    return Asked(questions, of_result, of_places, blame_of=blame_of, all_listed=blamed[network.listed])


def _all_results(results: Iterable[TestLine], spoken_of: Mapping[int, tuple[int, ...]]) -> tuple[Without, ...]:
    """The chances with no test result at all, of every row that one speaks of: what they have done together."""
    findings = tuple(line.finding for line in results)
    rows = sorted({row for finding in findings for row in spoken_of[finding]})
    return (Without(findings, tuple(rows)),) if findings else ()


class _Sets:
    """Sets of findings, each numbered once."""

    def __init__(self) -> None:
        self.found: list[tuple[int, ...]] = []

    def number(self, findings: tuple[int, ...]) -> int:
        key = tuple(sorted(findings))
        if key not in self.found:
            self.found.append(key)
        return self.found.index(key)


def complaint_findings(network: CaseNetwork) -> tuple[int, ...]:
    """The findings that stand for the complaint where it was last seen."""
    findings = network.noisy_or.findings
    return tuple(c.finding for c in network.lines.complaint if findings[c.finding].report is Report.PRESENT)


def _taken_together(line: TestLine, results: Iterable[TestLine]) -> tuple[int, ...]:
    """A result with its repeats and those that may have been blind for the same reason."""
    together = [line.finding]
    for other in results:
        repeat = other.test.id == line.test.id and other.place == line.place
        if other is not line and (repeat or _blind_alike(line, other)):
            together.append(other.finding)
    return tuple(together)


def _over_places(results: Iterable[TestLine], sets: _Sets, layout: Layout) -> dict[tuple[int, PlaceId | None], int]:
    """For each larger place with several readings of one test in it: the set of those readings."""
    by_test: dict[str, list[TestLine]] = defaultdict(list)
    for line in results:
        by_test[line.test.id].append(line)
    found: dict[tuple[int, PlaceId | None], int] = {}
    larger: tuple[PlaceId | None, ...] = (None, *layout.all_places())
    for lines in by_test.values():
        for place in larger:
            inside = [line for line in lines if place is None or _lies_inside(line.place, place, layout)]
            if len({line.place for line in inside}) > 1:
                number = sets.number(tuple(line.finding for line in inside))
                found |= {(line.finding, place): number for line in inside}
    return found


def _lies_inside(place: PlaceId, larger: PlaceId, layout: Layout) -> bool:
    return place != larger and layout.covers(larger, place)


def _blind_alike(one: TestLine, other: TestLine) -> bool:
    return one.place == other.place and bool(_unknown_blindness(one) & _unknown_blindness(other))


def _unknown_blindness(line: TestLine) -> set[tuple[str, str]]:
    known = line.result.situations if line.result else {}
    return {(b.situation, b.cause) for b in line.test.blind_when if b.situation not in known}


def relevant(
    lines: Iterable[TestLine], network: CaseNetwork, layout: Layout, only: Collection[int] | None = None
) -> dict[int, tuple[int, ...]]:
    """For each test or result: the rows that it has a link to, at places it has to do with, and their heads."""
    rows_by_cause: dict[str, list[tuple[int, RowMembers]]] = defaultdict(list)
    for number, row in enumerate(network.rows):
        if only is None or number in only:
            rows_by_cause[row.cause].append((number, row))
    return {
        line.finding: tuple(
            number
            for shows in line.test.shows
            for number, row in rows_by_cause[shows.cause]
            if (row.place is None or layout.related(row.place, line.place)) and _speaks_of(line, row, network)
        )
        for line in lines
    }


def _looked_at(network: CaseNetwork) -> tuple[DutyLine | DefectLine, ...]:
    return (*network.lines.duties, *network.lines.defects)


def _of_looked_at(network: CaseNetwork) -> dict[int, tuple[int, ...]]:
    """Duties and defects speak about the one cause they bring, now."""
    causes = {line.finding: line.duty.cause for line in network.lines.duties}
    causes |= {line.finding: line.defect.cause for line in network.lines.defects}
    return {
        finding: tuple(n for n, row in enumerate(network.rows) if row.cause == cause and row.job is None)
        for finding, cause in causes.items()
    }


def _speaks_of(line: TestLine, row: RowMembers, network: CaseNetwork) -> bool:
    """A result speaks about the epoch it was taken in."""
    pairs = zip(row.members, row.epochs, strict=True)
    return any(network.candidates[member].epoch_at(line.at) == epoch for member, epoch in pairs)

"""What a board asks of its network, and which answer belongs to what."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from app.network.build import CaseNetwork
from app.network.lines import TestLine
from app.network.noisy_or import Questions, Report, Without
from app.network.rows import RowMembers
from app.vehicle.layout import Layout, PlaceId


@dataclass(frozen=True, slots=True)
class Asked:
    """The questions with the keys to their answers: `first` those that rank and settle the rows, `further` the rest.

    `of_result`: finding of a result -> number of its retest (it, its repeats and its blind mates left out).
    `speaks_of`: finding of a result, duty or defect -> the rows that it is about; `left_out`: the same with a row
    -> number of the question that leaves out all that is taken together with it for this row. `all_results`: number of
    the one that leaves out every result. `blame_of`: row -> number of its blame question (rows of the same hypotheses
    share one); `all_listed`: number of the question about every listed cause.
    """

    first: Questions
    further: Questions
    of_result: Mapping[int, int]
    speaks_of: Mapping[int, tuple[int, ...]]
    left_out: Mapping[tuple[int, int], int]
    all_results: int | None
    blame_of: tuple[int, ...]
    all_listed: int


def ask(network: CaseNetwork, layout: Layout) -> Asked:
    """What the entries so far say and could have said; each set of findings only once."""
    results = [line for line in network.lines.tests if line.result is not None]
    sets = _Sets()
    together = {line.finding: _taken_together(line, results) for line in results}
    of_result = {finding: sets.number(mates) for finding, mates in together.items()}
    speaks_of = relevant(results, network, layout) | _of_looked_at(network)
    without = _Without()
    wide = _over_places(results, layout)
    left_out: dict[tuple[int, int], int] = {}
    for finding, rows in speaks_of.items():
        alone = together.get(finding, (finding,))
        for row in rows:
            judged_by = wide.get((finding, network.rows[row].place), alone)
            left_out[finding, row] = without.number(judged_by, row)
    every = tuple(together)
    all_results = [without.number(every, row) for finding in every for row in speaks_of[finding]]
    blamed: dict[tuple[int, ...], int] = {}
    blame_of = tuple(blamed.setdefault(row.members, len(blamed)) for row in network.rows)
    blamed.setdefault(network.listed, len(blamed))
    fates = range(len(network.rows), len(network.noisy_or.events))
    return Asked(
        Questions(
            without=(*without.questions(), *(Without((), (event,)) for event in fates)),
            complaint=complaint_findings(network),
            blamed=tuple(blamed),
            events=tuple(range(len(network.rows))),
            states=False,
        ),
        _further(sets.found, {finding: _marked(speaks_of[finding], network) for finding in every}),
        of_result,
        speaks_of,
        left_out,
        all_results[0] if all_results else None,
        blame_of=blame_of,
        all_listed=blamed[network.listed],
    )


def _further(retests: Iterable[tuple[int, ...]], relevant: dict[int, tuple[int, ...]]) -> Questions:
    """What each result can show."""
    return Questions(retests=tuple(retests), relevant=relevant, events=(), states=False)


def _marked(rows: Iterable[int], network: CaseNetwork) -> tuple[int, ...]:
    """The rows about a place as it is now: only these are shown with a mark for each test."""
    return tuple(row for row in rows if network.rows[row].place is not None and network.rows[row].job is None)


class _Sets:
    """Sets of findings, each numbered once."""

    def __init__(self) -> None:
        self.found: list[tuple[int, ...]] = []

    def number(self, findings: tuple[int, ...]) -> int:
        key = tuple(sorted(findings))
        if key not in self.found:
            self.found.append(key)
        return self.found.index(key)


class _Without:
    """Sets of findings to be left out, each numbered once, with the rows that are asked about then."""

    def __init__(self) -> None:
        self.sets = _Sets()
        self.rows: dict[int, dict[int, None]] = defaultdict(dict)

    def number(self, findings: tuple[int, ...], row: int) -> int:
        number = self.sets.number(findings)
        self.rows[number][row] = None
        return number

    def questions(self) -> tuple[Without, ...]:
        return tuple(Without(findings, tuple(self.rows[n])) for n, findings in enumerate(self.sets.found))


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


def _over_places(results: Iterable[TestLine], layout: Layout) -> dict[tuple[int, PlaceId | None], tuple[int, ...]]:
    """For each larger place with several readings of one test in it: those readings, which judge it together."""
    by_test: dict[str, list[TestLine]] = defaultdict(list)
    for line in results:
        by_test[line.test.id].append(line)
    found: dict[tuple[int, PlaceId | None], tuple[int, ...]] = {}
    larger: tuple[PlaceId | None, ...] = (None, *layout.all_places())
    for lines in by_test.values():
        for place in larger:
            inside = [line for line in lines if place is None or _lies_inside(line.place, place, layout)]
            if len({line.place for line in inside}) > 1:
                findings = tuple(line.finding for line in inside)
                found |= dict.fromkeys(((finding, place) for finding in findings), findings)
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

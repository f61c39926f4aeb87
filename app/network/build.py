"""Evidence, rules and layout become a network: candidates as hypotheses, lines as findings, rows as events."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from app.evidence.case import Case
from app.evidence.observe import Evidence
from app.network.book import FindingBook
from app.network.candidates import Candidate, candidates, still_current
from app.network.damage import Victim, Victims, lives_of
from app.network.lines import Lines, ToCome, lines_of
from app.network.links import Doing, reach_of, told_of
from app.network.noisy_or import Document, Event, Hypothesis, NoisyOr
from app.network.repeats import repeated_false_alarms
from app.network.rows import RowMembers, rows_of
from app.network.states import HypothesisStates, states_of
from app.network.unlisted import unlisted
from app.rules.library import Rules
from app.rules.words import CauseId
from app.vehicle.layout import Layout, PlaceId


@dataclass(frozen=True, slots=True)
class CaseNetwork:
    """A network and what its numbers stand for.

    `candidates[i]` is hypothesis i, `rows[j]` is event j. For rows that something listed can destroy: `by_itself[j]` is
    the event that the row's own states hold, `killed[j]` the event that a culprit's damage acts, `culprits[j]` the
    candidates that can do it. `now_at`: cause and place -> its row about now. `built[i]`: the states of candidate i;
    `unlisted`: what stands for all that is not listed. What each entry reported: `book.entries`.
    """

    noisy_or: NoisyOr
    evidence: Evidence
    candidates: tuple[Candidate, ...]
    rows: tuple[RowMembers, ...]
    now_at: Mapping[tuple[CauseId, PlaceId], int]
    by_itself: Mapping[int, int]
    killed: Mapping[int, int]
    culprits: Mapping[int, tuple[int, ...]]
    lines: Lines
    book: FindingBook
    built: tuple[HypothesisStates, ...]
    unlisted: tuple[Hypothesis, ...]

    @property
    def listed(self) -> tuple[int, ...]:
        return tuple(range(len(self.candidates)))


def build_network(
    case: Case, evidence: Evidence, rules: Rules, tests: Iterable[ToCome] = (), *, known: CaseNetwork | None = None
) -> CaseNetwork:
    """The exact model of a case (DESIGN section 7), with these tests to come.

    Hypotheses, rows and the findings of the evidence have the same numbers whatever tests are asked for. `known`: the
    network of the same case without tests to come; what these do not touch is taken from it.
    """
    layout = case.vehicle.layout
    book = FindingBook()
    found = known.candidates if known else candidates(case, evidence, rules)
    lines = lines_of(
        case,
        evidence,
        lambda result: still_current(result, found, rules, layout),
        causes={candidate.cause.id for candidate in found},
        rules=rules,
        book=book,
        tests=tests,
        possible=known.lines.possible if known else (),
    )
    rows = known.rows if known else rows_of(found, layout)
    now_at = known.now_at if known else _now_at(rows)
    culprits = known.culprits if known else _culprits(found, rows, layout)
    events = {row: (row, len(rows) + 2 * n + 1) for n, row in enumerate(culprits)}
    untouched = _untouched(known, lines) if known else {}
    built = _hypotheses(case, found, lines, rows, events, rules, untouched)
    others = known.unlisted if known else unlisted(case, evidence.complaint, lines, rules)
    alarms = repeated_false_alarms(lines, book, found, layout)
    noisy_or = NoisyOr(
        findings=tuple(book.findings),
        hypotheses=(*(b.hypothesis for b in built), *others, *alarms),
        documents=_documents(evidence, book, rules),
        events=_events(rows, built, culprits),
    )
    by_itself = {row: killed - 1 for row, (_, killed) in events.items()}
    killed = {row: killed for row, (_, killed) in events.items()}
    return CaseNetwork(
        noisy_or, evidence, found, rows, now_at, by_itself, killed, culprits, lines, book, tuple(built), others
    )


def _now_at(rows: Sequence[RowMembers]) -> dict[tuple[CauseId, PlaceId], int]:
    return {(row.cause, row.place): n for n, row in enumerate(rows) if row.place is not None and row.job is None}


def _untouched(known: CaseNetwork, lines: Lines) -> dict[int, HypothesisStates]:
    """What the hypotheses do of which no test to come shows the cause, nor anything that it destroys."""
    shown = {shows.cause for line in lines.tests if line.result is None for shows in line.test.shows}
    return {
        number: known.built[number]
        for number, candidate in enumerate(known.candidates)
        if shown.isdisjoint((candidate.cause.id, *(damages.victim for damages in candidate.cause.damages)))
    }


def _culprits(found: Sequence[Candidate], rows: Sequence[RowMembers], layout: Layout) -> dict[int, tuple[int, ...]]:
    """For each row about now that something listed can destroy: the candidates that can."""
    destroyers: dict[str, list[int]] = defaultdict(list)
    for number, candidate in enumerate(found):
        for damages in candidate.cause.damages:
            destroyers[damages.victim].append(number)
    return {
        number: near
        for number, row in enumerate(rows)
        if row.job is None
        and (near := tuple(c for c in destroyers[row.cause] if _is_near(found[c].place, row.place, layout)))
    }


def _is_near(culprit: PlaceId, row: PlaceId | None, layout: Layout) -> bool:
    return row is None or layout.related(culprit, row)


def _hypotheses(
    case: Case,
    found: Sequence[Candidate],
    lines: Lines,
    rows: Sequence[RowMembers],
    events: Mapping[int, tuple[int, int]],
    rules: Rules,
    untouched: Mapping[int, HypothesisStates],
) -> list[HypothesisStates]:
    layout = case.vehicle.layout
    told = {place: told_of(place, lines, layout) for place in {c.place for c in found}}
    turned_on: dict[int, list[int]] = defaultdict(list)
    for number in events:
        for member in rows[number].members:
            turned_on[member].extend(events[number])
    reaches = {
        n: reach_of(c.cause, c.place, told[c.place], lines, layout)
        for n, c in enumerate(found)
        if n not in untouched or n in turned_on
    }
    can_be_killed = (Victim(found[n], reaches[n], tuple(on), lives_of(found[n])) for n, on in sorted(turned_on.items()))
    victims = Victims(can_be_killed, case, Doing(lines.moments(), rules.settings))
    asked: dict[int, set[int]] = defaultdict(set)
    for row in rows:
        for member, epoch in zip(row.members, row.epochs, strict=True):
            asked[member].add(epoch)
    return [
        untouched.get(n) or states_of(candidate, reaches[n], epochs=asked[n], victims=victims)
        for n, candidate in enumerate(found)
    ]


def _events(
    rows: Sequence[RowMembers], built: Sequence[HypothesisStates], culprits: Mapping[int, tuple[int, ...]]
) -> tuple[Event, ...]:
    """Rows first; then, for each row that can be destroyed, its own states alone and the damage alone."""
    own = [
        Event(
            tuple(
                (member, state)
                for member, epoch in zip(row.members, row.epochs, strict=True)
                for state in built[member].present_in[epoch]
            )
        )
        for row in rows
    ]
    return (*own, *(event for row in culprits for event in (own[row], Event(()))))


def _documents(evidence: Evidence, book: FindingBook, rules: Rules) -> tuple[Document, ...]:
    normal = rules.settings.normal_if_invented
    return tuple(Document(p.reliability, normal, tuple(book.papers.get(p.visit, ()))) for p in evidence.papers)

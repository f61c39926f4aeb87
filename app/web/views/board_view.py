"""The case board, ready to show: one view with the board, the form that records, and what changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from app.board.board import Board, OldResult, RowId, Status
from app.board.moved import Moved, what_moved
from app.rules.library import Rules
from app.rules.words import CauseId
from app.vehicle.layout import VEHICLE, Layout
from app.web.views.board_causes import LIKELY_ENOUGH, CauseWords, ChanceView, GroupView, RowView, chance
from app.web.views.entries import EntryView, VisitView
from app.web.views.matrix import MatrixView, matrix_view
from app.web.views.next_steps import NextView, StepWords
from app.web.views.said import SOURCES, sentence


@dataclass(frozen=True, slots=True)
class OldResultView:
    """A result and what it could not have shown; `settles`: what it rules in or out; `stale`: the jobs in between."""

    id: str
    what: str
    source: str
    settles: tuple[str, ...]
    stale: tuple[str, ...]
    cannot_show: tuple[BlindList, ...]


@dataclass(frozen=True, slots=True)
class BlindList:
    """One reason, and the causes that stay hidden for it."""

    reason: str
    causes: str


@dataclass(frozen=True, slots=True)
class ContradictionView:
    """What cannot all be true, said; and the entries behind it, each with its way to be struck out."""

    said: tuple[str, ...]
    entries: tuple[EntryView, ...]


@dataclass(frozen=True, slots=True)
class BoardView:
    """Everything that is renewed when an entry is recorded."""

    changes: tuple[str, ...]
    may_drive: tuple[str, ...]
    first_of_all: tuple[str, ...]
    contradiction: ContradictionView | None
    missing: tuple[str, ...]
    left_out: str
    lead: str
    not_listed: ChanceView
    unexplained: ChanceView
    groups: tuple[GroupView, ...]
    less_likely: tuple[GroupView, ...]
    confirmed: tuple[RowView, ...]
    ruled_out: tuple[RowView, ...]
    earlier: tuple[RowView, ...]
    next: tuple[NextView, ...]
    results: tuple[OldResultView, ...]
    matrix: MatrixView
    visits: tuple[VisitView, ...]
    state: str


@dataclass(frozen=True, slots=True)
class Changed:
    """How the board moved with the last entry: sentences, and a few words for each cause that moved."""

    sentences: tuple[str, ...] = ()
    causes: Mapping[CauseId, str] = field(default_factory=dict)


def changed(before: Board, after: Board) -> Changed:
    """What the last entry did to the board."""
    moved = what_moved(before, after)
    said = tuple(sentence(one.sentence) for one in moved)
    return Changed(said or ("Nothing moved by more than two points.",), {one.cause: _moved_words(one) for one in moved})


def _moved_words(one: Moved) -> str:
    if one.status in (Status.CONFIRMED, Status.RULED_OUT):
        return f"newly {one.status.value}"
    if one.status is not None:
        return "open again"
    steps = abs(one.steps)
    places = f", {steps} place{'s' if steps > 1 else ''}" if steps else ""
    return f"moved {'down' if ' went down' in one.sentence else 'up'}{places}"


@dataclass(frozen=True, slots=True)
class BoardWords:
    """Puts one board into words."""

    rules: Rules
    layout: Layout
    case_id: str

    def view(
        self, board: Board, *, visits: tuple[VisitView, ...], changed: Changed, state: str, may_drive: tuple[str, ...]
    ) -> BoardView:
        causes = CauseWords(self.rules, self.layout, changed.causes)
        groups = causes.groups(board)
        names = row_names(board)
        return BoardView(
            changes=changed.sentences,
            may_drive=tuple(dict.fromkeys((*board.may_drive, *may_drive))),
            first_of_all=tuple(sentence(one) for one in board.first_of_all),
            contradiction=contradiction(board, visits),
            missing=board.missing,
            left_out=board.left_out or "",
            lead=lead(board),
            not_listed=chance(board.not_listed, "nothing listed produces the complaint"),
            unexplained=chance(board.unexplained, "no confirmed cause produces the complaint"),
            groups=groups[:LIKELY_ENOUGH],
            less_likely=groups[LIKELY_ENOUGH:],
            confirmed=tuple(causes.row(row) for row in board.confirmed),
            ruled_out=tuple(causes.row(row) for row in board.ruled_out),
            earlier=tuple(causes.row(row) for row in board.earlier),
            next=StepWords(self.rules, self.layout, names, self.case_id).all(board),
            results=tuple(self._result(result, names) for result in board.results),
            matrix=matrix_view(board, self.layout, self.case_id),
            visits=visits,
            state=state,
        )

    def _result(self, result: OldResult, names: Mapping[RowId, str]) -> OldResultView:
        place = "" if result.place == VEHICLE else f", {result.place_words}"
        blind: dict[str, list[RowId]] = {}
        for spot in result.cannot_show:
            blind.setdefault(spot.reason, []).append(spot.row)
        return OldResultView(
            id=f"r-{result.entry or f'{result.test}-{result.place}-{result.visit}'}",
            what=f"Visit {result.visit}: {result.name}{place}: {result.outcome_words}",
            source=SOURCES[result.source],
            settles=self._settles(result, names),
            stale=tuple(sentence(one) for one in result.stale),
            cannot_show=tuple(BlindList(sentence(reason), self._causes(rows, names)) for reason, rows in blind.items()),
        )

    def _settles(self, result: OldResult, names: Mapping[RowId, str]) -> tuple[str, ...]:
        verbs = (("Rules in: ", result.rules_in), ("Rules out: ", result.rules_out))
        return tuple(f"{verb}{self._causes(rows, names)}." for verb, rows in verbs if rows)

    def _causes(self, rows: Sequence[RowId], names: Mapping[RowId, str]) -> str:
        """Each cause once, with its places where they are few."""
        places: dict[str, list[str]] = {}
        for row in rows:
            name = names.get(row) or self._cause_name(row)
            places.setdefault(name, []).append("" if row.place == VEHICLE else self.layout.in_words(row.place))
        return "; ".join(f"{n} ({', '.join(p)})" if p[0] and len(p) <= 2 else n for n, p in places.items())

    def _cause_name(self, row: RowId) -> str:
        cause = self.rules.causes.get(row.cause)
        return cause.name if cause else row.cause


def row_names(board: Board) -> dict[RowId, str]:
    grouped = {row.id: group.name for group in board.groups for row in group.rows}
    return grouped | {row.id: row.name for row in (*board.confirmed, *board.ruled_out, *board.earlier)}


def lead(board: Board) -> str:
    """Whether one cause stands clear of the others, said for people."""
    if not board.groups:
        return ""
    first = board.groups[0].name
    return f"{first[:1].upper()}{first[1:]} leads clearly." if board.clear_lead else "No cause leads clearly yet."


def contradiction(board: Board, visits: Sequence[VisitView]) -> ContradictionView | None:
    """The entries that cannot all be true, each with its way to be struck out."""
    if not board.contradiction:
        return None
    ids = {f"e-{entry}" for entry in board.contradicting}
    entries = tuple(entry for visit in visits for entry in visit.entries if entry.id in ids)
    return ContradictionView(board.contradiction, entries)

"""The case board, ready to show: one view with the board, the form that records, and what changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from app.board.board import Board, RowId, Status
from app.board.moved import Moved, what_moved
from app.board.words import capital
from app.rules.library import Rules
from app.rules.words import CauseId
from app.vehicle.layout import Layout
from app.web.views.board_causes import LIKELY_ENOUGH, CauseWords, ChanceView, GroupView, SettledView, chance, least
from app.web.views.entries import EntryView, VisitView
from app.web.views.next_steps import NextView, StepWords
from app.web.views.old_results import OldResultView, ResultWords
from app.web.views.said import sentence


@dataclass(frozen=True, slots=True)
class ContradictionView:
    """What cannot all be true, said; and the entries behind it, each with its way to be struck out."""

    said: tuple[str, ...]
    entries: tuple[EntryView, ...]


@dataclass(frozen=True, slots=True)
class BoardView:
    """Everything that is renewed when an entry is recorded. `ahead`: where a mere ranking finds its rest."""

    changes: tuple[str, ...]
    first_of_all: tuple[str, ...]
    contradiction: ContradictionView | None
    missing: tuple[str, ...]
    left_out: str
    lead: str
    not_listed: ChanceView
    unexplained: ChanceView
    groups: tuple[GroupView, ...]
    less_likely: tuple[GroupView, ...]
    confirmed: tuple[SettledView, ...]
    ruled_out: tuple[SettledView, ...]
    earlier: tuple[SettledView, ...]
    next: tuple[NextView, ...]
    ahead: str
    results: tuple[OldResultView, ...]
    advice_id: str
    advice: str
    matrix_id: str
    matrix: str
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
    fingerprint: str

    def view(
        self, board: Board, *, visits: tuple[VisitView, ...], changed: Changed, state: str, ahead: str
    ) -> BoardView:
        causes = CauseWords(self.rules, self.layout, changed.causes)
        groups = causes.groups(board)
        names = row_names(board)
        return BoardView(
            changes=changed.sentences,
            first_of_all=tuple(sentence(one) for one in board.first_of_all),
            contradiction=contradiction(board, visits),
            missing=board.missing,
            left_out=board.left_out or "",
            lead=lead(board),
            not_listed=least(board.not_listed, "nothing listed produces the complaint"),
            unexplained=chance(board.unexplained, "no confirmed cause produces the complaint"),
            groups=groups[:LIKELY_ENOUGH],
            less_likely=groups[LIKELY_ENOUGH:],
            confirmed=causes.settled(board.confirmed),
            ruled_out=causes.settled(board.ruled_out),
            earlier=causes.settled(board.earlier),
            next=StepWords(self.rules, self.layout, names, self.case_id).all(board),
            ahead=ahead,
            results=ResultWords(self.rules, self.layout, names).all(board.results),
            advice_id=f"advice-{self.fingerprint[:12]}",
            advice=f"/cases/{self.case_id}/advice",
            matrix_id=f"matrix-{self.fingerprint[:12]}",
            matrix=f"/cases/{self.case_id}/matrix",
            visits=visits,
            state=state,
        )


def row_names(board: Board) -> dict[RowId, str]:
    grouped = {row.id: group.name for group in board.groups for row in group.rows}
    return grouped | {row.id: row.name for row in (*board.confirmed, *board.ruled_out, *board.earlier)}


def lead(board: Board) -> str:
    """Whether one cause stands clear of the others, said for people."""
    if not board.groups:
        return ""
    first = board.groups[0].name
    return f"{capital(first)} leads clearly." if board.clear_lead else "No cause leads clearly yet."


def contradiction(board: Board, visits: Sequence[VisitView]) -> ContradictionView | None:
    """The entries that cannot all be true, each with its way to be struck out."""
    if not board.contradiction:
        return None
    ids = {f"e-{entry}" for entry in board.contradicting}
    entries = tuple(entry for visit in visits for entry in visit.entries if entry.id in ids)
    return ContradictionView(board.contradiction, entries)

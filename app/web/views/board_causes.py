"""The causes of a board, ready to show: chances with their meaning, why, for and against, blind spots."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.board.board import Board, CauseGroup, Row, RowId, Speaks, Status
from app.board.words import chance_figure, chance_word
from app.rules.library import Rules
from app.rules.words import CauseId
from app.vehicle.layout import VEHICLE, Layout
from app.web.views.said import outcome_words, sentence, test_name

SETTLED = (Status.CONFIRMED, Status.RULED_OUT)
"""Rows with these states stand in lists of their own."""
UNFOLDED = 3
LIKELY_ENOUGH = 12


@dataclass(frozen=True, slots=True)
class ChanceView:
    """One chance: what it is the chance of, in words, in figures, and as a length between 0 and 1."""

    meaning: str
    words: str
    figure: str
    length: str


@dataclass(frozen=True, slots=True)
class StatusView:
    word: str
    glyph: str


@dataclass(frozen=True, slots=True)
class SpeaksView:
    what: str
    how_much: str


@dataclass(frozen=True, slots=True)
class BlindView:
    what: str
    reason: str


@dataclass(frozen=True, slots=True)
class RowView:
    """A cause at one place. `name` holds the cause too, for lists where rows of several causes stand together."""

    id: str
    name: str
    place: str
    blame: ChanceView
    present: ChanceView
    status: StatusView
    speaks_for: tuple[SpeaksView, ...]
    speaks_against: tuple[SpeaksView, ...]
    blind: tuple[BlindView, ...]
    said: tuple[str, ...]
    moved: str


@dataclass(frozen=True, slots=True)
class GroupView:
    """A cause with all its places. `several`: it can be at more than one place. `unfolded`: details are open."""

    id: str
    number: str
    name: str
    why: str
    blame: ChanceView
    present: ChanceView
    status: StatusView
    which_place: str
    cautions: tuple[str, ...]
    said: tuple[str, ...]
    several: bool
    unfolded: bool
    rows: tuple[RowView, ...]
    moved: str


@dataclass(frozen=True, slots=True)
class CauseWords:
    """Puts the rows of one board into words; `moved` says how a cause moved since the last entry."""

    rules: Rules
    layout: Layout
    moved: Mapping[CauseId, str]

    def groups(self, board: Board) -> tuple[GroupView, ...]:
        return tuple(self._group(group, number) for number, group in enumerate(board.groups, 1))

    def row(self, row: Row) -> RowView:
        return RowView(
            id=row_anchor(row.id),
            name=f"{row.name}, {row.place_words}" if row.id.place != VEHICLE else row.name,
            place=row.place_words,
            blame=chance(row.to_blame, "produces the complaint"),
            present=chance(row.probability, "is there now"),
            status=status_view(row.status),
            speaks_for=tuple(_speaks(one) for one in row.speaks_for),
            speaks_against=tuple(_speaks(one) for one in row.speaks_against),
            blind=self._blind(row),
            said=tuple(sentence(one) for one in row.said),
            moved=self.moved.get(row.id.cause, ""),
        )

    def _group(self, group: CauseGroup, number: int) -> GroupView:
        rows = tuple(self.row(row) for row in group.rows if row.status not in SETTLED)
        return GroupView(
            id=f"h-{group.cause}",
            number=str(number),
            name=group.name,
            why=group.why,
            blame=chance(group.to_blame, "produces the complaint"),
            present=chance(group.probability, "is there now"),
            status=status_view(group.status),
            which_place=sentence(group.which_place),
            cautions=group.cautions,
            said=tuple(sentence(one) for one in group.said),
            several=len(rows) > 1,
            unfolded=number <= UNFOLDED,
            rows=rows,
            moved=self.moved.get(group.cause, ""),
        )

    def _blind(self, row: Row) -> tuple[BlindView, ...]:
        """Old results that could not have shown this row; the same reason at several places is said once."""
        said: dict[str, list[str]] = {}
        for spot in row.blind_spots:
            what = f"{test_name(spot.test, self.rules)}, {self.layout.in_words(spot.place)}, visit {spot.visit}"
            said.setdefault(spot.reason, []).append(f"{what}: {outcome_words(spot.test, spot.outcome, self.rules)}")
        return tuple(BlindView(what="; ".join(results), reason=sentence(reason)) for reason, results in said.items())


def chance(value: float, meaning: str) -> ChanceView:
    return ChanceView(meaning=meaning, words=chance_word(value), figure=chance_figure(value), length=f"{value:.3f}")


def status_view(status: Status) -> StatusView:
    return StatusView(word=status.value, glyph=status.value.replace(" ", "-"))


def row_anchor(row: RowId) -> str:
    """The element's id: it stays the same wherever the row moves to."""
    return f"h-{row.cause}-{row.place}" + ("" if row.job is None else f"-before-job-{row.job}")


def _speaks(one: Speaks) -> SpeaksView:
    kind = ", all of this kind together" if one.whole_kind else ""
    return SpeaksView(what=f"{one.what}{kind}", how_much=_times(one.factor))


def _times(factor: float) -> str:
    """How the odds move, from the side that is read: "× 12" for it, "÷ 8" against it."""
    if factor == 0.0:
        return "excludes it"
    up = factor >= 1.0
    size = factor if up else 1.0 / factor
    figure = "over 1,000" if size > 1000 else f"{size:,.0f}" if size >= 10 else f"{size:.1f}"
    return f"odds {'×' if up else '÷'} {figure}"

"""The causes of a board, ready to show: chances with their meaning, why, for and against, blind spots."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from app.board.board import Board, CauseGroup, Row, RowId, Speaks, Status
from app.board.words import capital, chance_figure, chance_word, least_word, odds_in_words, places_in_words
from app.evidence.case import Outcome
from app.rules.library import Rules
from app.rules.words import CauseId, TestId
from app.vehicle.layout import Layout, PlaceId
from app.web.views.said import is_whole, outcome_words, sentence, test_name

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
    """A cause at one place."""

    id: str
    place: str
    blame: ChanceView
    present: ChanceView
    status: StatusView
    speaks_for: tuple[SpeaksView, ...]
    speaks_against: tuple[SpeaksView, ...]
    blind: tuple[BlindView, ...]
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SettledView:
    """A cause that is confirmed, ruled out or past, at its places. `present`: None where the places differ."""

    id: str
    name: str
    places: str
    present: ChanceView | None
    status: StatusView
    moved: str
    rows: tuple[RowView, ...]


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
            place=row.place_words,
            blame=chance(row.to_blame, "produces the complaint"),
            present=chance(row.probability, "is there now" if row.id.job is None else "was there then"),
            status=status_view(row.status),
            speaks_for=tuple(_speaks(one) for one in row.speaks_for),
            speaks_against=tuple(_speaks(one) for one in row.speaks_against),
            blind=self._blind(row),
            said=tuple(sentence(one) for one in row.said),
        )

    def settled(self, rows: Sequence[Row]) -> tuple[SettledView, ...]:
        """Rows that stand in a list of their own: each cause once, its places together."""
        causes: dict[tuple[CauseId, int | None], list[Row]] = {}
        for row in rows:
            causes.setdefault((row.id.cause, row.id.job), []).append(row)
        return tuple(self._settled(alike) for alike in causes.values())

    def _settled(self, alike: Sequence[Row]) -> SettledView:
        first = alike[0]
        places = tuple(row.id.place for row in alike if not is_whole(row.id.place))
        chances = {(c.words, c.figure) for c in (chance(row.probability, "") for row in alike)}
        shown = tuple(self.row(row) for row in alike)
        return SettledView(
            id=f"{first.status.value.replace(' ', '-')}-{row_anchor(first.id)}",
            name=first.name,
            places=places_in_words(places, self.layout) if places else "",
            present=shown[0].present if len(chances) == 1 else None,
            status=status_view(first.status),
            moved=self.moved.get(first.id.cause, "") if first.id.job is None else "",
            rows=shown,
        )

    def _group(self, group: CauseGroup, number: int) -> GroupView:
        rows = tuple(self.row(row) for row in group.rows if row.status not in SETTLED)
        said = tuple(sentence(one) for one in group.said)
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
            said=said,
            several=len(rows) > 1,
            unfolded=number <= UNFOLDED,
            rows=tuple(_without(row, said) for row in rows),
            moved=self.moved.get(group.cause, ""),
        )

    def _blind(self, row: Row) -> tuple[BlindView, ...]:
        """Old results that could not have shown this row; results alike are said once, with all their places."""
        reasons: dict[str, dict[tuple[TestId, int, Outcome], list[PlaceId]]] = {}
        for spot in row.blind_spots:
            alike = reasons.setdefault(spot.reason, {}).setdefault((spot.test, spot.visit, spot.outcome), [])
            alike.append(spot.place)
        return tuple(BlindView(self._alike(said), sentence(reason)) for reason, said in reasons.items())

    def _alike(self, said: Mapping[tuple[TestId, int, Outcome], list[PlaceId]]) -> str:
        return "; ".join(self._result(test, visit, outcome, places=p) for (test, visit, outcome), p in said.items())

    def _result(self, test: TestId, visit: int, outcome: Outcome, *, places: Sequence[PlaceId]) -> str:
        named = tuple(place for place in places if not is_whole(place))
        where = f", {places_in_words(named, self.layout)}" if named else ""
        return (
            f"{capital(test_name(test, self.rules))}{where}: {outcome_words(test, outcome, self.rules)} (visit {visit})"
        )


def chance(value: float, meaning: str) -> ChanceView:
    return ChanceView(meaning=meaning, words=chance_word(value), figure=chance_figure(value), length=f"{value:.3f}")


def least(value: float, meaning: str) -> ChanceView:
    """A chance that can only be more than the rules can see."""
    return ChanceView(meaning=meaning, words=least_word(value), figure=chance_figure(value), length=f"{value:.3f}")


def status_view(status: Status) -> StatusView:
    return StatusView(word=status.value, glyph=status.value.replace(" ", "-"))


def row_anchor(row: RowId) -> str:
    """The element's id: it stays the same wherever the row moves to."""
    return f"h-{row.cause}-{row.place}" + ("" if row.job is None else f"-before-job-{row.job}")


def _without(row: RowView, said: Sequence[str]) -> RowView:
    """What is said of the cause as a whole is not said again of its place."""
    return replace(row, said=tuple(one for one in row.said if one not in said))


def _speaks(one: Speaks) -> SpeaksView:
    return SpeaksView(what=one.what, how_much=odds_in_words(one.factor))

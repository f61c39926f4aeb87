"""The board of a case: what is known, how, what cannot be known from it, and the next step. Values only."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from app.evidence.case import Outcome, Source
from app.rules.words import CauseId, CoverId, TestId
from app.vehicle.layout import PlaceId


class Status(StrEnum):
    CONFIRMED = "confirmed"
    RULED_OUT = "ruled out"
    RAISED = "raised"
    LOWERED = "lowered"
    OPEN = "open"


class Mark(StrEnum):
    RULES_IN = "rules in"
    RULES_OUT = "rules out"
    BOTH = "both"
    LEANS = "leans"
    CANNOT_SHOW = "cannot show"


@dataclass(frozen=True, slots=True)
class RowId:
    """A cause at a smallest place, now (`job` None) or in the epoch before a numbered job."""

    cause: CauseId
    place: PlaceId
    job: int | None = None


@dataclass(frozen=True, slots=True)
class Speaks:
    """A piece of evidence, or all of one kind, and the factor by which it moves a row's odds (> 1: for it)."""

    what: str
    factor: float
    entry: str = ""
    whole_kind: bool = False


@dataclass(frozen=True, slots=True)
class BlindSpot:
    """An old result that cannot show a row, and why, in one sentence."""

    row: RowId
    test: TestId
    place: PlaceId
    visit: int
    outcome: Outcome
    reason: str


@dataclass(frozen=True, slots=True)
class Row:
    """One hypothesis as people see it.

    `probability`: that the cause acts there now. `to_blame`: that it produces the complaint. `by_itself`: that the part
    failed by itself, `killed`: that one of the `culprits` destroyed it (both None where nothing listed can). `said`:
    sentences about replaced parts, readings out of date, papers.
    """

    id: RowId
    name: str
    place_words: str
    probability: float
    to_blame: float
    by_itself: float | None
    killed: float | None
    culprits: tuple[str, ...]
    status: Status
    speaks_for: tuple[Speaks, ...]
    speaks_against: tuple[Speaks, ...]
    blind_spots: tuple[BlindSpot, ...]
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CauseGroup:
    """All rows of one cause; the head stands for "this cause, somewhere"."""

    cause: CauseId
    name: str
    why: str
    probability: float
    to_blame: float
    status: Status
    rows: tuple[Row, ...]
    which_place: str
    cautions: tuple[str, ...]
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """What one test can do to one row now."""

    mark: Mark
    lr_plus: float | None
    lr_minus: float | None
    reason: str


@dataclass(frozen=True, slots=True)
class TestColumn:
    """One test at one place in the matrix; `done`: it has a result on the present state."""

    __test__ = False

    test: TestId
    place: PlaceId
    name: str
    place_words: str
    done: bool
    cells: Mapping[RowId, Cell]


@dataclass(frozen=True, slots=True)
class OldResult:
    """A result with what it shows about each row of its epoch. `stale`: a job came between, and which."""

    entry: str
    visit: int
    test: TestId
    name: str
    place: PlaceId
    place_words: str
    outcome: Outcome
    outcome_words: str
    source: Source
    cannot_show: tuple[BlindSpot, ...]
    rules_in: tuple[RowId, ...]
    rules_out: tuple[RowId, ...]
    stale: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NextStep:
    """One action: a test at one place or at a set of places taken one after another."""

    test: TestId
    places: tuple[PlaceId, ...]
    name: str
    place_words: str
    minutes: float
    information_bits: float
    exact: bool
    equal_to_first: bool
    can_rule_in: tuple[RowId, ...]
    can_rule_out: tuple[RowId, ...]
    needs_open: tuple[CoverId, ...]
    cautions: tuple[str, ...]
    because: str


@dataclass(frozen=True, slots=True)
class Matrix:
    """Every test's marks for the leading rows; `left_out`: what would have taken too long, in a sentence."""

    columns: tuple[TestColumn, ...]
    left_out: str | None


@dataclass(frozen=True, slots=True)
class Board:
    """Open causes in order of *to blame*; settled ones; earlier epochs; results; next steps.

    `not_listed`: P(nothing listed produces the complaint). `unexplained`: P(no confirmed hypothesis produces it).
    `contradiction`: entries that cannot all be true, in words (then there are no rows), `contradicting`: their ids.
    `missing`: evidence not in the rules. `looked_ahead`: whether the next steps, and what speaks for and against each
    row, are worked out; a ranking alone is there sooner.
    """

    rules_version: str
    complaint_words: str
    groups: tuple[CauseGroup, ...]
    confirmed: tuple[Row, ...]
    ruled_out: tuple[Row, ...]
    earlier: tuple[Row, ...]
    not_listed: float
    unexplained: float
    clear_lead: bool
    results: tuple[OldResult, ...]
    next: tuple[NextStep, ...]
    first_of_all: tuple[str, ...]
    may_drive: tuple[str, ...]
    missing: tuple[str, ...]
    contradiction: tuple[str, ...]
    left_out: str | None
    contradicting: tuple[str, ...] = ()
    looked_ahead: bool = True

"""What the drawn cases say of the board: how often the true cause is among the first, how honest the chances are."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import sqrt

from app.board.board import Board, Row
from app.rules.words import CauseId, FamilyId
from app.simulation.draw import Drawn
from app.simulation.faults import Fault
from app.simulation.not_listed import NOT_LISTED
from app.vehicle.layout import Layout

FIRST = 3
AFTER = (0, 3, 8)
BINS = 10
BIN_OF = 30
Z = 1.96


@dataclass(slots=True)
class Tally:
    """How often, out of how many."""

    hits: int = 0
    of: int = 0

    def add(self, hit: bool) -> None:
        self.hits += hit
        self.of += 1

    @property
    def share(self) -> float:
        return self.hits / self.of if self.of else 0.0

    @property
    def at_most(self) -> float:
        """Upper 95 % bound of the share (Wilson 1927)."""
        if not self.of:
            return 1.0
        n, p = self.of, self.share
        middle = p + Z * Z / (2 * n)
        return (middle + Z * sqrt(p * (1 - p) / n + Z * Z / (4 * n * n))) / (1 + Z * Z / n)


@dataclass(slots=True)
class Bin:
    """Rows whose chance of being there fell into one tenth: how many, their chances summed, how many really were."""

    rows: int = 0
    said: float = 0.0
    were: int = 0


@dataclass(slots=True)
class Figures:
    """`first`: tests done -> true cause among the first three; by family and by cause; `ruled_out`: rows ruled out that
    were there; `not_listed`: cases whose fault no rule names, which cannot be found; `bins`: calibration of every open
    row shown.
    """

    first: dict[int, Tally] = field(default_factory=lambda: defaultdict(Tally))
    by_family: dict[FamilyId, dict[int, Tally]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(Tally)))
    by_cause: dict[CauseId, Tally] = field(default_factory=lambda: defaultdict(Tally))
    ruled_out: Tally = field(default_factory=Tally)
    not_listed: Tally = field(default_factory=Tally)
    bins: list[Bin] = field(default_factory=lambda: [Bin() for _ in range(BINS)])

    def add(self, drawn: Drawn, boards: Sequence[Board]) -> None:
        """One case worked through; where advice ran out, the last board stands for the later ones."""
        self.not_listed.add(drawn.behind.cause.id == NOT_LISTED)
        if drawn.behind.cause.id != NOT_LISTED:
            self._find(drawn, boards)
        for board in (boards[0], boards[-1]):
            self._calibrate(board, drawn)
        for row in boards[-1].ruled_out:
            self.ruled_out.add(is_there(row, drawn.faults, drawn.case.vehicle.layout))

    def _find(self, drawn: Drawn, boards: Sequence[Board]) -> None:
        for done in AFTER:
            board = boards[min(done, len(boards) - 1)]
            among = is_found(drawn.behind, leading(board)[:FIRST])
            self.first[done].add(among)
            self.by_family[drawn.family.id][done].add(among)
        self.by_cause[drawn.behind.cause.id].add(among)

    def _calibrate(self, board: Board, drawn: Drawn) -> None:
        rows = [*board.confirmed, *board.ruled_out, *(row for group in board.groups for row in group.rows)]
        for row in rows:
            if row.id.job is None:
                one = self.bins[min(BINS - 1, int(row.probability * BINS))]
                one.rows += 1
                one.said += row.probability
                one.were += is_there(row, drawn.faults, drawn.case.vehicle.layout)

    @property
    def worst_gap(self) -> float:
        """The largest gap between what was said and what was so, over tenths with enough rows."""
        gaps = [abs(one.said - one.were) / one.rows for one in self.bins if one.rows >= BIN_OF]
        return max(gaps, default=0.0)


def is_found(behind: Fault, causes: Iterable[CauseId]) -> bool:
    """Whether it is among these causes, or what destroyed it is, which has to be mended first."""
    return any(cause in (behind.cause.id, behind.destroyed_by) for cause in causes)


def leading(board: Board) -> list[CauseId]:
    """Causes in the order of the board: what is confirmed stands first."""
    names = [row.id.cause for row in board.confirmed] + [group.cause for group in board.groups]
    return list(dict.fromkeys(names))


def is_there(row: Row, faults: Iterable[Fault], layout: Layout) -> bool:
    """Whether one of the faults that are there now is this row's: the cause, at a place that covers the row's."""
    return any(
        fault.now and fault.cause.id == row.id.cause and layout.covers(fault.place, row.id.place) for fault in faults
    )


def weak_causes(figures: Figures, *, below: float) -> Mapping[CauseId, Tally]:
    """Causes behind the complaint that were found too seldom, the worst first."""
    weak = {cause: tally for cause, tally in figures.by_cause.items() if tally.share < below}
    return dict(sorted(weak.items(), key=lambda pair: (pair[1].share, -pair[1].of)))

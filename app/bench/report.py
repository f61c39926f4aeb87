"""What a bench found: tables, plots and goals as plain values, ready to be printed, written as JSON or drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Taken:
    """What depends on the machine and the moment: a time, a ratio of times. All else is the same for the same seed."""

    value: float
    unit: str = "ms"

    def __str__(self) -> str:
        return f"{short(self.value)} {self.unit}"


Cell = str | int | float | Taken


@dataclass(frozen=True, slots=True)
class Table:
    """`note`: what the figures are of, in a sentence or two."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Plot:
    """Lines over one axis, both axes logarithmic; `lines`: name -> points."""

    title: str
    across: str
    up: str
    lines: Mapping[str, Sequence[tuple[float, float]]]


@dataclass(frozen=True, slots=True)
class Goal:
    """`found` against `most` (or against `least`, where more is better). `binding`: missing it ends with an error.

    Times are never binding: the machine may be busy.
    """

    what: str
    found: Cell
    most: float | None = None
    least: float | None = None
    binding: bool = False

    @property
    def met(self) -> bool:
        value = self.found.value if isinstance(self.found, Taken) else float(self.found)
        return (self.most is None or value <= self.most) and (self.least is None or value >= self.least)

    def in_words(self) -> str:
        bound = f"at most {self.most:g}" if self.most is not None else f"at least {self.least:g}"
        return f"{self.what}: {text(self.found)} (goal {bound}): {'met' if self.met else 'NOT MET'}."


@dataclass(frozen=True, slots=True)
class Report:
    """All that one bench found. `missing`: peers that could not be asked, each with the reason."""

    name: str
    tables: tuple[Table, ...]
    plots: tuple[Plot, ...] = ()
    goals: tuple[Goal, ...] = ()
    missing: tuple[str, ...] = ()

    @property
    def failed(self) -> bool:
        return any(goal.binding and not goal.met for goal in self.goals)

    def lines(self) -> Iterator[str]:
        """The report for the console."""
        for table in self.tables:
            yield f"\n{table.title}"
            yield from _columns(table)
            if table.note:
                yield f"  {table.note}"
        yield ""
        yield from (f"Missing: {one}" for one in self.missing)
        yield from (goal.in_words() for goal in self.goals)


def text(cell: Cell) -> str:
    """A cell as it is printed."""
    return short(cell) if isinstance(cell, float) else str(cell)


def short(value: float) -> str:
    """Three significant digits, as people write them."""
    if value == 0.0:
        return "0"
    if 0.001 <= abs(value) < 100_000.0:
        return f"{value:.3g}" if abs(value) < 1000.0 else f"{value:.0f}"
    return f"{value:.1e}"


def _columns(table: Table) -> Iterator[str]:
    rows = [table.head, *(tuple(text(cell) for cell in row) for row in table.rows)]
    widths = [max(len(row[n]) for row in rows) for n in range(len(table.head))]
    for row in rows:
        first, *rest = zip(row, widths, strict=True)
        yield "  " + "  ".join([first[0].ljust(first[1]), *(one.rjust(width) for one, width in rest)]).rstrip()

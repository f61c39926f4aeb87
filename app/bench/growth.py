"""How time and memory grow with the size of a network, one measure at a time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from app.beliefs.beliefs import Beliefs
from app.beliefs.infer import infer
from app.bench.large_networks import Size, large, posteriors_only, whole_board, width
from app.bench.report import Cell, Plot, Report, Table, Taken
from app.bench.sizes import Sizes
from app.bench.timing import milliseconds, most_megabytes
from app.network.noisy_or import Questions

USUAL = Size(tests=100)
WOVEN = Size(hypotheses=80, tests=10, positives=16, negatives=10, parents=(12, 18))
"""Findings with many parents, so that as many hang together as the reach allows."""


def _hypotheses(count: int) -> Size:
    return replace(USUAL, hypotheses=count)


def _tests(count: int) -> Size:
    return replace(USUAL, tests=count)


def _positives(count: int) -> Size:
    return replace(USUAL, positives=count, reach=min(USUAL.reach, count))


def _width(reach: int) -> Size:
    return replace(WOVEN, reach=reach)


MEASURES: dict[str, tuple[Callable[[int], Size], tuple[int, ...]]] = {
    "hypotheses": (_hypotheses, (60, 120, 250, 500, 1000)),
    "tests": (_tests, (40, 100, 200, 400, 800)),
    "positives": (_positives, (2, 5, 10, 15, 20)),
    "findings within reach": (_width, (2, 4, 8, 12, 16)),
}


def growth(sizes: Sizes) -> Report:
    """A table and a plot for each measure."""
    tables, plots = [], []
    for name, (sized, values) in MEASURES.items():
        rows = [_row(value, sized(value), sizes) for value in values[: sizes.steps]]
        tables.append(
            Table(
                f"Growth with {name}",
                (name, "width", "posteriors", "whole board", "memory", "left out"),
                tuple(rows),
                f"One network of each size; median of {sizes.runs} runs; memory: the most held at a time.",
            )
        )
        plots.append(_plot(name, rows))
    return Report("growth", tuple(tables), tuple(plots))


def _row(value: int, size: Size, sizes: Sizes) -> tuple[Cell, ...]:
    network = large(sizes.seed, size)
    board = whole_board(network)
    believed = infer(network, board)
    assert isinstance(believed, Beliefs)

    def taken(questions: Questions) -> Taken:
        return Taken(milliseconds(lambda: infer(network, questions), sizes.runs))

    memory = Taken(most_megabytes(lambda: infer(network, board)), "MB")
    left_out = believed.left_out or "nothing"
    return value, width(network, board), taken(posteriors_only()), taken(board), memory, left_out


def _plot(name: str, rows: list[tuple[Cell, ...]]) -> Plot:
    def line(column: int) -> list[tuple[float, float]]:
        return [(float(str(row[0])), cell.value) for row in rows if isinstance(cell := row[column], Taken)]

    lines = {"posteriors, ms": line(2), "whole board, ms": line(3), "memory, MB": line(4)}
    return Plot(f"Growth with {name}", name, "milliseconds, megabytes", lines)

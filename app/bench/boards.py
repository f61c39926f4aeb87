"""Boards that really occur: the demo's cases, and cases drawn from the rules for each layout and number of visits."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator, Mapping, Sequence

import numpy as np

from app.bench.board_stages import Measured, Times, measured
from app.bench.report import Cell, Goal, Plot, Report, Table, Taken
from app.bench.shelf import a_shelf
from app.bench.sizes import Sizes
from app.evidence.case import Case
from app.evidence.case_file import read_case_file
from app.problem import Refused
from app.rules.library import Rules
from app.seed.rule_folder import load_rules
from app.settings import PROJECT
from app.simulation.draw import Given, dice_of, draw_case
from app.simulation.vehicles import BUILDS, Build

LAYOUTS: Mapping[str, Build] = {"4 in line": BUILDS[0], "V6": BUILDS[2], "V8": BUILDS[3]}
VISITS = (1, 2, 4)
RULES, DEMO = PROJECT / "seed_data" / "rules", PROJECT / "seed_data" / "demo"
WORKSHOP = "workshop.yaml"
SHARES = (1, 2, 5, 10, 20, 35, 50, 65, 80, 90, 95, 99, 100)
APART = 100_000
"""Seeds of one group lie so far from those of the next."""
PARTS: Mapping[str, Callable[[Times], float]] = {
    "reading the case": lambda t: t.reading,
    "ranking (answered first)": lambda t: t.ranking,
    "looking back on results": lambda t: t.back,
    "next steps, for and against": lambda t: t.further,
    "into words": lambda t: t.words,
    "whole board": lambda t: t.whole,
}


def boards(sizes: Sizes) -> Report:
    """The supplied rules alone, no shop's own; cases filed in a history of their own. What was loaded for good is left
    out of garbage collection, as `serve` does.
    """
    rules = load_rules(RULES)
    gc.freeze()
    with a_shelf() as shelf:
        demo = {name: measured(case, rules, shelf) for name, case in demo_cases(rules)}
        found: dict[str, list[Measured]] = {}
        for number, (layout, visits) in enumerate((a, b) for a in LAYOUTS for b in VISITS):
            cases = drawn_cases(rules, layout, visits, count=sizes.cases, seed=sizes.seed + number * APART)
            measures = [measured(case, rules, shelf) for case in cases]
            found[f"{layout}, {visits} visit{'s' if visits > 1 else ''}"] = [one for one in measures if one is not None]
    drawn = [one for some in found.values() for one in some]
    of_demo = [one for one in demo.values() if one is not None]
    tables = (_of_demo(demo), _of_size(found), _of_times("warm", found), _of_times("cold", found), _of_parts(drawn))
    return Report("boards", tables, (_plot(drawn),), _goals(drawn, of_demo))


def demo_cases(rules: Rules) -> Iterator[tuple[str, Case]]:
    """The supplied case files by name."""
    for path in sorted(DEMO.glob("*.yaml")):
        if path.name != WORKSHOP:
            case, problems = read_case_file(path.read_text(encoding="utf-8"), path.name, rules)
            if case is None:
                raise Refused(problems)
            yield path.stem, case


def drawn_cases(rules: Rules, layout: str, visits: int, *, count: int, seed: int) -> Iterator[Case]:
    """Of any family; one whose complaint this layout cannot have is drawn again."""
    families, given, found, number = list(rules.families.values()), Given(LAYOUTS[layout], visits - 1), 0, 0
    while found < count:
        family = families[np.random.default_rng(seed + number).integers(len(families))]
        drawn = draw_case(family, rules, dice_of(family.id, seed + number), given)
        number += 1
        if drawn is not None:
            found += 1
            yield drawn.case


def _of_demo(demo: Mapping[str, Measured | None]) -> Table:
    rows: list[tuple[Cell, ...]] = []
    for name, one in demo.items():
        if one is not None:
            times = [Taken(value) for value in (one.warm.ranking, one.warm.whole, one.cold.whole)]
            rows.append((name, one.hypotheses, one.positives, one.width, *times, one.left_out or "nothing"))
    return Table(
        "The demo's cases",
        ("case", "hypotheses", "positives", "width", "ranking, warm", "whole, warm", "whole, cold", "left out"),
        tuple(rows),
    )


def _of_size(found: Mapping[str, Sequence[Measured]]) -> Table:
    rows: list[tuple[Cell, ...]] = []
    for name, some in found.items():
        parts = ([m.hypotheses for m in some], [m.positives for m in some], [m.width for m in some])
        said = (" / ".join(f"{_share(values, at):.0f}" for at in (50, 95, 100)) for values in parts)
        rows.append((name, len(some), *said, sum(m.left_out is not None for m in some)))
    return Table(
        "Networks of boards: median / 95 of 100 / largest",
        ("cases", "number", "hypotheses", "positives", "width", "left something out"),
        tuple(rows),
        "Width: findings kept in mind at a time. Cases whose entries cannot all be true do not count.",
    )


def _of_times(kept: str, found: Mapping[str, Sequence[Measured]]) -> Table:
    what = {"warm": "the same board once more", "cold": "with everything forgotten that boards share"}[kept]
    rows = tuple((name, *_spread([getattr(m, kept).whole for m in some])) for name, some in found.items())
    return Table(
        f"Whole board from the history's rows to the view model, {kept}",
        ("cases", "median", "95 of 100", "longest"),
        rows,
        f"{kept.capitalize()}: {what}; one run for each case. The rows lie in SQLite and are read each time.",
    )


def _of_parts(drawn: Sequence[Measured]) -> Table:
    rows = tuple(
        (f"{name}, {kept}", *_spread([part(getattr(m, kept)) for m in drawn]))
        for name, part in PARTS.items()
        for kept in ("warm", "cold")
    )
    return Table(f"Parts of a board, {len(drawn)} drawn cases", ("part", "median", "95 of 100", "longest"), rows)


def _spread(values: Sequence[float]) -> tuple[Taken, Taken, Taken]:
    return Taken(_share(values, 50)), Taken(_share(values, 95)), Taken(_share(values, 100))


def _share(values: Sequence[float], percent: float) -> float:
    """The least value that so many in a hundred do not exceed."""
    return float(np.percentile(values, percent, method="inverted_cdf"))


def _plot(drawn: Sequence[Measured]) -> Plot:
    def line(times: Sequence[float]) -> list[tuple[float, float]]:
        return [(float(percent), _share(times, percent)) for percent in SHARES]

    lines = {
        "whole board, cold": line([m.cold.whole for m in drawn]),
        "whole board, warm": line([m.warm.whole for m in drawn]),
        "ranking, warm": line([m.warm.ranking for m in drawn]),
    }
    return Plot("So many boards in a hundred take at most so long", "boards in a hundred", "milliseconds", lines)


def _goals(drawn: Sequence[Measured], demo: Sequence[Measured]) -> tuple[Goal, ...]:
    warm, cold = [m.warm.whole for m in drawn], [m.cold.whole for m in drawn]
    first = [m.warm.ranking for m in drawn]
    return (
        Goal("whole board, 95 of 100, warm (ms)", Taken(_share(warm, 95)), most=60.0),
        Goal("whole board, 95 of 100, cold (ms)", Taken(_share(cold, 95)), most=60.0),
        Goal("ranking alone, 95 of 100, warm (ms)", Taken(_share(first, 95)), most=60.0),
        Goal("longest board of a drawn case, cold (ms)", Taken(_share(cold, 100)), most=1000.0),
        Goal("longest board of a demo case, cold (ms)", Taken(max(m.cold.whole for m in demo)), most=1000.0),
    )

"""`proofbay simulate`: cases drawn from the rules and worked by the board's advice; how often it is right."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import lru_cache
from statistics import median
from typing import Annotated

import typer

from app.board.board import Board
from app.commands.refusing import refuse, the_rules
from app.commands.simulate_cost import cost_of, tell_costs
from app.rules.library import Rules
from app.rules.words import FamilyId
from app.simulation.deleted import without_cause
from app.simulation.draw import Drawn, dice_of, draw_case
from app.simulation.figures import AFTER, BIN_OF, FIRST, Figures, weak_causes
from app.simulation.why_missed import why_not_found
from app.simulation.work import worked

STEPS = max(AFTER)
GOALS: Mapping[int, float] = {0: 0.75, 3: 0.85, 8: 0.90}
TOO_SELDOM = 0.70
CORES = os.cpu_count() or 1
SEEDS_APART = 100_000

Cases = Annotated[int, typer.Option("--cases", min=1, max=1000, help="Cases of each family.")]
Seed = Annotated[int, typer.Option("--seed", min=0, help="The same seed draws the same cases.")]
Only = Annotated[list[str] | None, typer.Option("--family", help="Only this family; may be given several times.")]
Deleted = Annotated[bool, typer.Option("--true-cause-unknown", help="Take the true cause out of the rules.")]
Cost = Annotated[bool, typer.Option("--cost", help="What the advice costs against replacing part by part.")]
Processes = Annotated[int, typer.Option("--processes", min=1, help="How many cases are worked at once.")]


def simulate_command(
    cases: Cases = 10,
    seed: Seed = 1,
    family: Only = None,
    unknown: Deleted = False,
    cost: Cost = False,
    processes: Processes = CORES,
) -> None:
    """Draw cases from the rules, work each by the board's advice, and say how often the true cause is found."""
    rules = the_rules()
    families = list(rules.families) if not family else [FamilyId(name) for name in family]
    if strangers := [name for name in families if name not in rules.families]:
        refuse([f"There is no family “{name}”." for name in strangers])
    wanted = [(name, seed * SEEDS_APART + number) for name in families for number in range(cases)]
    with ProcessPoolExecutor(processes) as pool:
        if cost:
            tell_costs(pool.map(cost_of, wanted), rules, seed=seed)
        elif unknown:
            _tell_unknown([one for one in pool.map(_work_unknown, wanted) if one is not None])
        else:
            _tell(list(pool.map(_work, wanted)), rules)


Wanted = tuple[FamilyId, int]
Worked = tuple[Drawn, list[Board]]


@lru_cache(maxsize=1)
def _rules() -> Rules:
    """Read once in each process."""
    return the_rules()


def _work(wanted: Wanted) -> Worked | None:
    family, seed = wanted
    dice = dice_of(family, seed)
    drawn = draw_case(_rules().families[family], _rules(), dice)
    return None if drawn is None else (drawn, list(worked(drawn, _rules(), dice, steps=STEPS)))


def _work_unknown(wanted: Wanted) -> Board | None:
    """The board after three advised tests, by rules that do not know what is behind the complaint."""
    family, seed = wanted
    dice = dice_of(family, seed)
    drawn = draw_case(_rules().families[family], _rules(), dice)
    if drawn is None:
        return None
    return list(worked(drawn, without_cause(_rules(), drawn.behind.cause.id), dice, steps=3))[-1]


def _tell(done: Sequence[Worked | None], rules: Rules) -> None:
    figures = Figures()
    for one in done:
        if one is not None:
            figures.add(*one)
    typer.echo(
        f"{len(done)} cases, {sum(one is None for one in done)} of them on no vehicle that can have the complaint."
    )
    typer.echo(f"In {figures.not_listed.hits} of them no rule names the fault; these cannot be found.")
    for tests, goal in GOALS.items():
        tally = figures.first[tests]
        typer.echo(
            f"True cause among the first {FIRST} after {tests} tests: {tally.hits} of {tally.of} "
            f"({tally.share:.0%}; goal {goal:.0%})."
        )
    wrong = figures.ruled_out
    typer.echo(
        f"Ruled out although there: {wrong.hits} of {wrong.of} rows (at most {wrong.at_most:.1%} with 95 % confidence)."
    )
    typer.echo(
        f"Largest gap between chance said and share found: {figures.worst_gap:.1%} (tenths with {BIN_OF} rows or more)."
    )
    for number, tenth in enumerate(figures.bins):
        if tenth.rows:
            said, were = tenth.said / tenth.rows, tenth.were / tenth.rows
            typer.echo(
                f"  {number * 10:3d} to {number * 10 + 10} %: {tenth.rows} rows, said {said:.1%}, were {were:.1%}"
            )
    typer.echo("By family (after 0, 3 and 8 tests):")
    for name, tallies in figures.by_family.items():
        shares = ", ".join(f"{tallies[tests].hits}/{tallies[tests].of}" for tests in GOALS)
        typer.echo(f"  {rules.families[name].name}: {shares}")
    typer.echo(f"Causes found in less than {TOO_SELDOM:.0%} after {STEPS} tests:")
    for cause, tally in weak_causes(figures, below=TOO_SELDOM).items():
        typer.echo(f"  {cause} ({rules.causes[cause].name}): {tally.hits} of {tally.of}; {why_not_found(cause, rules)}")


def _tell_unknown(boards: Sequence[Board]) -> None:
    """What is said when the true cause is on no list: a model cannot see its own ignorance, so only figures."""
    not_listed = [board.not_listed for board in boards]
    leaders = [board.groups[0].to_blame for board in boards if board.groups]
    typer.echo(f"{len(boards)} cases, the true cause taken out of the rules, three advised tests done.")
    typer.echo(
        f"“Not explained by anything listed, at least”: median {median(not_listed):.1%}, highest {max(not_listed):.1%}."
    )
    typer.echo(f"  at least 1 in 5 in {sum(one >= 0.2 for one in not_listed)} cases.")
    typer.echo(f"Chance of the leading cause: median {median(leaders):.1%}.")
    typer.echo(f"A wrong cause confirmed in {sum(bool(board.confirmed) for board in boards)} cases.")

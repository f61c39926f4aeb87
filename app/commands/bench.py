"""`proofbay bench advice`: the advice against the exact optimum on seeded small problems."""

from __future__ import annotations

import os
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from typing import Annotated

import typer

from app.bench.advice import FAULTS, TESTS, compared, in_words
from app.bench.optimum import COVERS

CORES = os.cpu_count() or 1
GOAL_MEAN, GOAL_WORST = 0.02, 0.20

Problems = Annotated[int, typer.Option("--problems", min=1, max=10_000, help="Problems of each sort.")]
Seed = Annotated[int, typer.Option("--seed", min=0, help="The same seed gives the same problems.")]
Faults = Annotated[int, typer.Option("--faults", min=2, max=6)]
Tests = Annotated[int, typer.Option("--tests", min=0, max=6)]
Processes = Annotated[int, typer.Option("--processes", min=1, help="How many problems are worked at once.")]


def advice_command(
    problems: Problems = 100,
    seed: Seed = 0,
    faults: Faults = FAULTS,
    tests: Tests = TESTS,
    processes: Processes = CORES,
) -> None:
    """Work out the cheapest policy of small problems exactly, and what following the advice costs beside it."""
    typer.echo(f"{faults} faults, {tests} tests, {COVERS} covers; seeds {seed} to {seed + problems - 1}.")
    met = True
    with ProcessPoolExecutor(processes) as pool:
        for name, single in (("One fault", True), ("Several faults", False)):
            one = partial(compared, single=single, faults=faults, tests=tests)
            some = list(pool.map(one, range(seed, seed + problems)))
            for line in in_words(name, some):
                typer.echo(line)
            excess = [each.excess for each in some]
            met = met and sum(excess) / len(excess) <= GOAL_MEAN and max(excess) <= GOAL_WORST
    typer.echo(f"Goal, mean at most {GOAL_MEAN:.0%} and worst at most {GOAL_WORST:.0%}: {'met' if met else 'not met'}.")
    if not met:
        raise typer.Exit(1)

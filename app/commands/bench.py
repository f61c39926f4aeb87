"""`proofbay bench [NAME]`: the program measured against what is known exactly, against peers and its limits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from subprocess import CalledProcessError
from typing import Annotated

import typer

from app.bench.run import NAMES, apart
from app.bench.sizes import Sizes
from app.commands.refusing import refuse

USUAL = Sizes()
TEN_MINUTES = Sizes(cases=3, drawn=1)
"""All benches one after another: fewer cases and networks than each alone."""

Seed = Annotated[int, typer.Option("--seed", min=0, help="The same seed gives the same tables, times aside.")]
Runs = Annotated[int, typer.Option("--runs", min=1, max=1000, help="Runs of which the median is taken.")]
Drawn = Annotated[int, typer.Option("--networks", min=1, max=1000, help="Networks of each size.")]
Out = Annotated[Path, typer.Option("--out", help="Folder for bench.json and bench.html.")]
Oracle = Annotated[Path, typer.Option("--oracle", help="Folder of the networks with exact answers.")]
Visited = Annotated[int, typer.Option("--networks", min=1, max=10_000, help="Small networks visited whole.")]
Full = Annotated[int, typer.Option("--full", min=0, max=1000, help="Networks of full size, summed with many digits.")]
Rare = Annotated[int, typer.Option("--rare", min=0, max=1000, help="Networks with very rare reports.")]
Steps = Annotated[int, typer.Option("--steps", min=1, max=5, help="How many sizes of each measure, smallest first.")]
Cases = Annotated[int, typer.Option("--cases", min=1, max=10_000, help="Cases of each layout and number of visits.")]
Problems = Annotated[int, typer.Option("--problems", min=1, max=10_000, help="Problems of each sort.")]
Faults = Annotated[int, typer.Option("--faults", min=2, max=6)]
Tests = Annotated[int, typer.Option("--tests", min=0, max=6)]
Processes = Annotated[int, typer.Option("--processes", min=1, help="How many problems are worked at once.")]
OUT, ORACLE = Path(USUAL.out), Path(USUAL.oracle)


def all_command(context: typer.Context, seed: Seed = USUAL.seed, out: Out = OUT) -> None:
    """Measure the program: all of it (about ten minutes), or one of the commands below."""
    if context.invoked_subcommand is None:
        _tell(NAMES, replace(TEN_MINUTES, seed=seed, out=str(out)))


def exactness_command(
    seed: Seed = USUAL.seed,
    networks: Visited = USUAL.networks,
    full: Full = USUAL.full,
    rare: Rare = USUAL.rare,
    oracle: Oracle = ORACLE,
    out: Out = OUT,
) -> None:
    """Compare the engine's answers with exact ones."""
    _tell(
        ("exactness",),
        Sizes(seed=seed, networks=networks, full=full, rare=rare, oracle=str(oracle.resolve()), out=str(out)),
    )


def speed_command(
    seed: Seed = USUAL.seed, runs: Runs = USUAL.runs, networks: Drawn = USUAL.drawn, out: Out = OUT
) -> None:
    """Time the engine beside general libraries on the same networks."""
    _tell(("speed",), Sizes(seed=seed, runs=runs, drawn=networks, out=str(out)))


def growth_command(
    seed: Seed = USUAL.seed, runs: Runs = USUAL.runs, steps: Steps = USUAL.steps, out: Out = OUT
) -> None:
    """See how time and memory grow with the network."""
    _tell(("growth",), Sizes(seed=seed, runs=runs, steps=steps, out=str(out)))


def boards_command(seed: Seed = USUAL.seed, cases: Cases = USUAL.cases, out: Out = OUT) -> None:
    """Time whole boards of the demo's cases and of drawn ones."""
    _tell(("boards",), Sizes(seed=seed, cases=cases, out=str(out)))


def advice_command(
    problems: Problems = USUAL.problems,
    seed: Seed = USUAL.seed,
    faults: Faults = USUAL.faults,
    tests: Tests = USUAL.tests,
    processes: Processes = USUAL.processes,
    out: Out = OUT,
) -> None:
    """Work out the cheapest policy of small problems exactly, and what following the advice costs beside it."""
    _tell(
        ("advice",),
        Sizes(seed=seed, problems=problems, faults=faults, tests=tests, processes=processes, out=str(out)),
    )


def _tell(names: Sequence[str], sizes: Sizes) -> None:
    try:
        for line in apart(names, sizes):
            typer.echo(line)
    except CalledProcessError as ended:
        if ended.returncode < 0:
            refuse([f"The process that measures was ended from outside (signal {-ended.returncode})."])
        raise typer.Exit(ended.returncode) from None

"""The command line: `proofbay serve`, `rank`, `infer`, `simulate`, `bench`, `rules check`, `rules list`."""

from __future__ import annotations

import typer

from app.commands.bench import (
    advice_command,
    all_command,
    boards_command,
    exactness_command,
    growth_command,
    speed_command,
)
from app.commands.infer import infer_command
from app.commands.rank import rank_command
from app.commands.rules_check import check_command
from app.commands.rules_list import list_command
from app.commands.serve import serve_command
from app.commands.simulate import simulate_command

app = typer.Typer(no_args_is_help=True, add_completion=False, pretty_exceptions_enable=False)
rules = typer.Typer(no_args_is_help=True, help="Look at and check the rule files.")
bench = typer.Typer(invoke_without_command=True, callback=all_command)

app.command("serve")(serve_command)
app.command("rank")(rank_command)
app.command("infer")(infer_command)
app.command("simulate")(simulate_command)
app.add_typer(rules, name="rules")
app.add_typer(bench, name="bench")
bench.command("exactness")(exactness_command)
bench.command("speed")(speed_command)
bench.command("growth")(growth_command)
bench.command("boards")(boards_command)
bench.command("advice")(advice_command)
rules.command("check")(check_command)
rules.command("list")(list_command)


@app.callback()
def proofbay() -> None:
    """Keeps the history of a returned vehicle, ranks what can still be wrong, and says what each test can show."""

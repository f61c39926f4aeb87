"""How a command ends when it cannot do what was asked: clear sentences on standard error, exit code 2."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NoReturn

import typer
from pydantic import ValidationError

from app.problem import Problem, Refused
from app.rules.library import Rules
from app.seed.rule_folder import load_rules
from app.settings import Settings

REFUSED = 2


def refuse(problems: Iterable[Problem | str]) -> NoReturn:
    """Writes each problem on a line of its own and ends the program with exit code 2."""
    for problem in problems:
        typer.echo(str(problem), err=True)
    raise typer.Exit(REFUSED)


def the_settings() -> Settings:
    """The settings of the environment; ends the program where one has no meaning."""
    try:
        return Settings()
    except ValidationError as error:
        refuse(f"PROOFBAY_{'_'.join(map(str, one['loc'])).upper()}: {one['msg']}." for one in error.errors())


def the_rules() -> Rules:
    """The rules that are set, with the shop's own laid over them; ends the program where they cannot be read."""
    settings = the_settings()
    folder = settings.rules_dir
    try:
        return load_rules(folder, settings.own_rules_dir)
    except Refused as refused:
        refuse([*refused.problems, f"The rules in {folder} cannot be used: {len(refused.problems)} problems."])

"""`proofbay rank FILE`: what can still be wrong with the vehicle of a case file, and what to do next."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated

import typer

from app.commands.advice_as_text import advice_as_text
from app.commands.board_as_text import board_as_text
from app.commands.case_schema import schema_problems
from app.commands.refusing import refuse, the_rules
from app.evidence.case import Case
from app.evidence.case_file import read_case_file
from app.problem import Problem
from app.rules.library import Rules

LARGEST = 2_000_000
"""Bytes. A case of forty visits has some 50,000."""

FileToRank = Annotated[Path, typer.Argument(metavar="FILE", help="A case file (YAML or JSON).")]


def rank_command(
    file: FileToRank,
    as_json: Annotated[bool, typer.Option("--json", help="Write the board as JSON.")] = False,
) -> None:
    """Rank what can still be wrong with the vehicle in a case file."""
    from app.advice.prices import supplied_prices
    from app.board.advice_as_json import advice_as_json
    from app.board.advise import build_advice
    from app.board.as_json import board_as_json
    from app.board.build import build_board

    rules = the_rules()
    case = read_case(file, rules)
    board = build_board(case, rules)
    advice = build_advice(case, rules, supplied_prices(rules))
    if as_json:
        whole = {**board_as_json(board), "advice": advice_as_json(advice)}
        typer.echo(json.dumps(whole, ensure_ascii=False, indent=2))
    else:
        typer.echo(board_as_text(board, case, rules))
        typer.echo(advice_as_text(advice, case))


def read_case(file: Path, rules: Rules) -> Case:
    """The case in this file; ends the program with every problem found by the reader and the schema."""
    text = _text_of(file)
    today = datetime.now(UTC).astimezone().date()
    case, problems = read_case_file(text, file.name, rules, today=today)
    told = {problem.where for problem in problems}
    also = [problem for problem in schema_problems(text, file.name) if problem.where not in told]
    found: list[Problem] = [*problems, *also]
    if case is None or found:
        refuse([*found, f"{file.name} cannot be used: {len(found)} problems."])
    return case


def _text_of(file: Path) -> str:
    try:
        if file.stat().st_size > LARGEST:
            refuse([f"{file} is too large for a case file."])
        return file.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        refuse([f"{file} is not text in UTF-8. Save it as UTF-8."])
    except OSError as error:
        refuse([f"{file} cannot be read: {error.strerror}."])

"""`proofbay rules check`: every problem in the rule files, with file and line."""

from __future__ import annotations

import typer

from app.commands.refusing import refuse, the_rules
from app.rules.check import check_rules
from app.rules.notices import notices, readability


def check_command() -> None:
    """Check the rule files: each problem with its file, its line and how to mend it; then what is worth a look."""
    rules = the_rules()
    problems = check_rules(rules)
    if problems:
        refuse([*problems, f"{len(problems)} problems in the rules."])
    typer.echo(
        f"The rules are in order: {len(rules.families)} families, {len(rules.causes)} causes, "
        f"{len(rules.symptoms)} symptoms, {len(rules.tests)} tests, {len(rules.operations)} operations "
        f"(version {rules.version})."
    )
    found = notices(rules)
    typer.echo(f"Reading ease of what customers read: {readability(rules):.0f} (Flesch; 60 and more is plain English).")
    typer.echo(f"Worth a look ({len(found)}):" if found else "Nothing else is worth a look.")
    for notice in found:
        typer.echo(f"  {notice}")

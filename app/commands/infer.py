"""`proofbay infer`: exact answers for a bare network, through the engine that the board uses."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated

import typer

from app.beliefs.beliefs import Beliefs, Contradiction
from app.beliefs.infer import infer
from app.beliefs.oracle_answers import flat_answer, grouped_answer
from app.network.oracle_form import FLAT, BareNetwork, read_bare_network
from app.problem import Problem, Refused

WRONG_FILE = 2


def infer_command(
    path: Annotated[Path, typer.Argument(help="A network as JSON, in either form of the oracle files.")],
    as_json: Annotated[bool, typer.Option("--json", help="Write every figure as JSON.")] = False,
) -> None:
    """Work out a bare noisy-OR network: posteriors, tests and blame."""
    try:
        bare = read_bare_network(_read(path))
    except Refused as refused:
        for problem in refused.problems:
            typer.echo(str(problem), err=True)
        raise typer.Exit(WRONG_FILE) from None
    beliefs = infer(bare.network, bare.questions)
    if as_json:
        answer = flat_answer if bare.schema == FLAT else grouped_answer
        typer.echo(json.dumps(answer(bare.network, bare.questions, beliefs), indent=1, allow_nan=False))
    else:
        typer.echo("\n".join(_table(bare, beliefs)))


def _read(path: Path) -> object:
    try:
        return json.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        reason = error.strerror or "unreadable"
        raise Refused([Problem(str(path), f"The file cannot be read: {reason}.", "Check the path.")]) from None
    except UnicodeDecodeError:
        raise Refused([Problem(str(path), "This is not text.", "Save it as JSON in UTF-8.")]) from None
    except RecursionError:
        raise Refused([Problem(str(path), "This JSON is nested too deep.", "Put it on fewer levels.")]) from None
    except json.JSONDecodeError as error:
        where = f"{path}:{error.lineno}"
        raise Refused([Problem(where, f"This is not JSON: {error.msg}.", "Mend it and try again.")]) from None
    except ValueError:
        raise Refused([Problem(str(path), "A number in this JSON is too long.", "Write it shorter.")]) from None


def _table(bare: BareNetwork, beliefs: Beliefs | Contradiction) -> list[str]:
    if isinstance(beliefs, Contradiction):
        named = ", ".join(str(finding) for finding in beliefs.findings)
        return [f"The reports contradict each other. These cannot all be true: findings {named}."]
    lines = [f"log evidence  {beliefs.log_evidence:.6f}", "", "hypothesis  chance of each state"]
    lines += [f"{h:>10}  {'  '.join(f'{p:.6f}' for p in states)}" for h, states in enumerate(beliefs.states)]
    if beliefs.documents:
        lines += ["", "document  chance that it is true"]
        lines += [f"{d:>8}  {chance:.6f}" for d, chance in enumerate(beliefs.documents)]
    if beliefs.tests:
        lines += ["", "test  present   absent"]
        lines += [f"{test:>4}  {chance.yes:.6f}  {chance.no:.6f}" for test, chance in beliefs.tests.items()]
    if beliefs.blamed:
        lines += ["", "hypothesis  to blame"]
        lines += [f"{h:>10}  {chance.yes:.6f}" for h, chance in enumerate(beliefs.blamed[:-1])]
        lines.append(f"{'nothing':>10}  {beliefs.blamed[-1].no:.6f}")
    return lines

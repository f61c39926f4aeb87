"""`proofbay rules list`: what the rules know, as lines for people or JSON for programs."""

from __future__ import annotations

import json
from collections.abc import Iterator
from enum import StrEnum
from typing import Annotated

import typer

from app.commands.refusing import the_rules
from app.rules.library import Rules


class Kind(StrEnum):
    CAUSES = "causes"
    SYMPTOMS = "symptoms"
    TESTS = "tests"
    OPERATIONS = "operations"


Line = dict[str, str]


def list_command(
    kind: Annotated[Kind, typer.Argument(help="What to list.")] = Kind.CAUSES,
    as_json: Annotated[bool, typer.Option("--json", help="Write JSON.")] = False,
) -> None:
    """List causes, symptoms, tests or operations with their ids."""
    lines = list(_LISTED[kind](the_rules()))
    if as_json:
        typer.echo(json.dumps(lines, ensure_ascii=False, indent=2))
        return
    width = max((len(line["id"]) for line in lines), default=0)
    for line in lines:
        typer.echo(f"{line['id']:<{width}}  {line['name']}")


def _causes(rules: Rules) -> Iterator[Line]:
    for cause in rules.causes.values():
        yield {
            "id": cause.id,
            "name": cause.name,
            "family": cause.family,
            "system": cause.system,
            "acts at": ", ".join(cause.acts_at),
            "why": cause.why,
        }


def _symptoms(rules: Rules) -> Iterator[Line]:
    for symptom in rules.symptoms.values():
        kind_of = symptom.kind_of or ""
        line = {"id": symptom.id, "name": symptom.name, "family": symptom.family, "at": symptom.at.value}
        yield {**line, "kind of": kind_of}


def _tests(rules: Rules) -> Iterator[Line]:
    for test in rules.tests.values():
        line = {"id": test.id, "name": test.name, "family": test.family, "at": test.at.value}
        yield {**line, "quantity": test.quantity or "", "measures": test.measures}


def _operations(rules: Rules) -> Iterator[Line]:
    for operation in rules.operations.values():
        duties = ", ".join(duty.id for duty in operation.duties)
        yield {"id": operation.id, "name": operation.name, "at": operation.at.value, "duties": duties}


_LISTED = {Kind.CAUSES: _causes, Kind.SYMPTOMS: _symptoms, Kind.TESTS: _tests, Kind.OPERATIONS: _operations}

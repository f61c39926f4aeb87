"""Case files against the open JSON Schema in seed_data/case-file.schema.json."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import TypeAlias

from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError

from app.problem import Problem
from app.rules.tree import Items, Node, Notes, Table, Text, read_tree
from app.settings import PROJECT

Plain: TypeAlias = "str | list[Plain] | dict[str, Plain]"
SCHEMA = PROJECT / "seed_data" / "case-file.schema.json"


def schema_problems(text: str, file: str) -> tuple[Problem, ...]:
    """Where the text does not follow the schema, with file and line; unreadable YAML is a problem too."""
    notes = Notes()
    tree = read_tree(text, file, notes)
    if notes.problems:
        return tuple(notes.problems)
    validator = Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))
    errors = sorted(validator.iter_errors(plain(tree)), key=lambda error: [str(step) for step in error.absolute_path])
    return tuple(dict.fromkeys(_problem(error, tree) for error in errors))


def plain(node: Node) -> Plain:
    """The tree as bare dicts, lists and texts."""
    match node:
        case Text(value):
            return value
        case Items(items):
            return [plain(item) for item in items]
        case Table(entries):
            return {key: plain(entry.node) for key, entry in entries.items()}


def _problem(error: ValidationError, tree: Table) -> Problem:
    *_, where = _lines(tree, list(error.absolute_path))
    path = " → ".join(str(step + 1 if isinstance(step, int) else step) for step in error.absolute_path)
    said = f"{path}: " if path else ""
    return Problem(where, f"{said}{error.message[:160]}.", f"See {SCHEMA.name}.")


def _lines(node: Node, path: Sequence[str | int]) -> Iterator[str]:
    """The lines of the nodes along a path, the last one being the nearest to what is wrong."""
    yield node.where
    if not path:
        return
    step, *rest = path
    if isinstance(node, Table) and isinstance(step, str) and step in node.entries:
        yield node.entries[step].where
        yield from _lines(node.entries[step].node, rest)
    if isinstance(node, Items) and isinstance(step, int):
        yield from _lines(node.items[step], rest)

"""Which ids exist, gathered from all trees before anything refers to them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.rules.tree import Entry, Notes, Table

Ids = Mapping[str, str]
"""Id -> the file and line where it is defined."""


@dataclass(frozen=True, slots=True)
class KnownIds:
    """Every id that a rule may refer to."""

    families: Ids
    causes: Ids
    symptoms: Ids
    tests: Ids
    operations: Ids
    duties: Mapping[str, frozenset[str]]
    covers: Ids
    situations: Ids
    systems: Ids
    quantities: Ids
    traits: Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True)
class Trees:
    """The rule files' trees by what they hold. `families`: family id -> tree."""

    families: Mapping[str, Table]
    operations: Mapping[str, Table]
    teardown: Table
    quantities: Table
    places: Table
    shared: Table
    strengths: Table
    sources: Table
    monitors: Table
    findings: Table

    def operation_entries(self) -> Mapping[str, Entry]:
        return {name: entry for tree in self.operations.values() for name, entry in tree.entries.items()}


def gather(trees: Trees, notes: Notes) -> KnownIds:
    """All ids; an id defined in two files is noted."""
    return KnownIds(
        families={name: tree.where for name, tree in trees.families.items()},
        causes=_from_families(trees, "causes", notes),
        symptoms=_from_families(trees, "symptoms", notes),
        tests=_from_families(trees, "tests", notes),
        operations=_lines([tree.entries for tree in trees.operations.values()], notes),
        duties={name: frozenset(below(entry.node, "duties")) for name, entry in trees.operation_entries().items()},
        covers=_lines([trees.teardown.entries], notes),
        situations=_lines([below(trees.shared, "situations")], notes),
        systems=_lines([below(trees.shared, "systems")], notes),
        quantities=_lines([trees.quantities.entries], notes),
        traits={name: _values(entry) for name, entry in below(trees.places, "traits").items()},
    )


def below(node: object, key: str) -> Mapping[str, Entry]:
    """The keys and values of the table behind a key; empty where there is none."""
    entry = node.entries.get(key) if isinstance(node, Table) else None
    return entry.node.entries if entry is not None and isinstance(entry.node, Table) else {}


def _from_families(trees: Trees, key: str, notes: Notes) -> Ids:
    return _lines([below(tree, key) for tree in trees.families.values()], notes)


def _lines(tables: list[Mapping[str, Entry]], notes: Notes) -> Ids:
    lines: dict[str, str] = {}
    for table in tables:
        for name, entry in table.items():
            if name in lines:
                notes.refuse(entry.where, f"“{name}” is already defined at {lines[name]}.", "Rename one.")
            lines.setdefault(name, entry.where)
    return lines


def _values(entry: Entry) -> frozenset[str]:
    values = entry.node.entries.get("values") if isinstance(entry.node, Table) else None
    items = getattr(values.node, "items", ()) if values else ()
    return frozenset(getattr(item, "value", "") for item in items)

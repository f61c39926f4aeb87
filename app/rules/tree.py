"""A YAML text as a tree whose every value is text and knows its line; the one place that meets YAML."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import yaml

from app.problem import Problem

FILES_KEPT = 64
"""A change of the shop's own rules reads the supplied files again, which are the same."""
DEEPEST = 12
"""Rule and case files are at most seven levels deep; deeper nesting is a slip of indentation or an attack."""


@dataclass(frozen=True, slots=True)
class Text:
    """A value. Everything is text: "no" stays a word, 0123 stays four digits."""

    value: str
    where: str


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    items: tuple[Node, ...]
    where: str


@dataclass(frozen=True, slots=True)
class Entry:
    """The value behind a key; `where` is the key's own line."""

    node: Node
    where: str


@dataclass(frozen=True, slots=True)
class Table:
    """Keys with their values, in the order of the file."""

    entries: Mapping[str, Entry]
    where: str


Node = Text | Items | Table


class Notes:
    """The problems found so far while something is read; reading goes on, so that all are told at once."""

    def __init__(self) -> None:
        self.problems: list[Problem] = []

    def refuse(self, where: str, sentence: str, mend: str) -> None:
        self.problems.append(Problem(where, sentence, mend))


def read_tree(text: str, file: str, notes: Notes) -> Table:
    """The file's outermost table; an empty one where the text cannot be read (`notes` says why)."""
    tree, problems = _tree_of(text, file)
    notes.problems.extend(problems)
    return tree


@lru_cache(maxsize=FILES_KEPT)
def _tree_of(text: str, file: str) -> tuple[Table, tuple[Problem, ...]]:
    notes = Notes()
    return _grown(text, file, notes), tuple(notes.problems)


def _grown(text: str, file: str, notes: Notes) -> Table:
    nothing = Table({}, f"{file}:1")
    try:
        node = yaml.compose(text, yaml.CSafeLoader)
    except yaml.MarkedYAMLError as error:
        line = error.problem_mark.line + 1 if error.problem_mark else 1
        notes.refuse(f"{file}:{line}", f"This is not readable YAML: {error.problem}.", _HOW_TO_MEND)
        return nothing
    except (yaml.YAMLError, UnicodeError):
        notes.refuse(f"{file}:1", "The text holds characters that YAML does not allow.", "Save the file as UTF-8 text.")
        return nothing
    if node is None:
        notes.refuse(f"{file}:1", "The file is empty.", "Fill it, or delete it.")
        return nothing
    tree = _Growth(file, notes).grow(node, depth=0)
    if isinstance(tree, Table):
        return tree
    notes.refuse(f"{file}:1", "The file does not begin with keys.", "Begin with lines such as “name: …”.")
    return nothing


_HOW_TO_MEND = "Look at this line and the one before: indentation in spaces, a space after each colon, closed quotes."


class _Growth:
    """Turns YAML nodes into our tree; remembers nodes met, so that an alias is noticed and never followed."""

    def __init__(self, file: str, notes: Notes) -> None:
        self.file = file
        self.notes = notes
        self.met: set[int] = set()

    def grow(self, node: yaml.Node, depth: int) -> Node:
        where = f"{self.file}:{node.start_mark.line + 1}"
        if id(node) in self.met:
            self.notes.refuse(where, "Anchors (&) and aliases (*) are not used here.", "Write the value out.")
            return Text("", where)
        if depth > DEEPEST:
            self.notes.refuse(where, "This is nested too deep.", "Check the indentation.")
            return Text("", where)
        self.met.add(id(node))
        if isinstance(node, yaml.MappingNode):
            return self._table(node, where, depth=depth)
        if isinstance(node, yaml.SequenceNode):
            return Items(tuple(self.grow(item, depth + 1) for item in node.value), where)
        return Text(str(node.value).strip(), where)

    def _table(self, node: yaml.MappingNode, where: str, *, depth: int) -> Table:
        entries: dict[str, Entry] = {}
        for key, value in node.value:
            line = f"{self.file}:{key.start_mark.line + 1}"
            if not isinstance(key, yaml.ScalarNode):
                self.notes.refuse(line, "A key must be a word.", "Write “key: value”.")
                continue
            name = str(key.value).strip()
            if name in entries:
                first = entries[name].where
                self.notes.refuse(line, f"“{name}” stands here twice (first: {first}).", "Keep one of the two.")
                continue
            entries[name] = Entry(self.grow(value, depth + 1), line)
        return Table(entries, where)

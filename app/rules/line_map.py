"""Where in the files each rule stands, so that a check can point at it after the reading is done."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from app.rules.known_ids import Trees
from app.rules.tree import Items, Node, Table

RulePath = tuple[str, ...]
"""("tests", "leak-down", "shows", "worn-ring"), ("families", "misfire", "lead"), ("strengths", "gives", "often")."""


def lines_of(trees: Trees) -> Mapping[RulePath, str]:
    """File and line of every key in every file, by the path of keys that leads to it."""
    lines: dict[RulePath, str] = {}
    for name, tree in trees.families.items():
        lines[("families", name)] = tree.where
        for key, entry in tree.entries.items():
            shared = key in ("symptoms", "causes", "tests")
            lines.update(_walk(entry.node, entry.where, (key,) if shared else ("families", name, key)))
    for tree in trees.operations.values():
        lines.update(_walk(tree, tree.where, ("operations",)))
    for name in ("teardown", "quantities", "places", "shared", "strengths", "sources", "monitors", "findings"):
        tree = getattr(trees, name)
        lines.update(_walk(tree, tree.where, (name,)))
    return lines


def _walk(node: Node, where: str, path: RulePath) -> Iterator[tuple[RulePath, str]]:
    yield path, where
    if isinstance(node, Table):
        for key, entry in node.entries.items():
            yield from _walk(entry.node, entry.where, (*path, key))
    if isinstance(node, Items):
        for number, item in enumerate(node.items):
            yield from _walk(item, item.where, (*path, str(number)))

"""Changing one of the shop's own rule files as text: one rule's keys set, or taken back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeAlias

import yaml

Said: TypeAlias = "str | Sequence[str] | Mapping[str, Said] | Sequence[Mapping[str, Said]]"
"""What a key says: a text, a list, or keys of its own; every scalar is text."""

Path = tuple[str, ...]
WIDE = 10_000


def with_said(text: str, path: Path, said: Said) -> str:
    """The file's text after this path of keys says this; keys on the way are made where they are missing."""
    tree = _read(text)
    table = tree
    for key in path[:-1]:
        below = table.get(key)
        if not isinstance(below, dict):
            below = table[key] = {}
        table = below
    table[path[-1]] = _plain(said)
    return _written(tree)


def without(text: str, path: Path) -> str:
    """The file's text without what stands at this path; a table left empty goes too, and a text left empty is ""."""
    tree = _read(text)
    tables = [tree]
    for key in path[:-1]:
        below = tables[-1].get(key)
        if not isinstance(below, dict):
            return text
        tables.append(below)
    tables[-1].pop(path[-1], None)
    for depth in range(len(tables) - 1, 0, -1):
        if not tables[depth]:
            tables[depth - 1].pop(path[depth - 1])
    return _written(tree)


def _read(text: str) -> dict[str, object]:
    tree = yaml.load(text, yaml.CBaseLoader) if text.strip() else {}
    return tree if isinstance(tree, dict) else {}


def _plain(said: Said) -> object:
    if isinstance(said, Mapping):
        return {key: _plain(value) for key, value in said.items()}
    return said if isinstance(said, str) else [_plain(item) for item in said]


def _written(tree: dict[str, object]) -> str:
    if not tree:
        return ""
    return yaml.safe_dump(tree, sort_keys=False, allow_unicode=True, default_flow_style=False, width=WIDE)

"""The shop's own rules: a second folder of the same form, laid over the supplied one by id.

What a key of the shop's says stands in place of what the supplied rule says at that key; `removed` takes it away. What
has an id of its own is added. Every line of the shop's is known by its file, which begins with “own/”.
"""

from __future__ import annotations

from collections.abc import Mapping

from app.rules.known_ids import Trees
from app.rules.tree import Entry, Table, Text

OWN = "own/"
REMOVED = "removed"


def is_own(where: str) -> bool:
    """Whether a rule's file and line is the shop's."""
    return where.startswith(OWN)


def lay_over(trees: Trees, own: Trees) -> Trees:
    """The supplied trees with the shop's laid over them."""
    operations = dict(trees.operations)
    for file, tree in own.operations.items():
        for name, entry in tree.entries.items():
            home = next((known for known, table in operations.items() if name in table.entries), f"{OWN}{file}")
            before = operations.get(home, Table({}, tree.where))
            operations[home] = _over(before, Table({name: entry}, tree.where))
    families = {
        name: _over(trees.families.get(name, Table({}, own.families[name].where)), own.families[name])
        if name in own.families
        else tree
        for name, tree in {**own.families, **trees.families}.items()
    }
    return Trees(
        families=families,
        operations=operations,
        teardown=_over(trees.teardown, own.teardown),
        quantities=_over(trees.quantities, own.quantities),
        places=_over(trees.places, own.places),
        shared=_over(trees.shared, own.shared),
        strengths=_over(trees.strengths, own.strengths),
        sources=_over(trees.sources, own.sources),
        monitors=_over(trees.monitors, own.monitors),
        findings=_over(trees.findings, own.findings),
    )


def _over(supplied: Table, own: Table) -> Table:
    entries: dict[str, Entry] = dict(supplied.entries)
    for key, entry in own.entries.items():
        before = entries.get(key)
        if isinstance(entry.node, Text) and entry.node.value == REMOVED:
            entries.pop(key, None)
        elif before is not None and isinstance(before.node, Table) and isinstance(entry.node, Table):
            entries[key] = Entry(_over(before.node, entry.node), before.where)
        else:
            entries[key] = entry
    return Table(entries, supplied.where)


def changed_paths(lines: Mapping[tuple[str, ...], str]) -> frozenset[tuple[str, ...]]:
    """The first two keys of every rule that the shop added or changed: ("tests", "leak-down")."""
    return frozenset(path[:2] for path, where in lines.items() if is_own(where) and len(path) > 1)

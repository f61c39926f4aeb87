"""What a file adds to rules at home elsewhere, folded into those rules before anything is read.

A family adds effects, ways in and damage to another family's causes (`also causes`) and says what another family's
tests show of its own complaint (`also tests`); an operations file adds to operations of another file (`also`). Every
line keeps its own file and number, and a thing said twice is refused.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from app.rules.known_ids import Trees
from app.rules.nearest import did_you_mean
from app.rules.tree import Entry, Items, Node, Notes, Table

CAUSE_LINKS = ("gives", "raised by", "damages")
TEST_LINKS = ("shows", "blind when", "cannot show")
OPERATION_LINKS = ("opens", "touches", "duties")


def fold(trees: Trees, notes: Notes) -> Trees:
    """The same trees with every `also` folded into the rule it adds to; an unknown id is noted."""
    folding = _Folding(notes)
    families = dict(trees.families)
    for name, tree in trees.families.items():
        causes, tests = _below(tree, "also causes"), _below(tree, "also tests")
        folding.refuse_own({**causes, **tests}, tree)
        families = folding.into(families, "causes", causes, links=CAUSE_LINKS)
        families = folding.into(families, "tests", _under_family(tests, name), links=(*TEST_LINKS, in_family(name)))
    families = {name: _without(tree, "also causes", "also tests") for name, tree in families.items()}
    operations = {name: _without(tree, "also") for name, tree in trees.operations.items()}
    for tree in trees.operations.values():
        operations = folding.into_files(operations, _below(tree, "also"), links=OPERATION_LINKS)
    return replace(trees, families=families, operations=operations)


def in_family(family: str) -> str:
    """The key of a folded test under which stand the causes and systems of `family` that it cannot show."""
    return f"cannot show in {family}"


def _under_family(tests: Mapping[str, Entry], family: str) -> Mapping[str, Entry]:
    """`cannot show` of another family's test is said for the causes of this family, systems included."""
    return {
        name: Entry(_renamed(entry.node, "cannot show", in_family(family)), entry.where)
        for name, entry in tests.items()
    }


def _renamed(node: Node, key: str, name: str) -> Node:
    if not isinstance(node, Table):
        return node
    entries = {name if k == key else k: entry for k, entry in node.entries.items()}
    entries.setdefault(name, Entry(Table({}, node.where), node.where))
    return Table(entries, node.where)


class _Folding:
    """Adds tables to tables; notes what is unknown, has no place, or was said before."""

    def __init__(self, notes: Notes) -> None:
        self.notes = notes

    def refuse_own(self, extra: Mapping[str, Entry], tree: Table) -> None:
        for name, entry in extra.items():
            if name in _below(tree, "causes") or name in _below(tree, "tests"):
                self.notes.refuse(entry.where, f"“{name}” is at home here anyway.", "Say it where it is defined.")

    def into(
        self, families: Mapping[str, Table], shelf: str, extra: Mapping[str, Entry], *, links: tuple[str, ...]
    ) -> dict[str, Table]:
        """The families with these additions to what stands on one shelf (causes, tests) of each."""
        shelves = {name: _below_table(tree, shelf) for name, tree in families.items()}
        filled = self.into_files(shelves, extra, links=links)
        return {name: _with(tree, shelf, filled[name]) for name, tree in families.items()}

    def into_files(
        self, files: Mapping[str, Table], extra: Mapping[str, Entry], *, links: tuple[str, ...]
    ) -> dict[str, Table]:
        files = dict(files)
        for name, entry in extra.items():
            home = next((file for file, table in files.items() if name in table.entries), None)
            if home is None:
                known = [key for table in files.values() for key in table.entries]
                self.notes.refuse(entry.where, f"There is no “{name}” to add to.", did_you_mean(name, known))
                continue
            rule = files[home].entries[name]
            node = self._joined(rule.node, entry, links=links)
            files[home] = Table({**files[home].entries, name: Entry(node, rule.where)}, files[home].where)
        return files

    def _joined(self, rule: Node, extra: Entry, *, links: tuple[str, ...]) -> Node:
        if not isinstance(rule, Table) or not isinstance(extra.node, Table):
            self.notes.refuse(extra.where, "An addition must have keys of its own.", f"Write {', '.join(links)}.")
            return rule
        entries = dict(rule.entries)
        for key, entry in extra.node.entries.items():
            if key not in links:
                mend = did_you_mean(key, links, otherwise=f"Only {', '.join(links)} can be added.")
                self.notes.refuse(entry.where, f"“{key}” cannot be added to a rule of another file.", mend)
            elif key in entries:
                entries[key] = Entry(self._more(entries[key].node, entry.node), entries[key].where)
            else:
                entries[key] = entry
        return Table(entries, rule.where)

    def _more(self, before: Node, added: Node) -> Node:
        """Both together: lists one after the other, tables key by key; a key that leads to two texts is refused."""
        if isinstance(before, Items) and isinstance(added, Items):
            return Items((*before.items, *added.items), before.where)
        if isinstance(before, Table) and isinstance(added, Table):
            entries = dict(before.entries)
            for key, entry in added.entries.items():
                known = entries.get(key)
                if known is None:
                    entries[key] = entry
                else:
                    entries[key] = Entry(self._again(key, known, entry), known.where)
            return Table(entries, before.where)
        self.notes.refuse(added.where, "The addition has another form than the rule it adds to.", "Write it alike.")
        return before

    def _again(self, key: str, known: Entry, entry: Entry) -> Node:
        if isinstance(known.node, Table) and isinstance(entry.node, Table) and _holds_tables(known.node):
            return self._more(known.node, entry.node)
        self.notes.refuse(entry.where, f"“{key}” stands already at {known.where}.", "Keep one of the two.")
        return known.node


def _holds_tables(table: Table) -> bool:
    """Whether a table only groups others: the causes that one blind situation hides."""
    return all(isinstance(entry.node, Table) for entry in table.entries.values())


def _below_table(tree: Table, key: str) -> Table:
    entry = tree.entries.get(key)
    return entry.node if entry is not None and isinstance(entry.node, Table) else Table({}, tree.where)


def _below(tree: Table, key: str) -> Mapping[str, Entry]:
    return _below_table(tree, key).entries


def _with(tree: Table, key: str, node: Table) -> Table:
    entry = tree.entries.get(key)
    return tree if entry is None else Table({**tree.entries, key: Entry(node, entry.where)}, tree.where)


def _without(tree: Table, *keys: str) -> Table:
    return Table({key: entry for key, entry in tree.entries.items() if key not in keys}, tree.where)

"""One table of a rule or case file, read key by key; what is not asked for is refused at the end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from app.measurements.numbers import read_number
from app.problem import Problem
from app.rules.nearest import did_you_mean
from app.rules.tree import Entry, Items, Node, Notes, Table, Text


class Section:
    """Reads a table's keys. Every wrong is noted with its line; the value then returned is only a stand-in.

    `what` names the table in sentences: "cause “worn-tappet”".
    """

    def __init__(self, table: Table, what: str, notes: Notes) -> None:
        self.table = table
        self.what = what
        self.notes = notes
        self._asked: set[str] = set()

    @property
    def where(self) -> str:
        return self.table.where

    def has(self, key: str) -> bool:
        """Whether the key is there; asking makes it a known key."""
        self._asked.add(key)
        return key in self.table.entries

    def line(self, key: str) -> str:
        entry = self.table.entries.get(key)
        return entry.where if entry else self.where

    def refuse(self, key: str, sentence: str, mend: str) -> None:
        self.notes.refuse(self.line(key), sentence, mend)

    def text(self, key: str) -> str:
        """The text behind a key that must be there."""
        found = self.optional_text(key)
        if found is None:
            self.missing(key)
            return ""
        return found

    def optional_text(self, key: str) -> str | None:
        """The text behind a key, or None where the key is left out."""
        entry = self._entry(key)
        if entry is None:
            return None
        if not isinstance(entry.node, Text) or not entry.node.value:
            self.refuse(key, f"“{key}” of {self.what} says nothing.", "Write its text, or leave it out.")
            return None
        return entry.node.value

    def number(self, key: str) -> float:
        """The number behind a key that must be there."""
        found = self.optional_number(key)
        if found is None and not self.has(key):
            self.missing(key)
        return 0.0 if found is None else found

    def optional_number(self, key: str) -> float | None:
        typed = self.optional_text(key)
        if typed is None:
            return None
        return self.as_number(typed, self.line(key))

    def as_number(self, typed: str, where: str) -> float:
        number = read_number(typed, where)
        if isinstance(number, Problem):
            self.notes.problems.append(number)
            return 0.0
        return number

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts; empty where the key is left out. A single text counts as a list of one."""
        return tuple(text.value for text in self.text_nodes(key))

    def text_nodes(self, key: str) -> tuple[Text, ...]:
        entry = self._entry(key)
        if entry is None:
            return ()
        node = entry.node
        items = node.items if isinstance(node, Items) else (node,)
        texts = tuple(item for item in items if isinstance(item, Text) and item.value)
        if len(texts) == len(items):
            return texts
        self.refuse(key, f"“{key}” of {self.what} must be a list of texts.", "Write [one, two].")
        return ()

    def choice(self, key: str, known: Iterable[str], kind: str) -> str:
        """One of the known words; `kind` names them in the sentence ("level")."""
        return self.known(self.text(key), known, kind=kind, where=self.line(key)) if self.has(key) else self.text(key)

    def known(self, word: str, known: Iterable[str], *, kind: str, where: str) -> str:
        """The word itself; noted where it is not one of the known."""
        words = tuple(known)
        if word and word not in words:
            self.notes.refuse(where, f"There is no {kind} “{word}”.", did_you_mean(word, words))
        return word

    def yes(self, key: str) -> bool:
        """Whether a key says yes; False where it is left out."""
        word = self.optional_text(key)
        if word is not None and word not in ("yes", "no"):
            self.refuse(key, f"“{key}” of {self.what} must be yes or no.", "Write yes or no.")
        return word == "yes"

    def entries(self, key: str) -> Mapping[str, Entry]:
        """The table behind a key, as keys and values; empty where it is left out."""
        entry = self._entry(key)
        if entry is None:
            return {}
        if not isinstance(entry.node, Table):
            self.refuse(key, f"“{key}” of {self.what} must have keys of its own.", "Write {key: value}.")
            return {}
        return entry.node.entries

    def node(self, key: str) -> Node | None:
        entry = self._entry(key)
        return entry.node if entry else None

    def section(self, key: str) -> Section:
        """The table behind a key that must be there, to be read key by key."""
        if self.has(key):
            return self.within(self.table.entries[key], f"“{key}” of {self.what}", key)
        self.missing(key)
        return Section(Table({}, self.where), key, Notes())  # its own keys being missing is no news

    def sections(self, key: str) -> Iterator[tuple[str, Section]]:
        """Each table behind a key, by its own key: the duties of an operation."""
        for name, entry in self.entries(key).items():
            yield name, self.within(entry, f"“{name}”", key)

    def listed(self, key: str) -> Iterator[Section]:
        """Each table of a list."""
        entry = self._entry(key)
        if entry is None:
            return
        if not isinstance(entry.node, Items):
            self.refuse(key, f"“{key}” of {self.what} must be a list.", "Begin each entry with a hyphen.")
            return
        for item in entry.node.items:
            yield self.within(Entry(item, item.where), f"an entry of “{key}” of {self.what}", key)

    def within(self, entry: Entry, what: str, key: str) -> Section:
        """A value of this table as a table of its own."""
        self._asked.add(key)
        if isinstance(entry.node, Table):
            return Section(Table(entry.node.entries, entry.where), what, self.notes)
        self.notes.refuse(entry.where, f"{capital(what)} must have keys of its own.", "Write “key: value”.")
        return Section(Table({}, entry.where), what, self.notes)

    def missing(self, key: str) -> None:
        self.notes.refuse(self.where, f"{capital(self.what)} has no “{key}”.", f"Add “{key}: …”.")

    def close(self) -> None:
        """Refuses every key nobody asked for."""
        for key, entry in self.table.entries.items():
            if key not in self._asked:
                mend = did_you_mean(key, self._asked, otherwise="Leave it out.")
                if " " in key and entry.node == Text("", entry.node.where):
                    mend = "Put a text that holds a comma into quotes when it stands inside { }."
                self.notes.refuse(entry.where, f"{capital(self.what)} has no place for “{key}”.", mend)

    def _entry(self, key: str) -> Entry | None:
        self._asked.add(key)
        return self.table.entries.get(key)


def capital(phrase: str) -> str:
    return phrase[:1].upper() + phrase[1:]

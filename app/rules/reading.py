"""What every reader of a rule file needs: the known ids, the words, and typed access to a section's references."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.rules.known_ids import KnownIds
from app.rules.library import Settings
from app.rules.section import Section
from app.rules.words import FamilyId, Rated, WordList
from app.vehicle.layout import Level

UNKNOWN_CHANCE = 0.5
"""Stands in for an unknown word until the reading is refused."""


@dataclass(frozen=True, slots=True)
class Reading:
    """The family being read, and what may be said in it."""

    family: FamilyId
    ids: KnownIds
    words: Mapping[WordList, Mapping[str, Rated]]
    settings: Settings

    def rated(self, section: Section, word: str, *, kind: WordList, where: str) -> Rated:
        """A word of one list with its chance; another word is noted at `where`."""
        known = self.words[kind]
        section.known(word, known, kind=f"word for “{kind}”:", where=where)
        return known.get(word, Rated(word, UNKNOWN_CHANCE))

    def rated_key(self, section: Section, key: str, kind: WordList) -> Rated:
        """The word behind a key that must be there."""
        return self.rated(section, section.text(key), kind=kind, where=section.line(key))

    def optional_rated(self, section: Section, key: str, kind: WordList) -> Rated | None:
        return self.rated_key(section, key, kind) if section.has(key) else None


def read_level(section: Section, key: str) -> Level:
    return level_named(section.choice(key, list(Level), "level"))


def level_named(word: str) -> Level:
    """The level of this name; `vehicle` stands in for a word that was already noted as unknown."""
    return Level(word) if word in list(Level) else Level.VEHICLE


def known_texts(section: Section, key: str, *, known: Iterable[str], kind: str) -> tuple[str, ...]:
    """A list of references; each unknown one is noted on its own line."""
    words = tuple(known)
    return tuple(section.known(text.value, words, kind=kind, where=text.where) for text in section.text_nodes(key))


def read_fits(section: Section, reading: Reading) -> Mapping[str, tuple[str, ...]]:
    """The traits that a vehicle must have, each with the values that will do; {} where any vehicle will do."""
    traits = section.section("fits") if section.has("fits") else None
    if traits is None:
        return {}
    fits = {}
    for name in traits.table.entries:
        traits.known(name, reading.ids.traits, kind="trait", where=traits.line(name))
        values = reading.ids.traits.get(name)
        kind = f"value of “{name}”:"
        fits[name] = traits.texts(name) if values is None else known_texts(traits, name, known=values, kind=kind)
    return fits


def phrase(node: object) -> str:
    """The text of a node; empty where it is not a text."""
    value = getattr(node, "value", "")
    return value if isinstance(value, str) else ""

"""findings.yaml as typed values: kinds of defect that somebody comes upon."""

from __future__ import annotations

from collections.abc import Mapping

from app.rules.defects import DefectKind
from app.rules.known_ids import KnownIds, Trees
from app.rules.read_words import Words
from app.rules.reading import UNKNOWN_CHANCE
from app.rules.section import Section
from app.rules.tree import Notes
from app.rules.words import CauseId, DefectId, Rated, WordList


def read_defects(trees: Trees, ids: KnownIds, words: Words, *, notes: Notes) -> Mapping[DefectId, DefectKind]:
    """Every kind of defect."""
    file = Section(trees.findings, "the findings file", notes)
    return {
        DefectId(name): _read_kind(name, file.within(entry, f"kind of defect “{name}”", name), ids, words=words)
        for name, entry in trees.findings.entries.items()
    }


def _read_kind(name: str, section: Section, ids: KnownIds, *, words: Words) -> DefectKind:
    brings = section.choice("brings", ids.causes, "cause") if section.has("brings") else None
    kind = DefectKind(
        id=DefectId(name),
        name=section.text("name"),
        means=section.text("means"),
        brings=CauseId(brings) if brings else None,
        how=_read_how(section, words, wanted=brings is not None),
        cautions=section.texts("cautions"),
    )
    section.close()
    return kind


def _read_how(section: Section, words: Words, *, wanted: bool) -> Rated | None:
    """How often such work leaves it behind: said exactly where the defect brings a cause."""
    if not wanted:
        if section.has("how"):
            section.refuse("how", "“how” belongs to “brings”.", "Say which cause it brings, or leave “how” out.")
        return None
    known = words[WordList.MISHAP]
    word = section.choice("how", known, f"word for “{WordList.MISHAP}”:")
    return known.get(word, Rated(word, UNKNOWN_CHANCE))

"""strengths.yaml and sources.yaml: the words with their chances, and the stated settings."""

from __future__ import annotations

from collections.abc import Mapping

from app.rules.known_ids import Trees
from app.rules.library import Settings
from app.rules.section import Section
from app.rules.tree import Notes
from app.rules.words import Rated, WordList

Words = Mapping[WordList, Mapping[str, Rated]]


def read_words(trees: Trees, notes: Notes) -> Words:
    """Every word list; each word says its chance (or weight) and where the figure comes from."""
    file = Section(trees.strengths, "the strengths file", notes)
    words = {kind: _read_list(file, kind) for kind in WordList}
    file.has("settings")
    file.close()
    return words


def _read_list(file: Section, kind: WordList) -> Mapping[str, Rated]:
    if not file.has(kind):
        file.missing(kind)
    figure = "weight" if kind is WordList.HOW_COMMON else "chance"
    return {word: Rated(word, _figure(section, figure)) for word, section in file.sections(kind)}


def _figure(section: Section, figure: str) -> float:
    value = section.number(figure)
    section.text("from")
    section.close()
    return value


def read_settings(trees: Trees, notes: Notes) -> Settings:
    """The settings of the model and how far each source is believed."""
    settings = Section(trees.strengths, "the strengths file", notes).section("settings")

    def said(key: str) -> float:
        if not settings.has(key):
            settings.missing(key)
            return 0.0
        return _figure(settings.section(key), "value")

    read = Settings(
        unlisted_share=said("unlisted share"),
        job_renews=said("job renews"),
        job_sets=said("job sets"),
        bad_part=said("bad part"),
        shows_again=said("shows again"),
        shows_again_comes_and_goes=said("shows again when it comes and goes"),
        early_share_grows=said("early share when it grows"),
        wears_in_over_km=said("wears in over km"),
        normal_if_invented=said("normal if invented"),
        leak=said("leak"),
        labour_rate=said("labour rate"),
        hours_when_nothing_listed_helps=said("hours when nothing listed helps"),
        proof_still_there_at_most=said("proof still there at most"),
        proof_wait_shape=said("proof wait shape"),
        reliability=_read_sources(trees, notes),
    )
    settings.close()
    return read


SOURCES = ("measured here", "seen here", "on paper", "as told", "from traces", "parts with a receipt")
"""The words of app.evidence.case.Source, and jobs whose parts have a receipt."""


def _read_sources(trees: Trees, notes: Notes) -> Mapping[str, float]:
    file = Section(trees.sources, "the sources file", notes)
    read = {name: _figure(file.section(name), "reliability") for name in SOURCES}
    file.close()
    return read

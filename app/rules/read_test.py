"""A test of a family file as a typed value; a whole system it cannot show is spelled out cause by cause later."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.rules.fold import in_family
from app.rules.reading import Reading, known_texts, phrase, read_fits, read_level
from app.rules.section import Section
from app.rules.tests import Blind, Shows, Test
from app.rules.words import CauseId, CoverId, FamilyId, SituationId, TestId, WordList


@dataclass(frozen=True, slots=True)
class TestRead:
    """A test whose `cannot show` is still as written: for each family, a cause or a whole system -> the reason."""

    __test__ = False

    test: Test
    cannot_show: Mapping[FamilyId, Mapping[str, str]]


def read_test(name: str, section: Section, reading: Reading) -> TestRead:
    """One test; unknown ids and words are noted."""
    minutes = section.section("minutes")
    cannot_show = {family: _read_cannot_show(section, key, reading) for family, key in _families(section, reading)}
    normal, abnormal = _read_outcomes(section)
    quantity = section.choice("quantity", reading.ids.quantities, "quantity") if section.has("quantity") else None
    test = Test(
        id=TestId(name),
        family=reading.family,
        families=tuple(cannot_show),
        name=section.text("name"),
        at=read_level(section, "at"),
        fits=read_fits(section, reading),
        measures=section.text("measures"),
        method=section.text("method"),
        quantity=quantity,
        pass_rule=section.text("passes when"),
        pass_source=section.text("source"),
        setup_minutes=minutes.number("set up"),
        minutes_per_place=minutes.number("each place"),
        needs_open=tuple(map(CoverId, known_texts(section, "needs open", known=reading.ids.covers, kind="cover"))),
        cautions=section.texts("cautions"),
        shows=_read_shows(section, reading),
        blind_when=_read_blind(section, reading),
        cannot_show=(),
        false_alarm=reading.rated_key(section, "false alarm", WordList.FALSE_ALARM),
        false_alarm_why=section.texts("false alarm because"),
        normal_word=normal,
        abnormal_word=abnormal,
    )
    minutes.close()
    section.close()
    return TestRead(test, cannot_show)


def _families(section: Section, reading: Reading) -> Iterator[tuple[FamilyId, str]]:
    """The families whose complaints the test is used for, home first; each with the key of what it cannot show."""
    yield reading.family, "cannot show"
    for name in reading.ids.families:
        if section.has(in_family(name)):
            yield FamilyId(name), in_family(name)


def _read_outcomes(section: Section) -> tuple[str, str]:
    if not section.has("outcomes"):
        return "normal", "abnormal"
    words = section.texts("outcomes")
    if len(words) != 2:
        section.refuse("outcomes", "“outcomes” must be two words.", "Write [word for normal, word for abnormal].")
        return "normal", "abnormal"
    return words[0], words[1]


def _read_shows(section: Section, reading: Reading) -> tuple[Shows, ...]:
    shows = []
    for name, entry in section.entries("shows").items():
        section.known(name, reading.ids.causes, kind="cause", where=entry.where)
        strength = reading.rated(section, phrase(entry.node), kind=WordList.STRENGTH, where=entry.where)
        shows.append(Shows(CauseId(name), strength))
    return tuple(shows)


def _read_blind(section: Section, reading: Reading) -> tuple[Blind, ...]:
    blind = []
    for situation, causes in section.sections("blind when"):
        causes.known(situation, reading.ids.situations, kind="situation", where=causes.where)
        for name, entry in causes.table.entries.items():
            causes.known(name, reading.ids.causes, kind="cause", where=entry.where)
            detail = causes.within(entry, f"“{name}” under “{situation}”", name)
            share = reading.rated_key(detail, "share", WordList.BLIND_SHARE)
            blind.append(Blind(SituationId(situation), CauseId(name), share, detail.text("why")))
            detail.close()
    return tuple(blind)


def _read_cannot_show(section: Section, key: str, reading: Reading) -> Mapping[str, str]:
    known = (*reading.ids.causes, *reading.ids.systems)
    entries = section.entries(key)
    for name, entry in entries.items():
        section.known(name, known, kind="cause or system", where=entry.where)
        if not phrase(entry.node):
            section.notes.refuse(entry.where, f"Why it cannot show “{name}” is not said.", "Give the reason.")
    return {name: phrase(entry.node) for name, entry in entries.items()}

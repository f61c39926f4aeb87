"""A cause of a family file as a typed value."""

from __future__ import annotations

from collections.abc import Mapping

from app.rules.causes import Cause, Damages, FixedBy, Gives, RaisedBy
from app.rules.reading import Reading, level_named, phrase, read_fits, read_level
from app.rules.section import Section, capital
from app.rules.tree import Entry, Items, Table, Text
from app.rules.words import CauseId, Course, DutyId, OperationId, Rated, SymptomId, WordList
from app.vehicle.layout import Level


def read_cause(name: str, section: Section, reading: Reading) -> Cause:
    """One cause; whatever is unknown, missing or too much is noted."""
    _one_of_two(section, "how common", "prior")
    wears_in = section.optional_number("wears in over")
    bad_part = reading.optional_rated(section, "bad part", WordList.MISHAP)
    cause = Cause(
        id=CauseId(name),
        family=reading.family,
        name=section.text("name"),
        system=section.choice("system", reading.ids.systems, "system"),
        acts_at=_read_acts_at(section),
        how_common=reading.optional_rated(section, "how common", WordList.HOW_COMMON),
        prior=section.optional_number("prior"),
        why=section.text("why"),
        fits=read_fits(section, reading),
        gives=_read_gives(section, reading),
        raised_by=tuple(_read_raised_by(entry, reading) for entry in section.listed("raised by")),
        damages=tuple(_read_damages(victim, entry, reading) for victim, entry in section.sections("damages")),
        fixed_by=_read_fixed_by(section, reading),
        cautions=section.texts("cautions"),
        bad_part=bad_part.chance if bad_part else reading.settings.bad_part,
        comes_with_part=section.yes("comes with the part"),
        wears_in_over_km=reading.settings.wears_in_over_km if wears_in is None else wears_in,
        only_the_repair_tells=section.optional_text("only the repair tells"),
    )
    section.close()
    return cause


def _one_of_two(section: Section, one: str, other: str) -> None:
    if section.has(one) == section.has(other):
        both = "both" if section.has(one) else "neither"
        section.notes.refuse(
            section.where,
            f"{capital(section.what)} says {both} “{one}” {'and' if section.has(one) else 'nor'} “{other}”.",
            f"Say “{one}: …” for a cause that gives the lead complaint, else “{other}: …”.",
        )


def _read_acts_at(section: Section) -> Mapping[Level, float]:
    node = section.node("acts at")
    if isinstance(node, Table):
        return {_level(section, word, entry.where): _part(section, entry) for word, entry in node.entries.items()}
    if isinstance(node, Items):
        words = [item for item in node.items if isinstance(item, Text)]
        return {_level(section, item.value, item.where): 1.0 if i == 0 else 0.0 for i, item in enumerate(words)}
    return {read_level(section, "acts at"): 1.0}


def _level(section: Section, word: str, where: str) -> Level:
    return level_named(section.known(word, list(Level), kind="level", where=where))


def _part(section: Section, entry: Entry) -> float:
    return section.as_number(phrase(entry.node), entry.where)


def _read_gives(section: Section, reading: Reading) -> tuple[Gives, ...]:
    usual = _read_course(section, "course", Course.AT_ONCE)
    gives = []
    for name, entry in section.entries("gives").items():
        section.known(name, reading.ids.symptoms, kind="symptom", where=entry.where)
        how, course = _how_and_course(section, entry, usual=usual, reading=reading)
        gives.append(Gives(SymptomId(name), how, course))
    return tuple(gives)


def _how_and_course(section: Section, entry: Entry, *, usual: Course, reading: Reading) -> tuple[Rated, Course]:
    if isinstance(entry.node, Table):
        detail = section.within(entry, f"an effect of {section.what}", "gives")
        how, course = reading.rated_key(detail, "how", WordList.EFFECT), _read_course(detail, "course", usual)
        detail.close()
        return how, course
    return reading.rated(section, phrase(entry.node), kind=WordList.EFFECT, where=entry.where), usual


def _read_course(section: Section, key: str, usual: Course) -> Course:
    if not section.has(key):
        return usual
    word = section.choice(key, list(Course), "course")
    return Course(word) if word in list(Course) else usual


def _read_raised_by(entry: Section, reading: Reading) -> RaisedBy:
    operation = entry.choice("operation", reading.ids.operations, "operation")
    duties = reading.ids.duties.get(operation)
    duty = entry.text("duty") if duties is None else entry.choice("duty", duties, f"duty of “{operation}”:")
    raised = RaisedBy(
        operation=OperationId(operation),
        duty=DutyId(duty),
        at=read_level(entry, "at"),
        how=reading.rated_key(entry, "how", WordList.MISHAP),
    )
    entry.close()
    return raised


def _read_damages(victim: str, entry: Section, reading: Reading) -> Damages:
    entry.known(victim, reading.ids.causes, kind="cause", where=entry.where)
    damages = Damages(
        victim=CauseId(victim),
        how=reading.rated_key(entry, "how", WordList.DAMAGE),
        within_months=entry.optional_number("within months"),
        within_km=entry.optional_number("within km"),
    )
    if damages.within_months is None and damages.within_km is None:
        entry.notes.refuse(entry.where, f"Within what time “{victim}” is damaged is not said.", "Add “within months”.")
    entry.close()
    return damages


def _read_fixed_by(section: Section, reading: Reading) -> tuple[FixedBy, ...]:
    if not section.has("fixed by"):
        section.missing("fixed by")
        return ()
    fixes = section.section("fixed by")
    read = []
    for name in fixes.table.entries:
        fixes.known(name, reading.ids.operations, kind="operation", where=fixes.line(name))
        read.append(FixedBy(OperationId(name), fixes.texts(name)))
    return tuple(read)

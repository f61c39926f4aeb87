"""The page of one rule: what it is, what it says, what the shop changed, and the forms to change it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.board.words import capital
from app.measurements.numbers import write_number
from app.rules.causes import Cause
from app.rules.library import Rules
from app.rules.look_up import Rule
from app.rules.operations import Operation
from app.rules.own import is_own
from app.rules.symptoms import Symptom
from app.rules.tests import Test
from app.web.forms.fields import Field
from app.web.rule_book import RuleBook
from app.web.showing import Frame
from app.web.views.rule_lines import (
    Line,
    Lines,
    Section,
    cause_sections,
    operation_sections,
    symptom_sections,
    test_sections,
)
from app.web.views.said import sentence

SHELVES = {"causes": "Cause", "tests": "Test", "operations": "Operation", "symptoms": "Symptom"}


@dataclass(frozen=True, slots=True)
class Fact:
    label: str
    said: str


@dataclass(frozen=True, slots=True)
class Taken:
    """Something the shop says at `path` that can be taken back."""

    words: str
    path: str


@dataclass(frozen=True, slots=True)
class ChangeForm:
    """A small form: what is changed, its fields, the word on its button."""

    what: str
    heading: str
    fields: tuple[Field, ...]
    button: str


@dataclass(frozen=True, slots=True)
class RulePage:
    """`seen`: version of the rules shown; `problems`: why a change was refused; `saved`: what was changed just now."""

    frame: Frame
    kind: str
    name: str
    address: str
    families: tuple[Line, ...]
    facts: tuple[Fact, ...]
    cautions: tuple[str, ...]
    sections: tuple[Section, ...]
    sheet: str
    seen: str
    forms: tuple[ChangeForm, ...]
    ours: tuple[Taken, ...]
    problems: tuple[str, ...]
    saved: str


def rule_page(
    frame: Frame,
    shelf: str,
    rule: Rule,
    *,
    book: RuleBook,
    forms: tuple[ChangeForm, ...],
    problems: tuple[str, ...] = (),
    saved: str = "",
) -> RulePage:
    rules = book.rules
    make = Lines(rules, book.supplied, (shelf, rule.id))
    return RulePage(
        frame=frame,
        kind=SHELVES[shelf],
        name=capital(rule.name),
        address=f"/rules/{shelf}/{rule.id}",
        families=tuple(_families(rule, rules)),
        facts=tuple(_facts(rule, rules)),
        cautions=() if isinstance(rule, Symptom) else tuple(sentence(one) for one in rule.cautions),
        sections=tuple(section for section in _sections(rule, make) if section.lines),
        sheet=f"/rules/tests/{rule.id}/sheet" if isinstance(rule, Test) else "",
        seen=rules.version,
        forms=forms,
        ours=tuple(_ours(shelf, rule, rules)),
        problems=problems,
        saved=saved,
    )


def _families(rule: Rule, rules: Rules) -> Iterator[Line]:
    if isinstance(rule, Operation):
        return
    for family in rules.families.values():
        gives_it = isinstance(rule, Cause) and family.has(rule)
        used_for_it = isinstance(rule, Test) and family.id in rule.families
        if rule.family == family.id or gives_it or used_for_it:
            said = "at home here" if rule.family == family.id else ""
            yield Line(capital(family.name), f"/rules/families/{family.id}", said, "")


def _sections(rule: Rule, make: Lines) -> Iterator[Section]:
    match rule:
        case Cause():
            return cause_sections(rule, make)
        case Test():
            return test_sections(rule, make)
        case Operation():
            return operation_sections(rule, make)
        case Symptom():
            return symptom_sections(rule, make)


def _facts(rule: Rule, rules: Rules) -> Iterator[Fact]:
    match rule:
        case Cause():
            yield from _cause_facts(rule, rules)
        case Test():
            yield from test_facts(rule, rules)
        case Operation():
            yield Fact("Done at", rules_level(rule.at.value))
            yield Fact("Minutes", f"{write_number(rule.minutes)}, without reaching and restoring the covers")
            if rule.opens:
                yield Fact("Opens", ", ".join(rules.covers[cover].name for cover in rule.opens))
        case Symptom():
            yield Fact("Noticed at", rules_level(rule.at.value))
            yield Fact("How", rule.sense.value)
            if rule.kind_of is not None:
                yield Fact("A kind of", rules.symptoms[rule.kind_of].name)
            if rule.conditions:
                yield Fact("Under", ", ".join(rule.conditions))
            if rule.may_drive:
                yield Fact("May it be driven", rule.may_drive)


def _cause_facts(cause: Cause, rules: Rules) -> Iterator[Fact]:
    yield Fact("Why", sentence(cause.why))
    yield Fact("Belongs to", rules.systems.get(cause.system, cause.system))
    yield Fact("Acts at", ", ".join(level.value for level in cause.acts_at))
    if cause.how_common is not None:
        yield Fact("How common", f"{cause.how_common.word}, among first visits with this complaint")
    if cause.fits:
        yield Fact("Only with", _fits(cause.fits))
    if cause.only_the_repair_tells:
        yield Fact("Only the repair tells", sentence(cause.only_the_repair_tells))


def _fits(fits: Mapping[str, tuple[str, ...]]) -> str:
    return "; ".join(f"{name}: {' or '.join(values)}" for name, values in fits.items())


def test_facts(test: Test, rules: Rules) -> Iterator[Fact]:
    """What a technician needs to do the test."""
    yield Fact("Measures", sentence(capital(test.measures)))
    yield Fact("How", sentence(test.method))
    yield Fact("Good when", sentence(test.pass_rule))
    yield Fact("Source", sentence(test.pass_source))
    yield Fact("Done at", rules_level(test.at.value))
    if test.fits:
        yield Fact("Only with", _fits(test.fits))
    set_up, each = write_number(test.setup_minutes), write_number(test.minutes_per_place)
    yield Fact("Minutes", f"{set_up} to set up, {each} at each place")
    if test.needs_open:
        yield Fact("Must be off or open", ", ".join(rules.covers[cover].name for cover in test.needs_open))
    if test.false_alarm_why:
        yield Fact("Fails falsely", f"{test.false_alarm.word}: {'; '.join(test.false_alarm_why)}")


def rules_level(level: str) -> str:
    return f"the {level}" if level in ("vehicle", "engine") else f"each {level}"


def _ours(shelf: str, rule: Rule, rules: Rules) -> Iterator[Taken]:
    """The longest paths of this rule at which the shop says something: what can be taken back one by one."""
    ours = [path for path, where in rules.lines.items() if path[:2] == (shelf, rule.id) and is_own(where)]
    for path in ours:
        if not any(other != path and other[: len(path)] == path for other in ours):
            yield Taken(": ".join(path[2:]) or "the whole rule", "/".join(path[2:]))

"""The rules at a glance: families, what was looked up, and what the shop changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.board.words import capital
from app.rules.causes import Cause
from app.rules.library import Family, Rules
from app.rules.look_up import find_rule, look_up
from app.rules.own import changed_paths
from app.web.forms.fields import Field, FieldMaker
from app.web.rule_book import RuleBook
from app.web.showing import Frame
from app.web.views.rule_lines import Line, Section
from app.web.views.rule_page import SHELVES


@dataclass(frozen=True, slots=True)
class RulesPage:
    frame: Frame
    query: Field
    said: str
    found: tuple[Line, ...]
    families: tuple[Line, ...]
    counts: str
    ours: tuple[Line, ...]
    changes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FamilyPage:
    frame: Frame
    name: str
    scope: str
    leads: tuple[Line, ...]
    sections: tuple[Section, ...]


def rules_page(frame: Frame, book: RuleBook, typed: str) -> RulesPage:
    rules = book.rules
    found = tuple(
        Line(
            capital(f.name),
            f"/rules/{f.shelf}/{f.id}",
            SHELVES[f.shelf] if f.by == f.name else f"{SHELVES[f.shelf]}: “{f.by}”",
            "",
        )
        for f in look_up(typed, rules)
    )
    return RulesPage(
        frame=frame,
        query=FieldMaker("rules", focus_on="q").line(
            "q", "Look up a cause, test, operation, symptom or code", value=typed
        ),
        said=_said(typed, len(found)),
        found=found,
        families=tuple(_family_line(family, rules) for family in sorted(rules.families.values(), key=lambda f: f.name)),
        counts=_counts(rules),
        ours=tuple(_own_lines(rules)),
        changes=book.changes()[:20],
    )


def _said(typed: str, found: int) -> str:
    if not typed.strip():
        return ""
    return f"{found} found" if found else "Nothing is called that. Try fewer or other words."


def _family_line(family: Family, rules: Rules) -> Line:
    tests = sum(family.id in test.families for test in rules.tests.values())
    return Line(capital(family.name), f"/rules/families/{family.id}", f"{len(family.causes)} causes, {tests} tests", "")


def _counts(rules: Rules) -> str:
    duties = sum(len(operation.duties) for operation in rules.operations.values())
    return (
        f"{len(rules.families)} families, {len(rules.causes)} causes, {len(rules.symptoms)} symptoms, "
        f"{len(rules.tests)} tests, {len(rules.operations)} operations with {duties} duties."
    )


def _own_lines(rules: Rules) -> Iterator[Line]:
    for shelf, id in sorted(changed_paths(rules.lines)):
        rule = find_rule(shelf, id, rules)
        if rule is not None:
            yield Line(capital(rule.name), f"/rules/{shelf}/{id}", SHELVES[shelf], "")


def family_page(frame: Frame, family: Family, rules: Rules) -> FamilyPage:
    causes = sorted((rules.causes[name] for name in family.causes), key=lambda cause: _order(cause, family))
    tests = [test for test in rules.tests.values() if family.id in test.families]
    symptoms = [symptom for symptom in rules.symptoms.values() if symptom.family == family.id]
    return FamilyPage(
        frame=frame,
        name=capital(family.name),
        scope=family.scope,
        leads=tuple(
            Line(capital(rules.symptoms[lead].name), f"/rules/symptoms/{lead}", "", "") for lead in family.lead
        ),
        sections=(
            Section(
                "Causes", tuple(Line(capital(c.name), f"/rules/causes/{c.id}", _common(c, family), "") for c in causes)
            ),
            Section("Tests", tuple(Line(capital(t.name), f"/rules/tests/{t.id}", t.at.value, "") for t in tests)),
            Section(
                "Symptoms", tuple(Line(capital(s.name), f"/rules/symptoms/{s.id}", s.sense.value, "") for s in symptoms)
            ),
        ),
    )


def _order(cause: Cause, family: Family) -> tuple[bool, float, str]:
    weight = cause.how_common.chance if cause.how_common is not None else 0.0
    return cause.family != family.id, -weight, cause.name


def _common(cause: Cause, family: Family) -> str:
    if cause.family != family.id:
        return "at home in another family"
    return cause.how_common.word if cause.how_common is not None else ""

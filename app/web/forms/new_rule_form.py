"""A cause or a test that the supplied rules do not have: its first form; more links are added on its own page."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Protocol, TypeVar

from app.board.words import capital
from app.problem import Problem
from app.rules.library import Rules
from app.rules.look_up import find_rule
from app.rules.own_text import Said
from app.rules.words import FamilyId, WordList
from app.vehicle.layout import Level
from app.web.forms.fields import NONE, Field, FieldMaker, Problems, Sent, too_long
from app.web.rule_book import Change

LONGEST_NAME, LONGEST_SENTENCE = 90, 200
SHELVES = ("causes", "tests")


class NewRuleSent(Sent):
    family: str = ""
    name: str = ""
    system: str = ""
    level: str = ""
    common: str = ""
    why: str = ""
    symptom: str = ""
    how: str = ""
    shown_by: str = ""
    cause: str = ""
    strength: str = ""
    repair: str = ""
    operation: str = ""
    parts: str = ""
    measures: str = ""
    way: str = ""
    good_when: str = ""
    source: str = ""
    set_up: str = ""
    each: str = ""
    alarm: str = ""
    alarm_why: str = ""
    caution: str = ""
    seen: str = ""


Options = list[tuple[str, str]]
K = TypeVar("K", bound=str)


def new_rule_fields(shelf: str, rules: Rules, sent: NewRuleSent, problems: Problems = NONE) -> tuple[Field, ...]:
    """The fields of a new cause or a new test, in the order in which a person thinks of them."""
    make = FieldMaker("new", problems, focus_on="name")
    shared = (
        make.line("name", "Name", value=sent.name, hint="As the trade says it, such as: spark plug gap too wide."),
        _pick(make, "family", "Complaint family", _named(rules.families), sent),
        _pick(make, "level", "Acts at" if shelf == "causes" else "Done at", [(one, one) for one in Level], sent),
    )
    return (*shared, *(_cause_fields(make, rules, sent) if shelf == "causes" else _test_fields(make, rules, sent)))


def _cause_fields(make: FieldMaker, rules: Rules, sent: NewRuleSent) -> Iterator[Field]:
    yield _pick(make, "system", "Belongs to", sorted(rules.systems.items(), key=lambda pair: pair[1]), sent)
    yield _pick(make, "common", "How common among first visits", _words(rules, WordList.HOW_COMMON), sent)
    yield make.line("why", "Why it makes the complaint", value=sent.why, hint="One sentence of physics.")
    yield _pick(make, "symptom", "Gives the symptom", _named(rules.symptoms), sent)
    yield _pick(make, "how", "How often", _words(rules, WordList.EFFECT), sent)
    yield _pick(make, "shown_by", "Shown by the test", _named(rules.tests), sent)
    yield _pick(make, "strength", "How well it shows it", _words(rules, WordList.STRENGTH), sent)
    yield make.line(
        "repair", "Or: only the repair tells", value=sent.repair, hint="A sentence, where no test shows it."
    )
    yield _pick(make, "operation", "Fixed by renewing in", _named(rules.operations), sent)
    yield make.line("parts", "Parts", value=sent.parts, hint="Such as: spark plugs. With commas between.")
    yield make.line("caution", "Caution", value=sent.caution, hint="Where it or its repair can hurt somebody.")


def _test_fields(make: FieldMaker, rules: Rules, sent: NewRuleSent) -> Iterator[Field]:
    yield make.line("measures", "What it physically measures", value=sent.measures)
    yield make.line("way", "How it is done", value=sent.way)
    yield make.line("good_when", "Good when", value=sent.good_when)
    yield make.line("source", "Where that figure is from", value=sent.source, hint="Such as: maker's figure needed.")
    yield make.line("set_up", "Minutes to set up", value=sent.set_up)
    yield make.line("each", "Minutes at each place", value=sent.each)
    yield _pick(make, "cause", "Shows the cause", _named(rules.causes), sent)
    yield _pick(make, "strength", "How well it shows it", _words(rules, WordList.STRENGTH), sent)
    yield _pick(make, "alarm", "Abnormal with nothing wrong", _words(rules, WordList.FALSE_ALARM), sent)
    yield make.line("alarm_why", "Why it fails falsely", value=sent.alarm_why)
    yield make.line("caution", "Caution", value=sent.caution, hint="Where the test can hurt somebody.")


def _pick(make: FieldMaker, name: str, label: str, options: Iterable[tuple[str, str]], sent: NewRuleSent) -> Field:
    return make.choice(name, label, options=[("", "choose"), *options], chosen=str(getattr(sent, name)))


class _Named(Protocol):
    @property
    def name(self) -> str: ...


def _named(shelf: Mapping[K, _Named]) -> Options:
    return sorted(((id, capital(rule.name)) for id, rule in shelf.items()), key=lambda pair: pair[1])


def _words(rules: Rules, kind: WordList) -> Options:
    return [(word, word) for word in rules.words[kind]]


def read_new_rule(shelf: str, rules: Rules, sent: NewRuleSent) -> tuple[tuple[Change, ...], str, str] | Problems:
    """What is added, the new rule's id, and the words for the list of changes; or everything that is wrong."""
    id = _slug(sent.name)
    problems = [*_common_problems(id, shelf, rules, sent)]
    problems += _cause_problems(rules, sent) if shelf == "causes" else _test_problems(rules, sent)
    if problems:
        return Problems(problems)
    file = f"families/{sent.family}.yaml"
    changes = _cause_changes(file, id, sent) if shelf == "causes" else _test_changes(file, id, sent)
    return changes, id, f"{sent.name.strip()} added to {rules.families[FamilyId(sent.family)].name}"


def _common_problems(id: str, shelf: str, rules: Rules, sent: NewRuleSent) -> Iterator[Problem]:
    for name in type(sent).model_fields:
        yield from too_long(name, str(getattr(sent, name)), limit=LONGEST_NAME if name == "name" else LONGEST_SENTENCE)
    if not id:
        yield Problem("name", "The name is missing.", "Write what the trade calls it.")
    elif any(find_rule(other, id, rules) for other in ("causes", "tests", "symptoms", "operations")):
        yield Problem("name", "A rule of this name is there already.", "Change that one, or name the difference.")
    yield from _not_chosen({"family": rules.families, "level": [one.value for one in Level]}, sent)


def _cause_problems(rules: Rules, sent: NewRuleSent) -> Iterator[Problem]:
    yield from _missing(("why",), sent)
    yield from _not_chosen(
        {
            "system": rules.systems,
            "common": rules.words[WordList.HOW_COMMON],
            "symptom": rules.symptoms,
            "how": rules.words[WordList.EFFECT],
            "operation": rules.operations,
        },
        sent,
    )
    if not sent.repair.strip():
        yield from _not_chosen({"shown_by": rules.tests, "strength": rules.words[WordList.STRENGTH]}, sent)


def _test_problems(rules: Rules, sent: NewRuleSent) -> Iterator[Problem]:
    yield from _missing(("measures", "way", "good_when", "source", "alarm_why"), sent)
    yield from _not_chosen(
        {
            "cause": rules.causes,
            "strength": rules.words[WordList.STRENGTH],
            "alarm": rules.words[WordList.FALSE_ALARM],
        },
        sent,
    )
    for name in ("set_up", "each"):
        if not re.fullmatch(r"\d{1,3}", str(getattr(sent, name)).strip()):
            yield Problem(name, "This is no number of minutes.", "Write whole minutes, such as 10.")


def _missing(names: Iterable[str], sent: NewRuleSent) -> Iterator[Problem]:
    for name in names:
        if not str(getattr(sent, name)).strip():
            yield Problem(name, "This is missing.", "Say it in one sentence.")


def _not_chosen(choices: Mapping[str, Iterable[object]], sent: NewRuleSent) -> Iterator[Problem]:
    for name, known in choices.items():
        if str(getattr(sent, name)) not in map(str, known):
            yield Problem(name, "Nothing of the list is chosen.", "Choose one.")


def _cause_changes(file: str, id: str, sent: NewRuleSent) -> tuple[Change, ...]:
    parts = [part.strip() for part in sent.parts.split(",") if part.strip()]
    said: dict[str, Said] = {
        "name": sent.name.strip(),
        "system": sent.system,
        "acts at": sent.level,
        "how common": sent.common,
        "why": sent.why.strip(),
        "gives": {sent.symptom: sent.how},
        "fixed by": {sent.operation: parts},
    }
    if sent.repair.strip():
        said["only the repair tells"] = sent.repair.strip()
    if sent.caution.strip():
        said["cautions"] = [sent.caution.strip()]
    changes = [
        Change(file, ("causes", id), said),
        Change("operations/own.yaml", (sent.operation, "touches", id), "renews"),
    ]
    if sent.shown_by and sent.strength:
        changes.append(Change(file, ("tests", sent.shown_by, "shows", id), sent.strength))
    return tuple(changes)


def _test_changes(file: str, id: str, sent: NewRuleSent) -> tuple[Change, ...]:
    said: dict[str, Said] = {
        "name": sent.name.strip(),
        "at": sent.level,
        "measures": sent.measures.strip(),
        "method": sent.way.strip(),
        "passes when": sent.good_when.strip(),
        "source": sent.source.strip(),
        "minutes": {"set up": sent.set_up.strip(), "each place": sent.each.strip()},
        "shows": {sent.cause: sent.strength},
        "false alarm": sent.alarm,
        "false alarm because": [sent.alarm_why.strip()],
    }
    if sent.caution.strip():
        said["cautions"] = [sent.caution.strip()]
    return (Change(file, ("tests", id), said),)


def _slug(name: str) -> str:
    return "-".join(re.findall(r"[a-z0-9]+", name.casefold()))[:60].strip("-")

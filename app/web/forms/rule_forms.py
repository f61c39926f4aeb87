"""Changing one rule: what a test says of a cause, how often a cause gives a symptom, how customers say it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from app.board.words import capital
from app.problem import Problem
from app.rules.causes import Cause
from app.rules.fold import in_family
from app.rules.library import Rules
from app.rules.look_up import Rule
from app.rules.operations import Operation
from app.rules.own import REMOVED
from app.rules.own_text import Said
from app.rules.symptoms import Symptom
from app.rules.tests import Test
from app.rules.words import CauseId, WordList
from app.web.forms.fields import NONE, FieldMaker, Problems, Sent, too_long
from app.web.rule_book import Change
from app.web.views.rule_page import ChangeForm

CANNOT, BLIND = "cannot show", "blind"
LONGEST_REASON = 200


class RuleSent(Sent):
    """Which small form (`what`), the rules' version it was made on (`seen`), and its fields."""

    what: str = ""
    seen: str = ""
    cause: str = ""
    says: str = ""
    situation: str = ""
    share: str = ""
    reason: str = ""
    symptom: str = ""
    how: str = ""
    common: str = ""
    alarm: str = ""
    words: str = ""
    minutes: str = ""


Options = list[tuple[str, str]]


def change_forms(rule: Rule, rules: Rules, sent: RuleSent, problems: Problems = NONE) -> tuple[ChangeForm, ...]:
    """The small forms of a rule, with what was typed into the one that was sent."""
    match rule:
        case Test():
            return _test_forms(rule, rules, sent, problems)
        case Cause():
            return _cause_forms(rule, rules, sent, problems)
        case Symptom():
            return _symptom_forms(rule, sent, problems)
        case Operation():
            return ()


def _maker(what: str, sent: RuleSent, problems: Problems) -> FieldMaker:
    mine = sent.what == what
    return FieldMaker(what, problems if mine else NONE)


def _test_forms(test: Test, rules: Rules, sent: RuleSent, problems: Problems) -> tuple[ChangeForm, ...]:
    make = _maker("speaks", sent, problems)
    says = [*((word, f"shows it: {word}") for word in rules.words[WordList.STRENGTH])]
    says += [(CANNOT, "cannot show it"), (BLIND, "shows it, but misses it in a situation")]
    situations = [(s.id, s.name) for s in sorted(rules.situations.values(), key=lambda s: s.name)]
    speaks = (
        make.choice("cause", "Cause", options=_choose(_causes(test, rules)), chosen=sent.cause),
        make.choice("says", "The test", options=_choose(says), chosen=sent.says),
        make.choice("situation", "Situation", options=_choose(situations), chosen=sent.situation,
                    hint="Only where it misses the cause in a situation."),
        make.choice("share", "How often met", options=_choose(_words(rules, WordList.BLIND_SHARE)), chosen=sent.share),
        make.line("reason", "Why", value=sent.reason,
                  hint="One sentence: what the test reads, and why the cause leaves that untouched."),
    )  # fmt: skip
    make = _maker("alarm", sent, problems)
    alarm = (
        make.choice("alarm", "Abnormal with nothing wrong", options=_choose(_words(rules, WordList.FALSE_ALARM)),
                    chosen=sent.alarm or test.false_alarm.word),
    )  # fmt: skip
    return (
        ChangeForm("speaks", "What it says of a cause", speaks, "Change what it says"),
        ChangeForm("alarm", "How often it fails falsely", alarm, "Change how often"),
    )


def _cause_forms(cause: Cause, rules: Rules, sent: RuleSent, problems: Problems) -> tuple[ChangeForm, ...]:
    make = _maker("gives", sent, problems)
    how = [*_words(rules, WordList.EFFECT), (REMOVED, "never")]
    gives = (
        make.choice("symptom", "Symptom", options=_choose(_symptoms(cause, rules)), chosen=sent.symptom),
        make.choice("how", "How often", options=_choose(how), chosen=sent.how),
    )
    forms = [ChangeForm("gives", "How often it gives a symptom", gives, "Change how often")]
    if cause.how_common is not None:
        make = _maker("common", sent, problems)
        common = make.choice(
            "common",
            "How common",
            options=_words(rules, WordList.HOW_COMMON),
            chosen=sent.common or cause.how_common.word,
        )
        forms.append(ChangeForm("common", "How common it is", (common,), "Change how common"))
    return tuple(forms)


def _symptom_forms(symptom: Symptom, sent: RuleSent, problems: Problems) -> tuple[ChangeForm, ...]:
    make = _maker("words", sent, problems)
    words = make.line(
        "words", "How a customer says it", value=sent.words, hint="Such as: shakes at the lights when warm."
    )
    return (ChangeForm("words", "Another way to say it", (words,), "Add it"),)


def _choose(options: Iterable[tuple[str, str]]) -> Options:
    return [("", "choose"), *options]


def _words(rules: Rules, kind: WordList) -> Options:
    return [(word, word) for word in rules.words[kind]]


def _causes(test: Test, rules: Rules) -> Options:
    """The causes of the test's families, and what it speaks of already."""
    spoken = {shows.cause for shows in test.shows} | {cannot.cause for cannot in test.cannot_show}
    near = spoken | {name for family in test.families for name in rules.families[family].causes}
    return sorted(((name, capital(rules.causes[name].name)) for name in near), key=lambda pair: pair[1])


def _symptoms(cause: Cause, rules: Rules) -> Options:
    families = {cause.family, *(rules.symptoms[gives.symptom].family for gives in cause.gives)}
    return sorted(
        ((s.id, capital(s.name)) for s in rules.symptoms.values() if s.family in families), key=lambda p: p[1]
    )


def read_change(rule: Rule, rules: Rules, sent: RuleSent) -> tuple[tuple[Change, ...], str] | Problems:
    """What the form changes, with the words for the list of changes; or what is wrong with it."""
    match rule, sent.what:
        case Test(), "speaks":
            return _read_speaks(rule, rules, sent)
        case Test(), "alarm":
            words = _read_word("alarm", sent.alarm, rules.words[WordList.FALSE_ALARM])
            return words if isinstance(words, Problems) else _set(rule, rules, ("false alarm",), sent.alarm)
        case Cause(), "gives":
            return _read_gives(rule, rules, sent)
        case Cause(), "common":
            words = _read_word("common", sent.common, rules.words[WordList.HOW_COMMON])
            return words if isinstance(words, Problems) else _set(rule, rules, ("how common",), sent.common)
        case Symptom(), "words":
            return _read_words(rule, rules, sent)
    return Problems([Problem("what", "Nothing is said to change.", "Use one of the forms below.")])


def _read_word(name: str, word: str, known: Iterable[str]) -> Problems | None:
    if word not in known:
        return Problems([Problem(name, "This is not one of the choices.", "Choose one of the list.")])
    return None


def _read_speaks(test: Test, rules: Rules, sent: RuleSent) -> tuple[tuple[Change, ...], str] | Problems:
    problems = list(_wrong_in_speaks(test, rules, sent))
    if problems:
        return Problems(problems)
    reason = sent.reason.strip()
    if sent.says == BLIND:
        path = ("blind when", sent.situation, sent.cause)
        return _set(test, rules, path, {"share": sent.share, "why": reason})
    blind = {b.situation for b in test.blind_when if b.cause == sent.cause}
    if sent.says == CANNOT:
        changes = [_put(test, ("cannot show", sent.cause), reason)]
        changes += [_put(test, ("shows", sent.cause), REMOVED)] if _shows(test, sent.cause) else []
        changes += [_put(test, ("blind when", situation, sent.cause), REMOVED) for situation in blind]
        return tuple(changes), f"{test.name}: cannot show {rules.causes[CauseId(sent.cause)].name}"
    changes = [_put(test, ("shows", sent.cause), sent.says)]
    changes += [_put(test, path, REMOVED) for path in _said_blind(test, sent.cause, rules)]
    return tuple(changes), f"{test.name}: shows {rules.causes[CauseId(sent.cause)].name}: {sent.says}"


def _wrong_in_speaks(test: Test, rules: Rules, sent: RuleSent) -> Iterator[Problem]:
    if sent.cause not in dict(_causes(test, rules)):
        yield Problem("cause", "No cause is chosen.", "Choose one of the list.")
    if sent.says not in (*rules.words[WordList.STRENGTH], CANNOT, BLIND):
        yield Problem("says", "What the test says is not chosen.", "Choose one of the list.")
    if sent.says in (CANNOT, BLIND) and not sent.reason.strip():
        yield Problem("reason", "The reason is missing.", "Say in one sentence what the test reads and why that stays.")
    yield from too_long("reason", sent.reason, limit=LONGEST_REASON)
    if sent.says == BLIND:
        if sent.situation not in rules.situations:
            yield Problem("situation", "No situation is chosen.", "Choose the one in which the test misses the cause.")
        if sent.share not in rules.words[WordList.BLIND_SHARE]:
            yield Problem("share", "How often it is met is not chosen.", "Choose one of the list.")
        if not _shows(test, sent.cause):
            yield Problem("says", "The test does not show this cause anyway.", "Say first how well it shows it.")


def _shows(test: Test, cause: str) -> bool:
    return any(shows.cause == cause for shows in test.shows)


def _said_blind(test: Test, cause: str, rules: Rules) -> Iterator[tuple[str, ...]]:
    """Where the rules say by name that the test cannot show the cause."""
    for key in ("cannot show", *(in_family(family) for family in test.families)):
        if ("tests", test.id, key, cause) in rules.lines:
            yield key, cause


def _read_gives(cause: Cause, rules: Rules, sent: RuleSent) -> tuple[tuple[Change, ...], str] | Problems:
    problems = []
    if sent.symptom not in dict(_symptoms(cause, rules)):
        problems.append(Problem("symptom", "No symptom is chosen.", "Choose one of the list."))
    if sent.how not in (*rules.words[WordList.EFFECT], REMOVED):
        problems.append(Problem("how", "How often is not chosen.", "Choose one of the list."))
    return Problems(problems) if problems else _set(cause, rules, ("gives", sent.symptom), sent.how)


def _read_words(symptom: Symptom, rules: Rules, sent: RuleSent) -> tuple[tuple[Change, ...], str] | Problems:
    words = " ".join(sent.words.split())
    problems = list(too_long("words", sent.words, limit=100))
    if not words:
        problems.append(Problem("words", "Nothing is written.", "Write what a customer says."))
    if words.casefold() in (said.casefold() for said in symptom.says):
        problems.append(Problem("words", "This is on the list already.", "Write it another way, or leave it."))
    return Problems(problems) if problems else _set(symptom, rules, ("says",), [*symptom.says, words])


def _set(
    rule: Cause | Test | Symptom, rules: Rules, path: tuple[str, ...], said: Said
) -> tuple[tuple[Change, ...], str]:
    last = said if isinstance(said, str) else said[-1] if isinstance(said, list) else ", ".join(map(str, _values(said)))
    return (_put(rule, path, said),), f"{rule.name}: {': '.join(path)}: {last}"


def _values(said: Said) -> Iterable[object]:
    return said.values() if isinstance(said, Mapping) else said


def _put(rule: Cause | Test | Symptom, path: tuple[str, ...], said: Said) -> Change:
    return Change(file_of(rule), (shelf_of(rule), rule.id, *path), said)


def file_of(rule: Rule) -> str:
    """The file of the shop's own in which this rule is changed."""
    return "operations/own.yaml" if isinstance(rule, Operation) else f"families/{rule.family}.yaml"


def shelf_of(rule: Rule) -> str:
    match rule:
        case Cause():
            return "causes"
        case Test():
            return "tests"
        case Symptom():
            return "symptoms"
        case Operation():
            return "operations"

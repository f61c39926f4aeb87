"""Names that are phrases, reasons that are one sentence, and reasons that are missing."""

from __future__ import annotations

from collections.abc import Iterator

from app.problem import Problem
from app.rules.library import Rules

WRITTEN_BY_A_PROGRAM = ("False", "True", "None", "null")
"""What a program makes of no, off, yes or an empty value when it writes YAML."""
LONGEST = 200
LONGEST_METHOD = 400
LONGEST_NAME = 80

Said = tuple[tuple[str, ...], str]
"""The path of keys to a text, and the text."""


def check_sentences(rules: Rules) -> Iterator[Problem]:
    for path, text in _sentences(rules):
        yield from _sentence(text, rules.where(*path), longest=LONGEST)
    for test in rules.tests.values():
        yield from _sentence(test.method, rules.where("tests", test.id, "method"), longest=LONGEST_METHOD)
    for path, name in _names(rules):
        yield from _phrase(name, rules.where(*path))
    yield from _missing_reasons(rules)


def _sentence(text: str, where: str, *, longest: int) -> Iterator[Problem]:
    begun = text[:60]
    if len(text) > longest:
        yield Problem(where, f"“{begun}…” has {len(text)} characters.", f"Say it in at most {longest}.")
    if not (text[:1].isupper() or text[:1].isdigit()):
        yield Problem(where, f"“{begun}” does not begin with a capital.", "Write a whole sentence.")
    if not text.endswith((".", "?", "!")):
        yield Problem(where, f"“{begun}” does not end with a full stop.", "Write a whole sentence.")


def _phrase(name: str, where: str) -> Iterator[Problem]:
    if name in WRITTEN_BY_A_PROGRAM:
        yield Problem(where, f"“{name}” is not a word of the trade.", "Write the word itself: off, no, yes …")
    if name.endswith("."):
        yield Problem(where, f"The name “{name}” ends with a full stop.", "Names are phrases: leave it out.")
    if len(name) > LONGEST_NAME:
        yield Problem(where, f"The name “{name}” is long.", f"Say it in at most {LONGEST_NAME} characters.")


def _sentences(rules: Rules) -> Iterator[Said]:
    for family in rules.families.values():
        yield ("families", family.id, "scope"), family.scope
    for symptom in rules.symptoms.values():
        if symptom.may_drive is not None:
            yield ("symptoms", symptom.id, "may it be driven"), symptom.may_drive
    yield from _of_causes(rules)
    yield from _of_tests(rules)
    yield from _of_operations(rules)
    for cover in rules.covers.values():
        for number, minded in enumerate(cover.putting_back):
            yield ("teardown", cover.id, "putting back", str(number)), minded
    for kind in rules.defects.values():
        yield ("findings", kind.id, "means"), kind.means
        for number, caution in enumerate(kind.cautions):
            yield ("findings", kind.id, "cautions", str(number)), caution
    for situation in rules.situations.values():
        yield ("shared", "situations", situation.id, "question"), situation.question


def _of_causes(rules: Rules) -> Iterator[Said]:
    for cause in rules.causes.values():
        path = ("causes", cause.id)
        yield (*path, "why"), cause.why
        if cause.only_the_repair_tells is not None:
            yield (*path, "only the repair tells"), cause.only_the_repair_tells
        for number, caution in enumerate(cause.cautions):
            yield (*path, "cautions", str(number)), caution


def _of_tests(rules: Rules) -> Iterator[Said]:
    for test in rules.tests.values():
        path = ("tests", test.id)
        yield (*path, "passes when"), test.pass_rule
        yield (*path, "source"), test.pass_source
        for number, caution in enumerate(test.cautions):
            yield (*path, "cautions", str(number)), caution
        for blind in test.blind_when:
            yield (*path, "blind when", blind.situation, blind.cause, "why"), blind.reason
        for cannot in test.cannot_show:
            named = (*path, "cannot show", cannot.cause)
            system = rules.causes[cannot.cause].system
            yield named if named in rules.lines else (*path, "cannot show", system), cannot.reason


def _of_operations(rules: Rules) -> Iterator[Said]:
    for operation in rules.operations.values():
        for number, caution in enumerate(operation.cautions):
            yield ("operations", operation.id, "cautions", str(number)), caution
        for duty in operation.duties:
            path = ("operations", operation.id, "duties", duty.id)
            if duty.consequence:
                yield (*path, "otherwise"), duty.consequence
            if duty.verify_how:
                yield (*path, "verify by"), duty.verify_how


def _names(rules: Rules) -> Iterator[Said]:
    for family in rules.families.values():
        yield ("families", family.id, "name"), family.name
    for symptom in rules.symptoms.values():
        yield ("symptoms", symptom.id, "name"), symptom.name
    for cause in rules.causes.values():
        yield ("causes", cause.id, "name"), cause.name
    for test in rules.tests.values():
        yield ("tests", test.id, "name"), test.name
        yield ("tests", test.id, "outcomes"), test.normal_word
        yield ("tests", test.id, "outcomes"), test.abnormal_word
    for operation in rules.operations.values():
        yield ("operations", operation.id, "name"), operation.name
    for cover in rules.covers.values():
        yield ("teardown", cover.id, "name"), cover.name
    for kind in rules.defects.values():
        yield ("findings", kind.id, "name"), kind.name


def _missing_reasons(rules: Rules) -> Iterator[Problem]:
    for test in rules.tests.values():
        if not test.false_alarm_why:
            yield Problem(
                rules.where("tests", test.id, "false alarm"),
                f"Why “{test.name}” can be abnormal with nothing wrong is not said.",
                "Add “false alarm because: […]”.",
            )

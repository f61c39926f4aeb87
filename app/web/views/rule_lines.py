"""What one rule says, line by line, and where the shop says something else than the supplied rule."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from app.board.words import capital
from app.rules.causes import Cause
from app.rules.library import Rules
from app.rules.look_up import find_rule
from app.rules.operations import Operation
from app.rules.own import is_own
from app.rules.symptoms import Symptom
from app.rules.tests import Test
from app.web.views.said import sentence


@dataclass(frozen=True, slots=True)
class Line:
    """`said`: the strength or reason; `ours`: "" or what the supplied rule says where the shop changed it."""

    words: str
    address: str
    said: str
    ours: str


@dataclass(frozen=True, slots=True)
class Section:
    title: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Lines:
    """Makes the lines of one rule. `path` is where the rule stands: ("tests", "leak-down")."""

    rules: Rules
    supplied: Rules
    path: tuple[str, str]

    def line(self, shelf: str, id: str, said: str, *keys: str, before: str = "") -> Line:
        """A line about another rule; `keys` lead to what is said, `before` is what the supplied rule says there."""
        return Line(self._name(shelf, id), f"/rules/{shelf}/{id}", said, self.ours(keys, before))

    def ours(self, keys: tuple[str, ...], before: str) -> str:
        path = (*self.path, *keys)
        if path not in self.rules.lines or not is_own(self.rules.lines[path]):
            return ""
        return f"Ours; supplied: {before}" if before else "Ours; the supplied rule says nothing here"

    def _name(self, shelf: str, id: str) -> str:
        rule = find_rule(shelf, id, self.rules)
        return capital(rule.name) if rule is not None else id


def cause_sections(cause: Cause, make: Lines) -> Iterator[Section]:
    before = make.supplied.causes.get(cause.id, cause)
    gave = {gives.symptom: gives.how_often.word for gives in before.gives}
    yield Section(
        "Gives",
        tuple(
            make.line(
                "symptoms",
                g.symptom,
                _with(g.how_often.word, g.course.value),
                "gives",
                g.symptom,
                before=gave.get(g.symptom, ""),
            )
            for g in cause.gives
        ),
    )
    yield Section("Raised by earlier work", tuple(_raised(cause, make)))
    yield Section("Shown by", tuple(_tests(cause, make.rules, make)))
    yield Section("Tests that cannot show it", tuple(_blind_tests(cause, make)))
    yield Section(
        "Destroys",
        tuple(make.line("causes", d.victim, d.how.word, "damages", d.victim) for d in cause.damages),
    )
    yield Section(
        "Destroyed by",
        tuple(
            make.line("causes", other.id, d.how.word)
            for other in make.rules.causes.values()
            for d in other.damages
            if d.victim == cause.id
        ),
    )
    yield Section(
        "Fixed by",
        tuple(
            make.line("operations", f.operation, ", ".join(f.parts), "fixed by", f.operation) for f in cause.fixed_by
        ),
    )


def _raised(cause: Cause, make: Lines) -> Iterator[Line]:
    for number, raised in enumerate(cause.raised_by):
        operation = make.rules.operations[raised.operation]
        duty = next(duty for duty in operation.duties if duty.id == raised.duty)
        said = f"{raised.how.word}, when this is left out or done wrong: {duty.text}"
        yield make.line("operations", operation.id, said, "raised by", str(number))


def _tests(cause: Cause, rules: Rules, make: Lines) -> Iterator[Line]:
    for test in rules.tests.values():
        for shows in test.shows:
            if shows.cause == cause.id:
                blind = [rules.situations[b.situation].name for b in test.blind_when if b.cause == cause.id]
                yield make.line("tests", test.id, _with(shows.strength.word, _misses(blind)))


def _misses(situations: Iterable[str]) -> str:
    return "; ".join(f"misses it: {name}" for name in situations)


def _blind_tests(cause: Cause, make: Lines) -> Iterator[Line]:
    for test in make.rules.tests.values():
        for cannot in test.cannot_show:
            if cannot.cause == cause.id:
                yield make.line("tests", test.id, sentence(cannot.reason))


def test_sections(test: Test, make: Lines) -> Iterator[Section]:
    before = make.supplied.tests.get(test.id, test)
    showed = {shows.cause: shows.strength.word for shows in before.shows}
    yield Section(
        "Shows",
        tuple(
            make.line("causes", s.cause, s.strength.word, "shows", s.cause, before=showed.get(s.cause, ""))
            for s in test.shows
        ),
    )
    yield Section(
        "Shows, but misses it in a situation",
        tuple(
            make.line(
                "causes",
                b.cause,
                f"{capital(make.rules.situations[b.situation].name)} ({b.share.word}): {sentence(b.reason)}",
                "blind when",
                b.situation,
                b.cause,
            )
            for b in test.blind_when
        ),
    )
    yield Section(
        "Cannot show",
        tuple(make.line("causes", c.cause, sentence(c.reason), "cannot show", c.cause) for c in test.cannot_show),
    )
    yield Section("Verifies the duties", tuple(_verifies(test, make)))


def _verifies(test: Test, make: Lines) -> Iterator[Line]:
    for operation in make.rules.operations.values():
        for duty in operation.duties:
            if duty.verify_by_test == test.id:
                yield make.line("operations", operation.id, sentence(duty.text))


def operation_sections(operation: Operation, make: Lines) -> Iterator[Section]:
    yield Section(
        "What it does to each cause",
        tuple(
            make.line("causes", cause, effect.value, "touches", cause) for cause, effect in operation.touches.items()
        ),
    )
    yield Section(
        "Duties that go with it",
        tuple(
            make.line("causes", duty.brings, f"left out, it brings this in: {duty.text}", "duties", duty.id)
            for duty in operation.duties
            if duty.brings is not None
        ),
    )
    yield Section(
        "Further duties",
        tuple(
            Line(sentence(duty.text), "", sentence(duty.consequence), make.ours(("duties", duty.id), ""))
            for duty in operation.duties
            if duty.brings is None
        ),
    )


def symptom_sections(symptom: Symptom, make: Lines) -> Iterator[Section]:
    before = make.supplied.symptoms.get(symptom.id, symptom)
    said = ", ".join(f"“{words}”" for words in before.says)
    yield Section(
        "How customers say it",
        tuple(
            Line(f"“{words}”", "", "", make.ours(("says",), said) if words not in before.says else "")
            for words in symptom.says
        ),
    )
    yield Section("Trouble codes that stand for it", tuple(Line(p.code, "", p.place or "", "") for p in symptom.codes))
    yield Section(
        "Kinds of it",
        tuple(make.line("symptoms", s.id, "") for s in make.rules.symptoms.values() if s.kind_of == symptom.id),
    )
    yield Section("Given by", tuple(_givers(symptom, make)))


def _givers(symptom: Symptom, make: Lines) -> Iterator[Line]:
    found = [
        (g.how_often, cause) for cause in make.rules.causes.values() for g in cause.gives if g.symptom == symptom.id
    ]
    for how_often, cause in sorted(found, key=lambda pair: -pair[0].chance):
        yield make.line("causes", cause.id, how_often.word)


def _with(word: str, more: str) -> str:
    return f"{word}, {more}" if more and more != "at once" else word

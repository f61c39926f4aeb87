"""One figure of the shop: what it is, for which operation, test, cover or part, for which vehicles, and how much."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.history.figures import MINUTES, Figure, FigureKind
from app.measurements.numbers import read_number, write_number
from app.problem import Problem
from app.rules.library import Rules
from app.rules.nearest import did_you_mean
from app.web.forms.evidence_fields import one_of
from app.web.forms.fields import NONE, Field, FieldMaker, Problems, Sent, too_long

KINDS = (
    (FigureKind.OPERATION.value, "minutes of an operation at one place"),
    (FigureKind.TEST.value, "minutes of a test at one place, set-up included"),
    (FigureKind.COVER.value, "minutes to take a cover off and put it back"),
    (FigureKind.PART.value, "price of a part"),
    (FigureKind.LABOUR_RATE.value, "labour rate of one hour"),
    (FigureKind.CURRENCY.value, "currency, as it is written"),
    (FigureKind.NONE_OF_THESE.value, "hours that count when nothing listed helps"),
)
MOST: Mapping[FigureKind, float] = {
    FigureKind.LABOUR_RATE: 100_000.0,
    FigureKind.NONE_OF_THESE: 1_000.0,
    FigureKind.OPERATION: 10_000.0,
    FigureKind.TEST: 10_000.0,
    FigureKind.COVER: 10_000.0,
    FigureKind.PART: 10_000_000.0,
}
LONGEST_CURRENCY = 8
LONGEST_FAMILY = 60


class FigureSent(Sent):
    """`seen`: id of the figure it is to stand in place of."""

    kind: str = ""
    about: str = ""
    family: str = ""
    value: str = ""
    seen: str = ""


@dataclass(frozen=True, slots=True)
class FigureFields:
    kind: Field
    about: Field
    family: Field
    value: Field
    seen: str


def figure_fields(sent: FigureSent, families: tuple[str, ...], *, problems: Problems = NONE) -> FigureFields:
    make = FieldMaker("figure", problems)
    known = f" So far: {', '.join(families)}." if families else ""
    return FigureFields(
        kind=make.choice("kind", "What is it?", options=[("", "choose"), *KINDS], chosen=sent.kind),
        about=make.line(
            "about",
            "Of which operation, test, cover or part?",
            value=sent.about,
            hint="Its name as in the rules; empty for the last three.",
        ),
        family=make.line(
            "family",
            "For which vehicles?",
            value=sent.family,
            hint=f"Your word for a vehicle family, as on the vehicle’s page; empty for all.{known}",
        ),
        value=make.line("value", "Figure", value=sent.value),
        seen=sent.seen,
    )


def read_figure(sent: FigureSent, rules: Rules) -> Figure | Problems:
    """The figure, or everything that is wrong."""
    kind = one_of(FigureKind, sent.kind)
    problems = [*too_long("about", sent.about), *too_long("family", sent.family, limit=LONGEST_FAMILY)]
    if kind is None:
        problems.append(Problem("kind", "It is not said what the figure is.", "Choose one of the list."))
        return Problems(problems)
    about = _about(kind, sent.about.strip(), rules, problems)
    family = _family(kind, sent.family.strip(), problems)
    value, words = _value(kind, sent.value, problems)
    return Problems(problems) if problems else Figure(kind, value, words, about, family)


def names(kind: FigureKind, rules: Rules) -> Mapping[str, str]:
    """What figures of this kind can be about: id -> name."""
    match kind:
        case FigureKind.OPERATION:
            return {one.id: one.name for one in rules.operations.values()}
        case FigureKind.TEST:
            return {one.id: one.name for one in rules.tests.values()}
        case FigureKind.COVER:
            return {one.id: one.name for one in rules.covers.values()}
        case FigureKind.PART:
            return {part: part for cause in rules.causes.values() for fix in cause.fixed_by for part in fix.parts}
    return {}


def _about(kind: FigureKind, typed: str, rules: Rules, problems: list[Problem]) -> str:
    known = names(kind, rules)
    if not known:
        if typed:
            problems.append(Problem("about", "This figure is the shop’s own, about nothing else.", "Leave this empty."))
        return ""
    by_name = {name.casefold(): id for id, name in known.items()} | {id.casefold(): id for id in known}
    found = by_name.get(typed.casefold())
    if found is None:
        sentence = f"“{typed[:40]}” is not in the rules." if typed else "It is not said what the figure is about."
        mend = did_you_mean(typed, known.values(), otherwise="Write the name as the rules say it; look under Rules.")
        problems.append(Problem("about", sentence, mend))
        return ""
    return found


def _family(kind: FigureKind, typed: str, problems: list[Problem]) -> str:
    if typed and kind not in MINUTES:
        problems.append(Problem("family", "Only minutes can differ by vehicle family.", "Leave this empty."))
    return typed


def _value(kind: FigureKind, typed: str, problems: list[Problem]) -> tuple[float, str]:
    if kind is FigureKind.CURRENCY:
        return 0.0, _currency(typed.strip(), problems)
    number = read_number(typed, "value")
    if isinstance(number, Problem):
        problems.append(number)
        return 0.0, ""
    if number < 0.0 or (number == 0.0 and kind is FigureKind.LABOUR_RATE):
        problems.append(Problem("value", f"{write_number(number)} cannot be.", "Give more than nothing."))
    elif number > MOST[kind]:
        problems.append(Problem("value", f"{write_number(number)} is too much to be right.", "Check the figure."))
    return number, write_number(number)


def _currency(typed: str, problems: list[Problem]) -> str:
    if not typed or len(typed) > LONGEST_CURRENCY or any(one.isdigit() or one.isspace() for one in typed):
        problems.append(Problem("value", "This is no currency.", "Write its sign or its letters, such as EUR."))
    return typed

"""The settings of the shop: what it says of its own costs, and what the rules say where it is silent."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.advice.prices import supplied_prices
from app.board.words import capital
from app.history.figures import MINUTES, FigureKind, FigureOnFile
from app.measurements.numbers import write_number
from app.rules.library import Rules
from app.web.forms.figure_form import FigureFields, names
from app.web.showing import Frame
from app.web.views.entries import moment


@dataclass(frozen=True, slots=True)
class FigureView:
    """One figure that stands. `change`: the address of the form with it filled in; `version` is for taking it back."""

    id: str
    what: str
    figure: str
    by: str
    change: str
    take_back: str
    version: str


@dataclass(frozen=True, slots=True)
class SettingsPage:
    """`theirs`: what somebody else set in the meantime ("" when nothing). `supplied`: what holds without any figure."""

    frame: Frame
    saved: str
    problems: tuple[str, ...]
    theirs: str
    yours: str
    fields: FigureFields
    entry_id: str
    figures: tuple[FigureView, ...]
    supplied: tuple[str, ...]


def settings_page(
    frame: Frame,
    figures: Sequence[FigureOnFile],
    rules: Rules,
    *,
    fields: FigureFields,
    entry_id: str,
    saved: str = "",
    problems: tuple[str, ...] = (),
    theirs: str = "",
    yours: str = "",
) -> SettingsPage:
    return SettingsPage(
        frame=frame,
        saved=saved,
        problems=problems,
        theirs=theirs,
        yours=yours,
        fields=fields,
        entry_id=entry_id,
        figures=tuple(_figure(one, rules) for one in figures),
        supplied=tuple(_supplied(rules)),
    )


def _figure(one: FigureOnFile, rules: Rules) -> FigureView:
    return FigureView(
        id=f"figure-{one.id}",
        what=what_it_is(one, rules),
        figure=amount(one),
        by=f"{one.by}, {moment(one.at)}",
        change=f"/settings?figure={one.id}",
        take_back=f"/settings/{one.id}/take-back",
        version=str(one.version),
    )


def what_it_is(one: FigureOnFile, rules: Rules) -> str:
    """ "Operation minutes: set valve lash, for big estate"."""
    figure = one.figure
    name = names(figure.kind, rules).get(figure.about, figure.about)
    about = f": {name}" if name else ""
    family = f", for {figure.family}" if figure.family else ""
    return f"{capital(figure.kind.value)}{about}{family}"


def amount(one: FigureOnFile) -> str:
    figure = one.figure
    if figure.kind in MINUTES:
        return f"{figure.words} min"
    return f"{figure.words} h" if figure.kind is FigureKind.NONE_OF_THESE else figure.words


def _supplied(rules: Rules) -> Iterator[str]:
    prices = supplied_prices(rules)
    yield f"Labour rate: {write_number(prices.labour_rate)} {prices.currency} an hour, a round figure to start from."
    yield f"Hours that count when nothing listed helps: {write_number(prices.none_of_these_hours)}."
    yield "Minutes: as the rules say, the same for all vehicles of one build."
    yield "Parts: no price is supplied; without one a part is left out of the sums, and that is said."

"""The shop's figures as the prices that advice works with: its own where it has said, else what the rules say."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from app.advice.prices import Prices, supplied_prices
from app.history.figures import Figure, FigureKind, FigureOnFile
from app.rules.library import Rules
from app.rules.words import CoverId, OperationId, TestId


def prices_for(figures: Iterable[FigureOnFile], rules: Rules, family: str) -> Prices:
    """For vehicles of this family; what is said for all holds where nothing is said for the family."""
    holding = [one.figure for one in figures if one.figure.family in ("", family)]
    by_kind = {kind: _of(kind, holding) for kind in FigureKind}
    supplied = supplied_prices(rules)
    currency = by_kind[FigureKind.CURRENCY].get("")
    return replace(
        supplied,
        labour_rate=_shops(by_kind[FigureKind.LABOUR_RATE], supplied.labour_rate),
        currency=currency.words if currency else supplied.currency,
        none_of_these_hours=_shops(by_kind[FigureKind.NONE_OF_THESE], supplied.none_of_these_hours),
        operations={OperationId(id): one.value for id, one in by_kind[FigureKind.OPERATION].items()},
        tests={TestId(id): one.value for id, one in by_kind[FigureKind.TEST].items()},
        covers={CoverId(id): one.value for id, one in by_kind[FigureKind.COVER].items()},
        parts={name: one.value for name, one in by_kind[FigureKind.PART].items()},
    )


def _of(kind: FigureKind, holding: Iterable[Figure]) -> dict[str, Figure]:
    """What is said for the family comes last and wins."""
    ordered = sorted((one for one in holding if one.kind is kind), key=lambda one: one.family)
    return {one.about: one for one in ordered}


def _shops(said: dict[str, Figure], supplied: float) -> float:
    return said[""].value if "" in said else supplied

"""`proofbay simulate --cost`: what the advice saves against replacing the most probable part first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

import numpy as np
import typer

from app.advice.prices import Prices, supplied_prices
from app.commands.refusing import the_rules
from app.rules.library import Rules
from app.rules.words import FamilyId
from app.simulation.cost import Spent, spent
from app.simulation.draw import dice_of, draw_case
from app.simulation.saved import Saved, saved

GOAL = 0.30
PART_PRICE = 100.0
"""What each part is taken to cost, as no price is supplied (judgement: about an hour's work)."""


@lru_cache(maxsize=1)
def _rules() -> Rules:
    """Read once in each process."""
    return the_rules()


def cost_of(wanted: tuple[FamilyId, int]) -> tuple[FamilyId, Spent | None]:
    """One drawn case worked both ways; the same seed gives the same."""
    family, seed = wanted
    dice = dice_of(family, seed)
    rules = _rules()
    drawn = draw_case(rules.families[family], rules, dice)
    return family, None if drawn is None else spent(drawn, rules, prices_of_all_parts(rules), dice)


def prices_of_all_parts(rules: Rules) -> Prices:
    parts = {part for cause in rules.causes.values() for fix in cause.fixed_by for part in fix.parts}
    return replace(supplied_prices(rules), parts=dict.fromkeys(parts, PART_PRICE))


def tell_costs(worked: Iterable[tuple[FamilyId, Spent | None]], rules: Rules, *, seed: int) -> None:
    """All families together, then each."""
    by_family: dict[FamilyId, list[Spent]] = {}
    for family, one in worked:
        if one is not None:
            by_family.setdefault(family, []).append(one)
    prices = supplied_prices(rules)
    typer.echo(
        f"Labour {prices.labour_rate:g} {prices.currency} an hour, each part {PART_PRICE:g} {prices.currency}, "
        f"{prices.none_of_these_hours:g} hours where nothing listed helps."
    )
    everything = [one for some in by_family.values() for one in some]
    if not everything:
        typer.echo("No case could be drawn.")
        return
    typer.echo(_line("All families", saved(everything, np.random.default_rng(seed))) + f" Goal: {GOAL:.0%} less.")
    for family, some in by_family.items():
        typer.echo("  " + _line(rules.families[family].name, saved(some, np.random.default_rng(seed))))


def _line(name: str, one: Saved) -> str:
    return (
        f"{name}: {one.cases} cases, advice {one.advised:.0f}, part by part {one.part_by_part:.0f} on average; "
        f"{one.share:.0%} less ({one.low:.0%} to {one.high:.0%}, 95 % interval); "
        f"{one.tests:.1f} tests and {one.repairs:.1f} repairs a case. Known from the start: {one.known:.0f}, "
        f"{one.possible:.0%} less."
    )

"""Vehicles to draw cases on: four builds, each with traits drawn from what the rules know."""

from __future__ import annotations

from numpy.random import Generator

from app.rules.library import Rules
from app.vehicle.layout import AXLES, Banks, Layout

Build = tuple[Banks, tuple[int, ...]]
"""Banks and firing order."""
BUILDS: tuple[Build, ...] = (
    (((1, 2, 3, 4),), (1, 3, 4, 2)),
    (((1, 2, 3, 4),), (1, 3, 4, 2)),
    (((1, 3, 5), (2, 4, 6)), (1, 2, 3, 4, 5, 6)),
    (((1, 3, 5, 7), (2, 4, 6, 8)), (1, 8, 4, 3, 6, 5, 7, 2)),
)


def draw_layout(rules: Rules, dice: Generator, build: Build | None = None) -> Layout:
    """A build, this one or any, with every trait known, each value as likely as the next."""
    banks, order = build or BUILDS[dice.integers(len(BUILDS))]
    traits: dict[str, str] = {}
    for trait in rules.traits.values():
        if trait.computed:
            continue
        names = [f"{axle} {trait.name}" for axle in AXLES] if trait.per_axle else [trait.name]
        for name in names:
            traits[name] = trait.values[dice.integers(len(trait.values))]
    return Layout(banks, order, traits)

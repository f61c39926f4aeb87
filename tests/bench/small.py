"""Sizes at which every bench is done in a moment."""

from __future__ import annotations

from app.bench.sizes import Sizes

SMALL = Sizes(
    seed=3, networks=6, full=1, rare=1, runs=1, drawn=1, steps=1, cases=1, problems=3, faults=3, tests=2, processes=1
)

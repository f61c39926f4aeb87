"""How much each bench does. The same sizes and seed give the same tables, times aside."""

from __future__ import annotations

import os
from dataclasses import dataclass

from app.settings import PROJECT


@dataclass(frozen=True, slots=True)
class Sizes:
    """`networks` are visited whole, `full` and `rare` summed with many digits; `oracle`: folder of the exact answers.

    `runs`: of which the median is taken; `drawn`: networks of each size that is timed; `steps`: how many of the
    growth's sizes, the smallest first. `cases`: of each layout and number of visits. `problems`, `faults`,
    `tests`: of the advice. `processes`: how many problems are worked at once (nothing that is timed).
    """

    seed: int = 0
    networks: int = 200
    full: int = 50
    rare: int = 20
    oracle: str = str(PROJECT / "tests" / "oracle")
    runs: int = 5
    drawn: int = 5
    steps: int = 5
    cases: int = 200
    problems: int = 100
    faults: int = 6
    tests: int = 6
    processes: int = os.cpu_count() or 1
    out: str = str(PROJECT / "bench-out")

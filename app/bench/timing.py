"""How long something takes: the median of several runs, the first of them not counted.

Processor time of the process: with one thread on an idle machine that is the time by the clock, and other work on the
machine does not lengthen it by waiting.
"""

from __future__ import annotations

import gc
from collections.abc import Callable
from statistics import median
from time import process_time
from tracemalloc import get_traced_memory, start, stop

LEAST_RUNS = 5


def milliseconds(run: Callable[[], object], runs: int = LEAST_RUNS) -> float:
    """Median; the run before them only fills what is kept."""
    run()
    return median(once(run) for _ in range(runs))


def once(run: Callable[[], object]) -> float:
    """One run, in milliseconds, started on a clean heap."""
    gc.collect()
    begun = process_time()
    run()
    return (process_time() - begun) * 1000.0


def most_megabytes(run: Callable[[], object]) -> float:
    """The most that one run holds at a time, NumPy's arrays included."""
    gc.collect()
    start()
    try:
        run()
        return get_traced_memory()[1] / 1e6
    finally:
        stop()

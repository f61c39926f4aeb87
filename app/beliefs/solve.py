"""A whole plan worked out: what stays quiet by one batch of passes, what fires by difference where that keeps digits.

Where it does not (what fires is a small part of all) the firing is followed as well, and summed directly.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Numbers
from app.beliefs.contexts import Paper
from app.beliefs.followed import Chosen, branched, follow
from app.beliefs.masses import KEEPS_DIGITS
from app.beliefs.plan import NO_TEST, Plan
from app.beliefs.quiet import Quiet, solve_quiet
from app.beliefs.sheet import Sheet, spread_out
from app.beliefs.tree import Tree
from app.network.noisy_or import NoisyOr


@dataclass(frozen=True, slots=True)
class Solved:
    """`columns` (columns, quiet/fired) and `masses` (pairs, off/on, quiet/fired): chances given the context's reports.

    `tables[column]` (configurations of the test's parents, quiet/fired). `log_evidence` (contexts,) and `papers`
    (contexts, ways): how likely the reports are, and each way the papers can be.
    """

    columns: Numbers
    masses: Numbers
    tables: dict[int, Numbers]
    log_evidence: Numbers
    papers: Numbers
    ways: tuple[Paper, ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """A plan with the tree of each part, ready to be worked out."""

    plan: Plan
    network: NoisyOr
    absorbed: Absorbed
    parts: list[Tree]


def solve(layout: Layout, complaint: frozenset[int]) -> Solved:
    """Work out everything in the plan."""
    plan, absorbed, parts = layout.plan, layout.absorbed, layout.parts
    sheet = spread_out(plan, layout.network)
    quiet = solve_quiet(plan, sheet, parts, layout.network, absorbed, complaint)
    columns, masses = _by_difference(plan, sheet, quiet)
    chosen = _too_small(plan, sheet, columns, masses)
    if chosen.columns.size:
        followed = follow(chosen, sheet, parts, absorbed, complaint, quiet.papers)
        columns[chosen.columns] = followed.columns
        masses[chosen.pairs] = followed.masses
    tables = branched(plan.branched, sheet, parts, absorbed, quiet.papers)
    return Solved(columns, masses, tables, quiet.log_evidence, quiet.papers, sheet.ways)


def _by_difference(plan: Plan, sheet: Sheet, quiet: Quiet) -> tuple[Numbers, Numbers]:
    """Fired = all - quiet, for columns and pairs; without a test all is quiet."""
    columns = np.stack([quiet.columns, np.maximum(1.0 - quiet.columns, 0.0)], axis=-1)
    calm_column = {context: at for at, (context, test) in enumerate(plan.columns) if test == NO_TEST}
    place = {pair: at for at, pair in enumerate(plan.pairs)}
    calm = np.array(
        [place[trigger, calm_column[plan.columns[column][0]]] for trigger, column in plan.pairs], dtype=np.int64
    )
    fired = np.maximum(quiet.masses[calm] - quiet.masses, 0.0) if calm.size else quiet.masses
    columns[sheet.column_test == NO_TEST] = (1.0, 0.0)
    return columns, np.stack([quiet.masses, fired], axis=-1)


def _too_small(plan: Plan, sheet: Sheet, columns: Numbers, masses: Numbers) -> Chosen:
    """Where a difference is so small against what it was taken from that digits were lost: follow the firing there."""
    tested = sheet.column_test != NO_TEST
    small_column = tested & (columns[:, 1] < KEEPS_DIGITS)
    all_of = masses.sum(axis=2)
    small = ((masses[:, :, 1] < KEEPS_DIGITS * all_of) & (all_of > 0.0)).any(axis=1)
    sharp = np.zeros(len(plan.pairs), dtype=np.bool_)
    sharp[sorted(plan.sharp)] = True
    pairs = np.flatnonzero(small & sharp & tested[sheet.pair_column])
    chosen = np.union1d(np.flatnonzero(small_column), sheet.pair_column[pairs])
    return Chosen(chosen, pairs, np.searchsorted(chosen, sheet.pair_column[pairs]))

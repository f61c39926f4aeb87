"""The whole plan with tests as assumed readings: how likely each stays absent, with each trigger on and off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Indices, Numbers
from app.beliefs.contexts import Context, log_constant
from app.beliefs.join import as_masses, join_columns, join_masses, leak_columns
from app.beliefs.plan import Plan
from app.beliefs.run_part import PartAnswer, PartQuestion, run_part
from app.beliefs.sheet import PartView, Sheet
from app.beliefs.tree import Tree
from app.network.noisy_or import NoisyOr


@dataclass(frozen=True, slots=True)
class Quiet:
    """Given the reports of each column's context: `columns` (columns,) P(test absent), `masses` (pairs, off/on).

    `log_evidence` (contexts,) and `papers` (contexts, ways): how likely the reports are, and each way of the papers.
    """

    columns: Numbers
    masses: Numbers
    log_evidence: Numbers
    papers: Numbers


def solve_quiet(
    plan: Plan,
    sheet: Sheet,
    parts: Sequence[Tree],
    network: NoisyOr,
    absorbed: Absorbed,
    complaint: frozenset[int],
) -> Quiet:
    """Every part once, for every context and every context with a test assumed absent."""
    ways = len(sheet.ways)
    rows = [[log_constant(context, way, network, absorbed) for way in sheet.ways] for context in plan.contexts]
    logs = np.array(rows)
    columns = leak_columns(np.append(np.array(absorbed.leaks), 0.0)[sheet.column_test], ways, 1)
    masses = as_masses(columns[sheet.pair_column])
    for tree in parts:
        view = PartView(sheet, tree, absorbed, complaint)
        part_logs, part_columns, part_masses = _part(view)
        logs += part_logs
        columns = join_columns(columns, part_columns)
        masses = join_masses(masses, part_masses)
    papers, log_evidence = weigh_papers(logs)
    weight = papers[sheet.column_context]
    return Quiet(
        np.einsum("cw,cw->c", weight, columns[..., 0]),
        np.einsum("pw,pwe->pe", weight[sheet.pair_column], masses[..., 0]),
        log_evidence,
        papers,
    )


def weigh_papers(logs: Numbers) -> tuple[Numbers, Numbers]:
    """Papers weigh by prior times what the evidence says, never by prior alone."""
    highest = logs.max(axis=1, keepdims=True)
    possible = np.isfinite(highest)
    peak = np.where(possible, highest, 0.0)
    shares = np.exp(logs - peak) * possible
    total = shares.sum(axis=1, keepdims=True)
    log_total = np.log(total, out=np.full(total.shape, -np.inf), where=total > 0.0)
    return shares / np.where(total > 0.0, total, 1.0), (log_total + peak)[:, 0]


def _part(view: PartView) -> tuple[Numbers, Numbers, Numbers]:
    """Logs (contexts, ways), columns (columns, ways, 1) and masses (pairs, ways, off/on, 1) of one part."""
    sheet = view.sheet
    calm = view.context_of[sheet.column_context]
    assumed = _assumed(view)
    contexts = view.contexts
    pairs = np.flatnonzero(view.trigger_of[sheet.pair_trigger] >= 0)
    key = view.trigger_of[sheet.pair_trigger[pairs], None] * len(contexts) + assumed[sheet.pair_column[pairs]]
    wanted, place = np.unique(key, return_inverse=True)
    trigger, column = np.divmod(wanted, len(contexts))
    question = PartQuestion(contexts, view.triggers, trigger, column, view.complaint)
    answer = run_part(view.tree, question, view.absorbed)
    quiet = _ratio(answer, assumed, calm)
    masses = as_masses(quiet[sheet.pair_column])
    masses[pairs] = answer.masses[place.reshape(key.shape)][..., None] * masses[pairs][..., :1, :]
    return answer.log_total()[view.context_of], quiet, masses


def _assumed(view: PartView) -> Indices:
    """(columns, ways): the part's context with the column's test assumed absent."""
    sheet = view.sheet
    rows = []
    for k, test in zip(sheet.column_context.tolist(), sheet.column_test.tolist(), strict=True):
        if view.sees(test):
            supposed = [Context(c.removed, c.quiet | {test}) for c in sheet.contexts[k]]
            rows.append([view.context(context) for context in supposed])
        else:
            rows.append(view.context_of[k].tolist())
    return np.array(rows, dtype=np.int64)


def _ratio(answer: PartAnswer, assumed: Indices, calm: Indices) -> Numbers:
    """P(reports and test absent) / P(reports), per column and way; 0 where the reports are impossible."""
    below = answer.total[calm]
    mantissa = np.divide(answer.total[assumed], below, out=np.zeros_like(below), where=below > 0.0)
    ratio: Numbers = np.ldexp(mantissa, answer.power[assumed] - answer.power[calm])
    return ratio[..., None]

"""The same for a few columns with the test's firing followed as well: all four masses summed directly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Flags, Indices
from app.beliefs.join import as_masses, join_columns, join_masses, leak_columns
from app.beliefs.order import Step
from app.beliefs.run_part import PartAnswer, PartQuestion, run_branches, run_part
from app.beliefs.sheet import PartView, Sheet


@dataclass(frozen=True, slots=True)
class Followed:
    """Of the chosen columns and pairs: `columns` (chosen, quiet/fired), `masses` (chosen, off/on, quiet/fired)."""

    columns: Numbers
    masses: Numbers


@dataclass(frozen=True, slots=True)
class Chosen:
    """Some columns and pairs of a sheet; `column_of` (pairs,) counts within the chosen columns."""

    columns: Indices
    pairs: Indices
    column_of: Indices


def follow(
    chosen: Chosen,
    sheet: Sheet,
    parts: Sequence[Sequence[Step]],
    absorbed: Absorbed,
    complaint: frozenset[int],
    papers: Numbers,
) -> Followed:
    """Every part for the chosen columns, mixed over papers."""
    leaks = np.append(np.array(absorbed.leaks), 0.0)[sheet.column_test[chosen.columns]]
    columns = leak_columns(leaks, len(sheet.ways), 2)
    masses = as_masses(columns[chosen.column_of])
    for steps in parts:
        part_columns, part_masses = _part(PartView(sheet, steps, absorbed, complaint), chosen)
        columns = join_columns(columns, part_columns)
        masses = join_masses(masses, part_masses)
    weight = papers[sheet.column_context[chosen.columns]]
    return Followed(
        np.einsum("cw,cwt->ct", weight, columns), np.einsum("pw,pwet->pet", weight[chosen.column_of], masses)
    )


def _part(view: PartView, chosen: Chosen) -> tuple[Numbers, Numbers]:
    sheet = view.sheet
    context = view.context_of[sheet.column_context[chosen.columns]]
    test = sheet.column_test[chosen.columns]
    seen = np.array([view.sees(int(one)) for one in test], dtype=np.bool_)
    columns = np.zeros((*context.shape, 2))
    columns[..., 0] = 1.0
    keys = context * len(view.absorbed.leaks) + test[:, None]
    wanted, place = np.unique(keys[seen], return_inverse=True)
    of_column = np.zeros(context.shape, dtype=np.int64)
    of_column[seen] = place.reshape(-1, context.shape[1])
    local = [(int(key) // len(view.absorbed.leaks), int(key) % len(view.absorbed.leaks)) for key in wanted]
    masses = np.zeros((chosen.pairs.size, context.shape[1], 2, 2))
    if local:
        columns[seen] = _run(view, chosen, (local, of_column, seen), masses).whole[of_column[seen]]
    if not seen[chosen.column_of].all():
        calm = [(at, -1) for at in range(len(view.contexts))]
        _run(view, chosen, (calm, context, ~seen), masses)
    untouched = view.trigger_of[sheet.pair_trigger[chosen.pairs]] < 0
    masses[untouched] = as_masses(columns[chosen.column_of[untouched]])
    return columns, masses


def _run(
    view: PartView, chosen: Chosen, on: tuple[list[tuple[int, int]], Indices, Flags], masses: Numbers
) -> PartAnswer:
    """Run these local columns and fill in the masses of the pairs that sit on them."""
    local, of_column, mine = on
    trigger = view.trigger_of[view.sheet.pair_trigger[chosen.pairs]]
    pairs = np.flatnonzero((trigger >= 0) & mine[chosen.column_of])
    key = trigger[pairs, None] * len(local) + of_column[chosen.column_of[pairs]]
    wanted, place = np.unique(key, return_inverse=True)
    owner, column = np.divmod(wanted, len(local))
    used, owner = np.unique(owner, return_inverse=True)
    triggers = [view.triggers[number] for number in used.tolist()]
    question = PartQuestion(view.contexts, local, triggers, owner, column, view.complaint)
    answer = run_part(view.steps, question, view.absorbed)
    masses[pairs, :, :, : answer.masses.shape[2]] = answer.masses[place.reshape(key.shape)]
    return answer


def branched(
    columns: Sequence[int], sheet: Sheet, parts: Sequence[Sequence[Step]], absorbed: Absorbed, papers: Numbers
) -> dict[int, Numbers]:
    """Per column (configurations of the test's parents, quiet/fired), joint chances mixed over papers."""
    leaks = np.array(absorbed.leaks)
    tables = {c: [leak_columns(leaks[sheet.column_test[[c]]], 1, 2)[0]] * len(sheet.ways) for c in columns}
    for steps in parts:
        _branch_part(PartView(sheet, steps, absorbed, frozenset()), tables)
    weights = {column: papers[sheet.column_context[column]] for column in columns}
    return {
        column: np.add.reduce([share * table for share, table in zip(weights[column], by_way, strict=True)])
        for column, by_way in tables.items()
    }


def _branch_part(view: PartView, tables: dict[int, list[Numbers]]) -> None:
    """Join this part's configurations to those of the parts before, for each column and way of the papers."""
    test_of = {column: int(view.sheet.column_test[column]) for column in tables}
    mine = [column for column in tables if view.sees(test_of[column])]
    contexts = {column: view.context_of[view.sheet.column_context[column]].tolist() for column in mine}
    wanted = list(dict.fromkeys((context, test_of[column]) for column in mine for context in contexts[column]))
    if not wanted:
        return
    found = dict(zip(wanted, run_branches(view.steps, view.contexts, wanted, view.absorbed), strict=True))
    for column in mine:
        tables[column] = [
            join_columns(before[:, None, :], found[context, test_of[column]][None, :, :]).reshape(-1, 2)
            for before, context in zip(tables[column], contexts[column], strict=True)
        ]

"""The same for a few columns with the test assumed present as well: all four masses summed directly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Indices, Numbers
from app.beliefs.branch import branch
from app.beliefs.contexts import Context
from app.beliefs.join import as_masses, join_columns, join_masses, leak_columns
from app.beliefs.run_part import PartQuestion, run_part
from app.beliefs.sheet import PartView, Sheet
from app.beliefs.tree import Tree


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
    parts: Sequence[Tree],
    absorbed: Absorbed,
    complaint: frozenset[int],
    papers: Numbers,
) -> Followed:
    """Every part for the chosen columns, mixed over papers."""
    leaks = np.append(np.array(absorbed.leaks), 0.0)[sheet.column_test[chosen.columns]]
    columns = leak_columns(leaks, len(sheet.ways), 2)
    masses = as_masses(columns[chosen.column_of])
    for tree in parts:
        part_columns, part_masses = _part(PartView(sheet, tree, absorbed, complaint), chosen)
        columns = join_columns(columns, part_columns)
        masses = join_masses(masses, part_masses)
    weight = papers[sheet.column_context[chosen.columns]]
    return Followed(
        np.einsum("cw,cwt->ct", weight, columns), np.einsum("pw,pwet->pet", weight[chosen.column_of], masses)
    )


def _part(view: PartView, chosen: Chosen) -> tuple[Numbers, Numbers]:
    """Columns (chosen, ways, quiet/fired) and masses (pairs, ways, off/on, quiet/fired) of one part."""
    sheet = view.sheet
    test = sheet.column_test[chosen.columns].tolist()
    seen = [sheet.contexts[context] for context in sheet.column_context[chosen.columns].tolist()]
    local = _Contexts(view)
    place = np.array([[local.both(c, t) for c in row] for row, t in zip(seen, test, strict=True)])
    pairs = np.flatnonzero(view.trigger_of[sheet.pair_trigger[chosen.pairs]] >= 0)
    trigger = view.trigger_of[sheet.pair_trigger[chosen.pairs[pairs]]]
    key = trigger[:, None, None] * len(local.found) + place[chosen.column_of[pairs]]
    wanted, back = np.unique(key, return_inverse=True)
    question = PartQuestion(
        list(local.found), view.triggers, *np.divmod(wanted, len(local.found)), complaint=view.complaint
    )
    answer = run_part(view.tree, question, view.absorbed)
    columns = _shares(answer.total[place], answer.power[place])
    columns[[not view.sees(t) for t in test]] = (1.0, 0.0)
    masses = as_masses(columns[chosen.column_of])
    met = np.swapaxes(answer.masses[back.reshape(key.shape)], 2, 3)
    masses[pairs] = met * columns[chosen.column_of[pairs]][:, :, None, :]
    return columns, masses


class _Contexts:
    """The contexts of a part with a test assumed absent, and present; as they stand if the part does not see it."""

    def __init__(self, view: PartView) -> None:
        self.view = view
        self.found: dict[Context, int] = {}

    def both(self, context: Context, test: int) -> tuple[int, int]:
        if not self.view.sees(test):
            calm = self._number(context)
            return calm, calm
        absent = Context(context.removed, context.quiet | {test})
        return self._number(absent), self._number(Context(context.removed, context.quiet, test))

    def _number(self, context: Context) -> int:
        return self.found.setdefault(self.view.seen(context), len(self.found))


def _shares(total: Numbers, power: Indices) -> Numbers:
    """Mantissas and powers of two (…, quiet/fired) as shares of 1; 0 where both are 0."""
    highest = np.where(total > 0.0, power, np.iinfo(np.int32).min).max(axis=-1, keepdims=True)
    both = np.ldexp(total, np.where(total > 0.0, power - highest, 0))
    whole = both.sum(axis=-1, keepdims=True)
    return both / np.where(whole > 0.0, whole, 1.0)


def branched(
    columns: Sequence[int], sheet: Sheet, parts: Sequence[Tree], absorbed: Absorbed, papers: Numbers
) -> dict[int, Numbers]:
    """Per column (configurations of the test's parents, quiet/fired), joint chances mixed over papers."""
    leaks = np.array(absorbed.leaks)
    tables = {c: [leak_columns(leaks[sheet.column_test[[c]]], 1, 2)[0]] * len(sheet.ways) for c in columns}
    for tree in parts:
        _branch_part(PartView(sheet, tree, absorbed, frozenset()), tables)
    weights = {column: papers[sheet.column_context[column]] for column in columns}
    return {
        column: np.add.reduce([share * table for share, table in zip(weights[column], by_way, strict=True)])
        for column, by_way in tables.items()
    }


def _branch_part(view: PartView, tables: dict[int, list[Numbers]]) -> None:
    """Join this part's configurations to those of the parts before, for each column and way of the papers."""
    test_of = {column: int(view.sheet.column_test[column]) for column in tables}
    mine = [column for column in tables if view.sees(test_of[column])]
    contexts = {c: [view.seen(way) for way in view.sheet.contexts[view.sheet.column_context[c]]] for c in mine}
    wanted = list(dict.fromkeys((context, test_of[column]) for column in mine for context in contexts[column]))
    if not wanted:
        return
    quiet = [(Context(context.removed, context.quiet | {test}), test) for context, test in wanted]
    fired = [(Context(context.removed, context.quiet, test), test) for context, test in wanted]
    branches = branch(view.tree, quiet + fired, view.absorbed)
    found = {
        key: _table(absent, present)
        for key, absent, present in zip(wanted, branches[: len(wanted)], branches[len(wanted) :], strict=True)
    }
    for column in mine:
        tables[column] = [
            join_columns(before[:, None, :], found[context, test_of[column]][None, :, :]).reshape(-1, 2)
            for before, context in zip(tables[column], contexts[column], strict=True)
        ]


def _table(quiet: tuple[Numbers, int], fired: tuple[Numbers, int]) -> Numbers:
    """(configurations, quiet/fired), in all 1."""
    power = max(quiet[1], fired[1])
    table = np.stack([np.ldexp(chances, lift - power) for chances, lift in (quiet, fired)], axis=-1)
    total = table.sum()
    return table / (total if total > 0.0 else 1.0)

"""One part of the network, run for its columns in chunks that stay in the cache."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import log, prod

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.backward import backward
from app.beliefs.beliefs import Numbers
from app.beliefs.branch import branch
from app.beliefs.columns import Indices, columns_for
from app.beliefs.contexts import Context
from app.beliefs.forward import Riders, forward
from app.beliefs.kernel import Kernels
from app.beliefs.members import Memberships, memberships, rows_by_step
from app.beliefs.order import Step
from app.beliefs.part import Part, ready
from app.beliefs.triggers import Trigger

CHUNK_ENTRIES = 1 << 16


@dataclass(frozen=True, slots=True)
class PartAnswer:
    """`total` · 2^`power` (columns,): P(reports of the part). `whole` (columns, halves) and `masses` (pairs, off/on,
    halves) are chances given those reports."""

    total: Numbers
    power: Indices
    whole: Numbers
    masses: Numbers

    def log_total(self) -> Numbers:
        """Natural log of P(reports of the part), per column."""
        logs = np.log(self.total, out=np.full(self.total.shape, -np.inf), where=self.total > 0.0)
        found: Numbers = logs + self.power * log(2.0)
        return found


@dataclass(frozen=True, slots=True)
class PartQuestion:
    """Columns as (context, test or -1); pairs as (trigger, column); all triggers touch the part."""

    contexts: Sequence[Context]
    columns: Sequence[tuple[int, int]]
    triggers: Sequence[Trigger]
    pair_trigger: Indices
    pair_column: Indices
    complaint: frozenset[int]


def run_part(steps: Sequence[Step], question: PartQuestion, absorbed: Absorbed) -> PartAnswer:
    """Backward for the wholes, forward for the pairs."""
    part = ready(steps, columns_for(question.contexts, question.columns), absorbed)
    count, halves = part.columns.count, part.columns.halves
    masses = np.zeros((question.pair_trigger.size, 2, halves))
    answer = PartAnswer(part.norm.copy(), part.norm_power.copy(), np.zeros((count, halves)), masses)
    table = memberships(part, question.triggers)
    kernels = Kernels(part)
    for columns, pairs in _chunks(part, question):
        _run_chunk(kernels, question, table, (columns, pairs), answer)
    return answer


def _run_chunk(
    kernels: Kernels, question: PartQuestion, table: Memberships, chunk: tuple[Indices, Indices], answer: PartAnswer
) -> None:
    part = kernels.part
    columns, pairs = chunk
    messages = backward(kernels, columns)
    total = messages.whole.sum(axis=0)
    alive = total > 0.0
    answer.total[columns] *= total
    answer.power[columns] += messages.whole_power
    answer.whole[columns] = (messages.whole / np.where(alive, total, 1.0)).T
    if not pairs.size:
        return
    trigger = question.pair_trigger[pairs]
    riders = Riders(
        np.searchsorted(columns, question.pair_column[pairs]),
        np.array([question.triggers[t].event for t in trigger], dtype=np.int64),
        np.array([question.triggers[t].blames for t in trigger], dtype=np.float64),
        table.last[trigger],
        question.complaint,
    )
    rows = list(rows_by_step(table, trigger, len(part.steps)))
    answer.masses[pairs] = forward(kernels, messages, columns, riders, rows)


def _chunks(part: Part, question: PartQuestion) -> Iterator[tuple[Indices, Indices]]:
    """Columns in runs, each with the pairs on them."""
    widest = max(ready_step.step.width for ready_step in part.steps)
    room = max(1, (CHUNK_ENTRIES >> widest) // part.columns.halves)
    order = np.argsort(question.pair_column, kind="stable")
    sorted_column = question.pair_column[order]
    for start in range(0, part.columns.count, room):
        stop = min(start + room, part.columns.count)
        low, high = np.searchsorted(sorted_column, (start, stop))
        yield np.arange(start, stop), order[low:high]


def run_branches(
    steps: Sequence[Step], contexts: Sequence[Context], columns: Sequence[tuple[int, int]], absorbed: Absorbed
) -> list[Numbers]:
    """Per column the joint chances of its test with the states of the test's parents in this part."""
    part = ready(steps, columns_for(contexts, columns), absorbed)
    here = {step.hypothesis for step in steps}
    parents = [frozenset(absorbed.parents[test]) & here for _, test in columns]
    kernels = Kernels(part)
    tables: list[Numbers] = []
    for chunk in _branch_chunks(part, parents, absorbed):
        tables += branch(kernels, backward(kernels, chunk), chunk, [parents[column] for column in chunk])
    return tables


def _branch_chunks(part: Part, parents: Sequence[frozenset[int]], absorbed: Absorbed) -> Iterator[Indices]:
    """Columns in runs whose configurations together fill the cache a few times at most."""
    widest = max(ready_step.step.width for ready_step in part.steps)
    start, entries = 0, 0
    for column, mine in enumerate(parents):
        size = configurations(mine, absorbed) << widest
        if column > start and entries + size > CHUNK_ENTRIES:
            yield np.arange(start, column)
            start, entries = column, 0
        entries += size
    yield np.arange(start, len(parents))


def configurations(parents: Iterable[int], absorbed: Absorbed) -> int:
    """How many ways the states of these hypotheses can be."""
    return prod(len(absorbed.hypotheses[h].states) for h in parents)

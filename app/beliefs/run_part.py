"""One part of the network, run for its columns in chunks that stay small."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import log

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Indices, Numbers
from app.beliefs.components import bits_of
from app.beliefs.contexts import Context
from app.beliefs.masses import Asked, masses
from app.beliefs.plan import NO_TEST
from app.beliefs.tree import Tree, grow
from app.beliefs.triggers import Trigger
from app.beliefs.upward import upward

CHUNK_ENTRIES = 1 << 23


@dataclass(frozen=True, slots=True)
class PartAnswer:
    """`total` · 2^`power` (columns,): P(reports of the part). `masses` (pairs, off/on): chances given those reports."""

    total: Numbers
    power: Indices
    masses: Numbers

    def log_total(self) -> Numbers:
        """Natural log of P(reports of the part), per column."""
        logs = np.log(self.total, out=np.full(self.total.shape, -np.inf), where=self.total > 0.0)
        found: Numbers = logs + self.power * log(2.0)
        return found


@dataclass(frozen=True, slots=True)
class PartQuestion:
    """A column for each context; pairs as (trigger, column); all triggers touch the part."""

    contexts: Sequence[Context]
    triggers: Sequence[Trigger]
    pair_trigger: Indices
    pair_column: Indices
    complaint: frozenset[int]


def run_part(tree: Tree, question: PartQuestion, absorbed: Absorbed) -> PartAnswer:
    """Upward for the wholes, then back down for the pairs."""
    tree = tree_for(tree, question.contexts, absorbed)
    count = len(question.contexts)
    answer = PartAnswer(np.zeros(count), np.zeros(count, dtype=np.int64), np.zeros((question.pair_trigger.size, 2)))
    for columns, pairs in _chunks(tree, question):
        below = upward(tree, question.contexts[columns], absorbed)
        answer.total[columns], answer.power[columns] = below.whole()
        if pairs.size:
            column = question.pair_column[pairs] - columns.start
            asked = Asked(question.triggers, question.pair_trigger[pairs], column, question.complaint)
            answer.masses[pairs] = masses(below, asked)
    return answer


def tree_for(tree: Tree, contexts: Iterable[Context], absorbed: Absorbed) -> Tree:
    """The tree of a part; if tests are assumed present in some context, they share one more bit."""
    fired = {context.fired for context in contexts} - {NO_TEST}
    if not fired:
        return tree
    test = frozenset((absorbed.fired_bit,))
    own = bits_of(absorbed, sorted(tree.hypotheses))
    return grow({h: own[h] if fired.isdisjoint(absorbed.hypotheses[h].findings) else own[h] | test for h in own})


def _chunks(tree: Tree, question: PartQuestion) -> Iterator[tuple[slice, Indices]]:
    """Columns in runs, each with the pairs on them."""
    room = max(1, CHUNK_ENTRIES // tree.entries)
    order = np.argsort(question.pair_column, kind="stable")
    sorted_column = question.pair_column[order]
    count = len(question.contexts)
    for start in range(0, count, room):
        stop = min(start + room, count)
        low, high = np.searchsorted(sorted_column, (start, stop))
        yield slice(start, stop), order[low:high]

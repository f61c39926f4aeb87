"""A plan spread out over the ways the papers can be, and what one part of the network sees of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Indices
from app.beliefs.contexts import Context, Paper, papers, under
from app.beliefs.plan import Plan
from app.beliefs.tree import Tree
from app.beliefs.triggers import Trigger
from app.network.noisy_or import NoisyOr


@dataclass(frozen=True, slots=True)
class Sheet:
    """The plan as arrays; `contexts[k][w]` is context k when the papers are as in way w."""

    ways: tuple[Paper, ...]
    contexts: list[list[Context]]
    triggers: list[Trigger]
    column_context: Indices
    column_test: Indices
    pair_trigger: Indices
    pair_column: Indices


def spread_out(plan: Plan, network: NoisyOr) -> Sheet:
    """Every context under every way of the papers."""
    ways = papers(network)
    contexts = [[under(context, way, network) for way in ways] for context in plan.contexts]
    column = np.array(plan.columns, dtype=np.int64).reshape(-1, 2)
    pair = np.array(plan.pairs, dtype=np.int64).reshape(-1, 2)
    return Sheet(ways, contexts, plan.triggers, column[:, 0], column[:, 1], pair[:, 0], pair[:, 1])


class PartView:
    """What does not touch the part is the same to it: contexts fall together, triggers fall away.

    `context_of` (contexts, ways) and `trigger_of` (triggers,), -1 where it does not touch, index into the lists.
    """

    def __init__(self, sheet: Sheet, tree: Tree, absorbed: Absorbed, complaint: frozenset[int]) -> None:
        self.sheet, self.tree, self.absorbed, self.complaint = sheet, tree, absorbed, complaint
        self.hypotheses = frozenset(tree.hypotheses)
        self.findings = frozenset(f for h in tree.hypotheses for f in absorbed.seen_by(h))
        self._known: dict[Context, int] = {}
        self.context_of = np.array(
            [[self.context(context) for context in row] for row in sheet.contexts], dtype=np.int64
        )
        touching = [not self.hypotheses.isdisjoint(trigger.touches) for trigger in sheet.triggers]
        self.triggers = [trigger for trigger, mine in zip(sheet.triggers, touching, strict=True) if mine]
        self.trigger_of = np.where(touching, np.cumsum(touching) - 1, -1)

    @property
    def contexts(self) -> list[Context]:
        """All contexts met so far, as this part sees them."""
        return list(self._known)

    def context(self, context: Context) -> int:
        """The index of a context as seen here."""
        return self._known.setdefault(self.seen(context), len(self._known))

    def seen(self, context: Context) -> Context:
        """A context as far as this part can see it."""
        return Context(context.removed & self.findings, context.quiet & self.findings, context.fired)

    def sees(self, test: int) -> bool:
        """Whether a hypothesis of this part can make the finding present."""
        return test in self.findings

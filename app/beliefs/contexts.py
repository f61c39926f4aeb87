"""Which reports are in force: with a set left out, with readings assumed normal, with a paper taken as made up."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from math import inf, log

from app.beliefs.absorb import Absorbed
from app.network.noisy_or import Document, NoisyOr, Report


@dataclass(frozen=True, slots=True)
class Context:
    """The evidence without the reports in `removed`, with the findings in `quiet` assumed absent, `fired` present.

    `fired` -1: none.
    """

    removed: frozenset[int] = frozenset()
    quiet: frozenset[int] = frozenset()
    fired: int = -1

    @property
    def changed(self) -> frozenset[int]:
        """Every finding that is not as reported."""
        return self.removed | self.quiet | ({self.fired} if self.fired >= 0 else frozenset())


@dataclass(frozen=True, slots=True)
class Paper:
    """One way the documents can be: which are true, and the chance of that before evidence."""

    chance: float
    true: tuple[bool, ...]


def papers(network: NoisyOr) -> tuple[Paper, ...]:
    """Every combination of true and made-up documents that has a chance above zero."""
    found = []
    for true in product((True, False), repeat=len(network.documents)):
        chance = 1.0
        for document, holds in zip(network.documents, true, strict=True):
            chance *= document.reliability if holds else 1.0 - document.reliability
        if chance > 0.0:
            found.append(Paper(chance, true))
    return tuple(found)


def under(context: Context, paper: Paper, network: NoisyOr) -> Context:
    """The same context with the findings of made-up documents unlinked from what holds."""
    made_up = (d.findings for d, holds in zip(network.documents, paper.true, strict=True) if not holds)
    return Context(context.removed.union(*made_up), context.quiet, context.fired)


def log_constant(context: Context, paper: Paper, network: NoisyOr, absorbed: Absorbed) -> float:
    """Log of all that no hypothesis moves: the paper's chance, made-up reports, leaks of absent findings."""
    total = _log(paper.chance)
    for document, holds in zip(network.documents, paper.true, strict=True):
        if not holds:
            total += sum(_log(_made_up(document, f, network)) for f in document.findings if f not in context.removed)
    gone = under(context, paper, network).removed
    total += sum(_log(1.0 - absorbed.leaks[f]) for f in sorted(absorbed.absent - gone))
    for f in sorted(absorbed.settled - gone):
        if_absent, if_present = absorbed.weigh[f]
        total += _log(if_absent * (1.0 - absorbed.leaks[f]) + if_present * absorbed.leaks[f])
    return total


def _made_up(document: Document, finding: int, network: NoisyOr) -> float:
    absent = network.findings[finding].report is Report.ABSENT
    return document.normal_if_invented if absent else 1.0 - document.normal_if_invented


def _log(chance: float) -> float:
    return log(chance) if chance > 0.0 else -inf

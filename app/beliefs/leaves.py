"""The leaves of a tree: what each hypothesis does in each context; contexts it cannot tell apart are one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Indices, Numbers
from app.beliefs.contexts import Context
from app.beliefs.growth import NO_EVENT, Wanted, grown
from app.beliefs.live import LiveState
from app.beliefs.shapes import vectors_of
from app.beliefs.sprigs import Bundle, bundle, sprig_of

AS_REPORTED = Context()


@dataclass(frozen=True, slots=True)
class Leaves:
    """`vectors` (2^bits, rows): the states of each leaf in turn, together summing to 1; `starts`, `sizes`: its rows.

    `totals`: what each leaf summed to before, its own reports absorbed.
    """

    vectors: Numbers
    starts: Indices
    sizes: Indices
    totals: Numbers


@dataclass(frozen=True, slots=True)
class Shoots:
    """Hypotheses that can explain the same bits, ready to be seen in any context.

    `fired`: the place of the bit for a test assumed present, or -1; that of an event is behind all bits.
    """

    bundle: Bundle
    bits: int
    fired: int
    absorbed: Absorbed


def shoots(hypotheses: Sequence[int], scope: Sequence[int], absorbed: Absorbed) -> Shoots:
    """Lay out their states over these bits."""
    place = {bit: at for at, bit in enumerate(scope)}
    for hypothesis in hypotheses:
        if hypothesis not in absorbed.sprigs:
            absorbed.sprigs[hypothesis] = sprig_of(absorbed.hypotheses[hypothesis])
    sprigs = {hypothesis: absorbed.sprigs[hypothesis] for hypothesis in hypotheses}
    fired = place.get(absorbed.fired_bit, -1)
    return Shoots(bundle(sprigs, place, absorbed.absent), len(scope), fired, absorbed)


def leaves_of(wanted: Sequence[Wanted], shoots: Shoots, *, followed: bool) -> Leaves:
    """All that is wanted; where events are followed theirs is one more bit, the slowest."""
    absorbed = shoots.absorbed
    growth = grown(wanted, shoots.bundle, absorbed, (shoots.fired, shoots.bits))
    vectors = vectors_of(growth, shoots.bundle, shoots.bits + followed)
    sizes = np.array([len(absorbed.hypotheses[number].states) for number, _, _ in wanted])
    weights = [_weights(number, context, absorbed) for number, context, _ in wanted]
    return _normalised(vectors * (growth.factor[growth.states] * np.concatenate(weights)), sizes)


def _weights(number: int, context: Context, absorbed: Absorbed) -> list[float]:
    states = absorbed.hypotheses[number].states
    alone = [f for f in absorbed.alone.get(number, ()) if f not in context.removed]
    if not alone:
        return [state.weight for state in states]
    return [state.weight * _alone(state, alone, absorbed) for state in states]


def _normalised(vectors: Numbers, sizes: Indices) -> Leaves:
    starts = np.cumsum(sizes) - sizes
    totals = row_sums(vectors.sum(axis=0), starts)
    vectors /= np.repeat(np.where(totals > 0.0, totals, 1.0), sizes)
    return Leaves(vectors, starts, sizes, totals)


def _alone(state: LiveState, findings: Sequence[int], absorbed: Absorbed) -> float:
    """How likely this state makes the reports that only its own hypothesis can explain."""
    chance = 1.0
    for finding in findings:
        if_absent, if_present = absorbed.weigh[finding]
        leak = absorbed.leaks[finding]
        absent = (1.0 - leak) * state.effects.quiet.get(finding, 1.0)
        present = leak + (1.0 - leak) * state.effects.fires.get(finding, 0.0)
        chance *= if_absent * absent + if_present * present
    return chance


REMOVED, QUIET, FIRED = range(3)

Views = Sequence[tuple[Context, list[int]]]


@dataclass(frozen=True, slots=True)
class Varied:
    """Per finding: the columns in which it is not as reported to the hypotheses that can explain it, and how not."""

    where: Mapping[int, Sequence[tuple[int, int]]]
    _views: dict[frozenset[int], Views] = field(default_factory=dict)

    def views(self, hypothesis: int, absorbed: Absorbed) -> Views:
        """Each way this hypothesis sees a context that is not as reported, with the columns of it."""
        seen = absorbed.seen_by(hypothesis).intersection(self.where)
        if seen not in self._views:
            self._views[seen] = self._seeing(seen)
        return self._views[seen]

    def _seeing(self, findings: frozenset[int]) -> Views:
        changes: dict[int, list[tuple[int, int]]] = {}
        for finding in sorted(findings):
            for column, how in self.where[finding]:
                changes.setdefault(column, []).append((how, finding))
        columns: dict[tuple[tuple[int, int], ...], list[int]] = {}
        for column, change in changes.items():
            columns.setdefault(tuple(change), []).append(column)
        return [(_context(alike), those) for alike, those in columns.items()]


def _context(change: Sequence[tuple[int, int]]) -> Context:
    removed, quiet = (frozenset(f for how, f in change if how == which) for which in (REMOVED, QUIET))
    return Context(removed, quiet, next((f for how, f in change if how == FIRED), -1))


def varied(contexts: Sequence[Context], absorbed: Absorbed) -> Varied:
    """Reports on bits are weighed where the bit closes; their hypotheses do not see them removed."""
    where: dict[int, list[tuple[int, int]]] = {}
    for column, context in enumerate(contexts):
        for finding in context.removed - absorbed.bits:
            where.setdefault(finding, []).append((column, REMOVED))
        for finding in context.quiet:
            where.setdefault(finding, []).append((column, QUIET))
        if context.fired >= 0:
            where.setdefault(context.fired, []).append((column, FIRED))
    return Varied(where)


def flagged(leaves: Leaves, items: Indices, flags: Numbers) -> Numbers:
    """(2^bits, items): per item the states that are flagged; `flags` has one number for each state of each item."""
    sizes = leaves.sizes[items]
    starts = np.cumsum(sizes) - sizes
    rows = np.arange(flags.size) + np.repeat(leaves.starts[items] - starts, sizes)
    return row_sums(leaves.vectors[:, rows] * flags, starts)


def row_sums(vectors: Numbers, starts: Indices) -> Numbers:
    """The last axis summed in runs."""
    sums: Numbers = np.add.reduceat(vectors, starts, axis=-1)
    return sums


def plain(number: int) -> Wanted:
    """A hypothesis in the evidence as reported."""
    return number, AS_REPORTED, NO_EVENT

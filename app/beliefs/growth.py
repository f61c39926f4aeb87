"""Sprigs as seen in many contexts: what differs is put in, and what explains no bit is folded into a factor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Flags, Indices, Numbers
from app.beliefs.contexts import Context
from app.beliefs.sprigs import Bundle

NO_EVENT = -1

Wanted = tuple[int, Context, int]
"""A hypothesis, the context as it sees it, and an event that is followed too, or NO_EVENT."""


@dataclass(slots=True)
class _Changes:
    """Nodes by number: factors to be put in, how often a leaf that never stays quiet comes or goes, and new leaves.

    A leaf on a bit that only some contexts have: (node, place, fires, quiet).
    """

    factors: list[tuple[int, float]] = field(default_factory=list)
    never: list[tuple[int, int]] = field(default_factory=list)
    leaves: list[tuple[int, int, float, float]] = field(default_factory=list)

    def put_in(self, node: int, quiet: float, absent: bool) -> None:
        """A leaf on something assumed absent; or the leaf on a report taken away."""
        if quiet == 0.0:
            self.never.append((node, 1 if absent else -1))
        else:
            self.factors.append((node, quiet if absent else 1.0 / quiet))


@dataclass(frozen=True, slots=True)
class Growth:
    """All nodes of all that is wanted, one sprig after another.

    `base`: the node of the bundle each is; `factor`: with all that explains no bit below it folded in; `carries`:
    whether it or something below it can explain a bit; `like_base`: whether it does so just as reported. `states`: the
    nodes that are states. `leaves`: on bits that only some contexts have.
    """

    base: Indices
    above: Indices
    depth: Indices
    factor: Numbers
    carries: Flags
    like_base: Flags
    states: Indices
    leaves: list[tuple[int, int, float, float]]


def grown(wanted: Sequence[Wanted], bundle: Bundle, absorbed: Absorbed, places: tuple[int, int]) -> Growth:
    """`places`: where the bits of a test assumed present, and of an event, stand; -1: nowhere."""
    sizes = np.array([bundle.sprigs[h].nodes for h, _, _ in wanted])
    starts = np.cumsum(sizes) - sizes
    shift = np.array([bundle.first[h] for h, _, _ in wanted]) - starts
    base = np.arange(int(sizes.sum())) + np.repeat(shift, sizes)
    above = np.where(bundle.above[base] >= 0, bundle.above[base] - np.repeat(shift, sizes), -1)
    changes = _changes(wanted, starts.tolist(), (bundle, absorbed), places)
    factor, never = bundle.factor[base], bundle.never[base]
    if changes.factors:
        nodes, factors = zip(*changes.factors, strict=True)
        np.multiply.at(factor, np.array(nodes), np.array(factors))
    if changes.never:
        nodes, more = zip(*changes.never, strict=True)
        np.add.at(never, np.array(nodes), np.array(more))
    factor *= never == 0
    carries = carrying(bundle)[base]
    like_base = np.ones(base.size, dtype=np.bool_)
    new = [node for node, _, _, _ in changes.leaves]
    carries[new], like_base[new] = True, False
    found = Growth(
        base, above, bundle.depth[base], factor, carries, like_base, np.flatnonzero(above < 0), changes.leaves
    )
    _fold(found, bundle)
    return found


def _changes(
    wanted: Sequence[Wanted], starts: Sequence[int], over: tuple[Bundle, Absorbed], places: tuple[int, int]
) -> _Changes:
    bundle, absorbed = over
    found = _Changes()
    for (number, context, event), start in zip(wanted, starts, strict=True):
        sprig = bundle.sprigs[number]
        for finding in context.removed & absorbed.absent:
            for node, _, quiet in sprig.leaves.get(finding, ()):
                found.put_in(start + node, quiet, absent=False)
        for finding in context.quiet:
            for node, _, quiet in sprig.leaves.get(finding, ()):
                found.put_in(start + node, quiet, absent=True)
        if context.fired >= 0:
            for node, fires, quiet in sprig.leaves.get(context.fired, ()):
                found.leaves.append((start + node, places[0], fires, quiet))
        if event != NO_EVENT:
            for node in sprig.turned.get(event, ()):
                found.leaves.append((start + node, places[1], 1.0, 0.0))
    return found


def _fold(growth: Growth, bundle: Bundle) -> None:
    """From the deepest up: a switch over no bit is a factor; one over bits makes what it hangs on carry them."""
    as_reported = _reported_factors(bundle)
    for level in range(int(growth.depth.max(initial=0)), 0, -1):
        nodes = np.flatnonzero(growth.depth == level)
        above = growth.above[nodes]
        acts = bundle.acts[growth.base[nodes]]
        bare = ~growth.carries[nodes]
        np.multiply.at(growth.factor, above[bare], (1.0 - acts[bare]) + acts[bare] * growth.factor[nodes[bare]])
        growth.carries[above[~bare]] = True
        differs = ~bare & ~(growth.like_base[nodes] & (growth.factor[nodes] == as_reported[growth.base[nodes]]))
        growth.like_base[above[differs]] = False


def _reported_factors(bundle: Bundle) -> Numbers:
    """The factor of each node of the bundle with nothing changed."""
    factor: Numbers = bundle.factor * (bundle.never == 0)
    carries = carrying(bundle)
    for level in range(int(bundle.depth.max(initial=0)), 0, -1):
        nodes = np.flatnonzero(bundle.depth == level)
        bare = nodes[~carries[nodes]]
        acts = bundle.acts[bare]
        np.multiply.at(factor, bundle.above[bare], (1.0 - acts) + acts * factor[bare])
        carries[bundle.above[nodes[carries[nodes]]]] = True
    return factor


def carrying(bundle: Bundle) -> Flags:
    """The nodes with a leaf on a bit."""
    flags: Flags = np.any(bundle.fires > 0.0, axis=1)
    return flags

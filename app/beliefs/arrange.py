"""A better order where many pairs ride along: hypotheses of one event next to each other, if the frontier allows.

The order is improved by moving each hypothesis to the centre of gravity of what it is tied to (the FORCE heuristic,
Aloul, Markov and Sakallah 2003); the order with the least estimated work is kept, the first one included.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass

import numpy as np

from app.beliefs.absorb import Absorbed
from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Indices
from app.beliefs.live import LiveEffects

PULLS = (0.0, 0.03, 0.3)
"""How strongly bits pull, against all ties together."""
ROUNDS = 12
WORTH_TRYING = 4e5
"""Below so many operations the search costs more than it saves."""


@dataclass(frozen=True, slots=True)
class Ties:
    """Sets of hypotheses (as places 0, 1, … in the part) with how many vector columns ride from first to last."""

    members: Sequence[Indices]
    riders: Numbers
    bits: Sequence[Indices]
    columns: int
    efforts: Numbers

    def work(self, place: Indices) -> float:
        """Operations over the whole pass, with hypothesis i, of so much effort for each entry, at `place[i]`."""
        steps = place.size
        active = _active(place, self.members, self.riders, steps, 0) + self.columns
        width = _active(place, self.bits, np.ones(len(self.bits)), steps, 1)
        effort = self.efforts[np.argsort(place)]
        return float((np.exp2(width) * active * effort).sum())


def arranged(order: Sequence[int], absorbed: Absorbed, riders: Mapping[frozenset[int], int], columns: int) -> list[int]:
    """The best order found from this one; `riders`: how many pairs ride from the first to the last of each set."""
    number = {h: at for at, h in enumerate(sorted(order))}
    ties = _ties(order, number, absorbed, riders, columns)
    place = np.argsort(np.array([number[h] for h in order]))
    best, least = place, ties.work(place)
    if len(ties.members) == 0 or least < WORTH_TRYING:
        return list(order)
    for pull in PULLS:
        for candidate in _drawn_together(place, ties, pull):
            work = ties.work(candidate)
            if work < least:
                best, least = candidate, work
    back = sorted(order)
    return [back[at] for at in np.argsort(best)]


def _ties(
    order: Sequence[int],
    number: Mapping[int, int],
    absorbed: Absorbed,
    riders: Mapping[frozenset[int], int],
    columns: int,
) -> Ties:
    members, weights = [], []
    for hypotheses, count in riders.items():
        here = sorted(number[h] for h in hypotheses if h in number)
        if len(here) > 1:
            members.append(np.array(here, dtype=np.int64))
            weights.append(float(count))
    parents: dict[int, list[int]] = {}
    for h in order:
        for bit in absorbed.hypotheses[h].findings & absorbed.bits:
            parents.setdefault(bit, []).append(number[h])
    return Ties(
        members,
        np.array(weights),
        [np.array(p, dtype=np.int64) for p in parents.values()],
        columns,
        _efforts(sorted(order), absorbed),
    )


def _efforts(hypotheses: Sequence[int], absorbed: Absorbed) -> Numbers:
    states = [absorbed.hypotheses[h].states for h in hypotheses]
    return np.array(
        [sum(2 + effort(state.effects, absorbed.bits) for state in some) for some in states], dtype=np.float64
    )


def effort(effects: LiveEffects, bits: Set[int]) -> int:
    """Passes over the vector that these effects take."""
    inside = sum(3 + effort(group.inside, bits) for group in effects.groups)
    return 2 * len(effects.fires.keys() & bits) + inside


def _drawn_together(place: Indices, ties: Ties, pull: float) -> Iterator[Indices]:
    """Round by round, each hypothesis goes to the mean of the centres of its ties; places are then counted anew."""
    sets = [*ties.members, *ties.bits]
    strength = pull * ties.riders.sum() / max(1, len(ties.bits))
    weights = np.concatenate([ties.riders, np.full(len(ties.bits), strength)])
    inside = np.zeros((len(sets), place.size))
    for row, members in enumerate(sets):
        inside[row, members] = 1.0
    centre = inside / inside.sum(axis=1, keepdims=True)
    drawn = inside.T * weights
    total = drawn.sum(axis=1)
    for _ in range(ROUNDS):
        goal = np.divide(drawn @ (centre @ place), total, out=place.astype(np.float64), where=total > 0.0)
        place = np.argsort(np.lexsort((place, goal)))
        yield place


def _active(place: Indices, sets: Sequence[Indices], weights: Numbers, steps: int, beyond: int) -> Numbers:
    """(steps,): total weight of the sets under way, from their first place until `beyond` their last."""
    change = np.zeros(steps + 1)
    if not sets:
        return change[:steps]
    flat = place[np.concatenate(sets)]
    starts = np.cumsum([0, *(members.size for members in sets[:-1])])
    np.add.at(change, np.minimum.reduceat(flat, starts), weights)
    np.add.at(change, np.maximum.reduceat(flat, starts) + beyond, -weights)
    return np.cumsum(change)[:steps]

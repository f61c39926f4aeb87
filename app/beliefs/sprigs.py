"""The states of a hypothesis laid out flat: a node for each state and each switch, with the leaves on it.

Sprigs of several hypotheses over the same bits stand in one bundle, so that all can be worked on at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass, field

import numpy as np

from app.beliefs.beliefs import Indices, Numbers
from app.beliefs.live import LiveEffects, LiveHypothesis


@dataclass(slots=True)
class Sprig:
    """Nodes from the states down, a switch after what it hangs on.

    `above`: the node each hangs on, -1 for a state; `acts`: the chance that its switch acts. `leaves[finding]`: nodes
    with a leaf on it, and the chances that it fires and stays quiet. `turned[event]`: nodes whose switch turns it on.
    """

    states: int
    above: list[int] = field(default_factory=list)
    acts: list[float] = field(default_factory=list)
    leaves: dict[int, list[tuple[int, float, float]]] = field(default_factory=dict)
    turned: dict[int, list[int]] = field(default_factory=dict)

    @property
    def nodes(self) -> int:
        return len(self.above)

    def add(self, effects: LiveEffects, above: int, acts: float) -> int:
        """One node, without what hangs on it."""
        node = len(self.above)
        self.above.append(above)
        self.acts.append(acts)
        quiet = effects.quiet
        for finding, fires in effects.fires.items():
            self.leaves.setdefault(finding, []).append((node, fires, quiet[finding]))
        return node


def sprig_of(hypothesis: LiveHypothesis) -> Sprig:
    """The states first, in order; then what hangs on them, level by level."""
    found = Sprig(len(hypothesis.states))
    level = [(found.add(state.effects, -1, 1.0), state.effects) for state in hypothesis.states]
    while level:
        below = []
        for above, effects in level:
            for group in effects.groups:
                node = found.add(group.inside, above, group.acts)
                below.append((node, group.inside))
                for event in group.turns_on:
                    found.turned.setdefault(event, []).append(node)
        level = below
    return found


@dataclass(frozen=True, slots=True)
class Bundle:
    """Sprigs end to end. `first[h]`: the first node of a hypothesis; `depth`: 0 for states.

    `fires`, `quiet` (nodes, bits): leaves on bits. `factor`: product over leaves on absent findings as reported, save
    those that never stay quiet, which `never` counts.
    """

    sprigs: Mapping[int, Sprig]
    first: Mapping[int, int]
    above: Indices
    acts: Numbers
    depth: Indices
    fires: Numbers
    quiet: Numbers
    factor: Numbers
    never: Indices


def bundle(sprigs: Mapping[int, Sprig], place: Mapping[int, int], absent: Set[int]) -> Bundle:
    """The sprigs of these hypotheses, over bits at these places."""
    first: dict[int, int] = {}
    count = 0
    for hypothesis, sprig in sprigs.items():
        first[hypothesis] = count
        count += sprig.nodes
    fires, quiet = np.zeros((count, len(place))), np.ones((count, len(place)))
    factor, never = [1.0] * count, [0] * count
    for hypothesis, sprig in sprigs.items():
        start = first[hypothesis]
        for finding, leaves in sprig.leaves.items():
            if finding in place:
                for node, chance, silent in leaves:
                    fires[start + node, place[finding]], quiet[start + node, place[finding]] = chance, silent
            elif finding in absent:
                for node, _, silent in leaves:
                    if silent > 0.0:
                        factor[start + node] *= silent
                    else:
                        never[start + node] += 1
    above = _joined([[node + first[h] if node >= 0 else -1 for node in sprig.above] for h, sprig in sprigs.items()])
    acts = np.array([chance for sprig in sprigs.values() for chance in sprig.acts])
    return Bundle(sprigs, first, above, acts, _depths(above), fires, quiet, np.array(factor), np.array(never))


def _joined(lists: Iterable[Iterable[int]]) -> Indices:
    return np.array([one for some in lists for one in some], dtype=np.int64)


def _depths(above: Indices) -> Indices:
    depth = np.zeros(above.size, dtype=np.int64)
    at = above.copy()
    while (at >= 0).any():
        depth += at >= 0
        at = np.where(at >= 0, above[at], -1)
    return depth

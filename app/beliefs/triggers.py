"""What can be on or off beside a test: an event, a set of hypotheses firing on the complaint, one state of one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.beliefs.absorb import Absorbed
from app.network.noisy_or import NoisyOr


@dataclass(frozen=True, slots=True)
class Trigger:
    """On if a listed state holds, a live group turns `event` on, or a hypothesis of `blames` fires on the complaint.

    `touches`: the hypotheses that can turn it on, each with the states that do so by themselves.
    `inside`: those of them where a switch or a leaf can do it too.
    """

    touches: Mapping[int, frozenset[int]]
    inside: frozenset[int] = frozenset()
    event: int = -1
    blames: bool = False


def event_triggers(network: NoisyOr, absorbed: Absorbed) -> list[Trigger]:
    """One trigger per event of the network, in order."""
    switched: dict[int, set[int]] = {}
    for index, hypothesis in enumerate(absorbed.hypotheses):
        for event in hypothesis.like:
            switched.setdefault(event, set()).add(index)
    live = [frozenset(state.index for state in hypothesis.states) for hypothesis in absorbed.hypotheses]
    return [
        _event(number, ((h, state) for h, state in event.any_of if state in live[h]), switched.get(number, set()))
        for number, event in enumerate(network.events)
    ]


def _event(number: int, any_of: Iterable[tuple[int, int]], switched: set[int]) -> Trigger:
    listed: dict[int, set[int]] = {h: set() for h in switched}
    for hypothesis, state in any_of:
        listed.setdefault(hypothesis, set()).add(state)
    watched = number if switched else -1
    return Trigger({h: frozenset(states) for h, states in listed.items()}, frozenset(switched), watched)


def blame_trigger(able: frozenset[int], blamed: Iterable[int]) -> Trigger:
    """On if a live leaf of a blamed hypothesis fires on a finding of the complaint; `able`: all that can do so."""
    touched = frozenset(able.intersection(blamed))
    return Trigger(dict.fromkeys(sorted(touched), frozenset()), touched, blames=True)


def state_trigger(hypothesis: int, state: int) -> Trigger:
    """On if the hypothesis is in the state."""
    return Trigger({hypothesis: frozenset((state,))})

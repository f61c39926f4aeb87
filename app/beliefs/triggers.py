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


class EventTriggers:
    """The trigger of each event of the network, made when it is first asked for."""

    def __init__(self, network: NoisyOr, absorbed: Absorbed) -> None:
        self._events = network.events
        self._switched: dict[int, set[int]] = {}
        for index, hypothesis in enumerate(absorbed.hypotheses):
            for event in hypothesis.like:
                self._switched.setdefault(event, set()).add(index)
        self._live = [frozenset(state.index for state in hypothesis.states) for hypothesis in absorbed.hypotheses]

    def of(self, event: int) -> Trigger:
        """On if a listed state that can hold does, or a live switch turns the event on."""
        switched = self._switched.get(event, set())
        listed: dict[int, set[int]] = {h: set() for h in switched}
        for hypothesis, state in self._events[event].any_of:
            if state in self._live[hypothesis]:
                listed.setdefault(hypothesis, set()).add(state)
        touches = {h: frozenset(states) for h, states in listed.items()}
        return Trigger(touches, frozenset(switched), event if switched else -1)


def blame_trigger(able: frozenset[int], blamed: Iterable[int]) -> Trigger:
    """On if a live leaf of a blamed hypothesis fires on a finding of the complaint; `able`: all that can do so."""
    touched = frozenset(able.intersection(blamed))
    return Trigger(dict.fromkeys(sorted(touched), frozenset()), touched, blames=True)


def state_trigger(hypothesis: int, state: int) -> Trigger:
    """On if the hypothesis is in the state."""
    return Trigger({hypothesis: frozenset((state,))})

"""The part of a network that can act: dead states, switches and leaves cut away, leaves of one list taken together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Set
from dataclasses import dataclass

from app.network.noisy_or import Effect, Group, Hypothesis, Leaf

_NO_FINDING: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class LiveEffects:
    """What is live together: per finding the chance that a leaf of it fires, and that none does; and switches.

    `findings`: all that some leaf here or further inside can make present.
    """

    fires: dict[int, float]
    quiet: dict[int, float]
    groups: tuple[LiveGroup, ...]
    findings: frozenset[int]

    def all_groups(self) -> Iterator[LiveGroup]:
        """The switches here and further inside."""
        for group in self.groups:
            yield group
            yield from group.inside.all_groups()


@dataclass(frozen=True, slots=True)
class LiveGroup:
    """A switch with something inside, or one that turns an event on."""

    acts: float
    inside: LiveEffects
    turns_on: frozenset[int]


@dataclass(frozen=True, slots=True)
class LiveState:
    """A state that can hold; `index` is its place among all states of the hypothesis."""

    index: int
    weight: float
    effects: LiveEffects


@dataclass(frozen=True, slots=True)
class LiveHypothesis:
    """The states with a weight above zero, and every finding they can make present.

    `like[event]`: the first of the events that are turned on by the very same switches.
    """

    states: tuple[LiveState, ...]
    findings: frozenset[int]
    like: dict[int, int]

    def grouped(self) -> set[int]:
        """The findings it reaches through a switch."""
        groups = (group for state in self.states for group in state.effects.groups)
        return {finding for group in groups for finding in group.inside.findings}


Known = dict[int, LiveEffects]
"""By the identity of a list of effects: what hypotheses share is cut down once."""


def live_hypothesis(hypothesis: Hypothesis, wanted: Set[int], known: Known) -> LiveHypothesis:
    """The hypothesis cut down to states that can hold and leaves on the wanted findings."""
    states = tuple(
        LiveState(index, state.weight, _live(state.effects, wanted, known))
        for index, state in enumerate(hypothesis.states)
        if state.weight > 0.0
    )
    return LiveHypothesis(states, _NO_FINDING.union(*(state.effects.findings for state in states)), _like(states))


def _like(states: Iterable[LiveState]) -> dict[int, int]:
    switches: dict[int, list[int]] = {}
    groups = (group for state in states for group in state.effects.all_groups())
    for number, group in enumerate(groups):
        for event in group.turns_on:
            switches.setdefault(event, []).append(number)
    first: dict[tuple[int, ...], int] = {}
    return {event: first.setdefault(tuple(by), event) for event, by in switches.items()}


def _live(effects: tuple[Effect, ...], wanted: Set[int], known: Known) -> LiveEffects:
    if id(effects) not in known:
        known[id(effects)] = _cut_down(effects, wanted, known)
    return known[id(effects)]


def _cut_down(effects: Iterable[Effect], wanted: Set[int], known: Known) -> LiveEffects:
    """Leaves on one finding are taken together; a switch that always acts, or holds one leaf only, is dissolved."""
    fires: dict[int, float] = {}
    quiet: dict[int, float] = {}
    groups: list[LiveGroup] = []
    for effect in effects:
        if isinstance(effect, Leaf):
            if effect.strength > 0.0 and effect.finding in wanted:
                _add(fires, quiet, effect.finding, effect.strength, 1.0 - effect.strength)
        elif effect.acts > 0.0:
            _take_in(effect, _live(effect.effects, wanted, known), fires, quiet, groups)
    findings = _NO_FINDING.union(fires, *(group.inside.findings for group in groups))
    return LiveEffects(fires, quiet, tuple(groups), findings)


def _take_in(
    group: Group, inside: LiveEffects, fires: dict[int, float], quiet: dict[int, float], groups: list[LiveGroup]
) -> None:
    if group.turns_on:
        groups.append(LiveGroup(group.acts, inside, frozenset(group.turns_on)))
    elif group.acts >= 1.0:
        for finding, chance in inside.fires.items():
            _add(fires, quiet, finding, chance, inside.quiet[finding])
        groups.extend(inside.groups)
    elif not inside.groups and len(inside.fires) == 1:
        ((finding, chance),) = inside.fires.items()
        silent = (1.0 - group.acts) + group.acts * inside.quiet[finding]
        _add(fires, quiet, finding, group.acts * chance, silent)
    elif inside.groups or inside.fires:
        groups.append(LiveGroup(group.acts, inside, frozenset()))


def _add(fires: dict[int, float], quiet: dict[int, float], finding: int, chance: float, silent: float) -> None:
    """Noisy-OR of what was there with one more leaf: neither sum nor product ever cancels."""
    before, still = fires.get(finding, 0.0), quiet.get(finding, 1.0)
    fires[finding] = before + still * chance
    quiet[finding] = still * silent

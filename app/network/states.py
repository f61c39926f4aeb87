"""One hypothesis as its timeline states: for each history of being there or not, what it then does."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from app.evidence.case import Case
from app.evidence.moments import Moment, early_after
from app.network.candidates import Candidate, Presence
from app.network.damage import BEFORE_ALL, Victims
from app.network.links import Acting, Reach, effects
from app.network.noisy_or import Effect, Hypothesis, State


@dataclass(frozen=True, slots=True)
class HypothesisStates:
    """A hypothesis and, for each epoch asked about, the states in which the fault is there."""

    hypothesis: Hypothesis
    present_in: Mapping[int, tuple[int, ...]]


def states_of(
    candidate: Candidate,
    reach: Reach,
    *,
    epochs: Iterable[int],
    victims: Victims,
) -> HypothesisStates:
    """States with equal effects and equal presence in the epochs asked about are one."""
    asked = tuple(sorted(set(epochs)))
    signatures: list[tuple[bool, ...]] = []
    states: list[State] = []
    for presence, weight in candidate.histories():
        signature = tuple(presence[epoch] for epoch in asked)
        does = _does(candidate, reach, presence, victims)
        alike = (n for n, one in enumerate(signatures) if one == signature and states[n].effects == does)
        if (place := next(alike, None)) is None:
            signatures.append(signature)
            states.append(State(weight, does))
        else:
            states[place] = State(states[place].weight + weight, does)
    present_in = {epoch: tuple(n for n, one in enumerate(signatures) if one[i]) for i, epoch in enumerate(asked)}
    return HypothesisStates(Hypothesis(tuple(states)), present_in)


def _does(
    candidate: Candidate,
    reach: Reach,
    presence: Presence,
    victims: Victims,
) -> tuple[Effect, ...]:
    if not any(presence):
        return ()
    acting = _acting(candidate, presence, victims.case)
    since, until = _since(candidate, presence), _until(candidate, presence)
    killed = (
        effect
        for damages in candidate.cause.damages
        for victim in victims.near(damages, candidate)
        for effect in victims.damage(damages, victim, since=since, until=until)
    )
    return (*effects(reach, acting, victims.settings), *killed)


def _acting(candidate: Candidate, presence: Presence, case: Case) -> Acting:
    begins = _came_in(candidate, presence)
    wears_in = candidate.cause.wears_in_over_km

    @cache
    def acts(at: Moment) -> bool:
        return presence[candidate.epoch_at(at)]

    def early(at: Moment) -> bool:
        came = begins.get(candidate.epoch_at(at))
        return came is not None and early_after(came, case, wears_in)(at)

    return Acting(acts, early)


def _came_in(candidate: Candidate, presence: Presence) -> Mapping[int, Moment]:
    """For each epoch in which the fault is there: when it came in, where a cut brought it in."""
    begins: dict[int, Moment] = {}
    for epoch in range(1, len(presence)):
        if presence[epoch] and not presence[epoch - 1]:
            begins[epoch] = candidate.cuts[epoch - 1].at
        elif presence[epoch] and epoch - 1 in begins:
            begins[epoch] = begins[epoch - 1]
    return begins


def _since(candidate: Candidate, presence: Presence) -> Moment:
    first = presence.index(True)
    return BEFORE_ALL if first == 0 else candidate.cuts[first - 1].at


def _until(candidate: Candidate, presence: Presence) -> Moment | None:
    """The job that took the fault away for good; None where it is there now."""
    last = max(epoch for epoch, there in enumerate(presence) if there)
    return candidate.cuts[last].at if last < len(candidate.cuts) else None

"""One hypothesis as its timeline states: for each history of being there or not, what it then does."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain

from app.evidence.case import Case
from app.evidence.moments import Moment, early_after
from app.network.candidates import Candidate, Presence
from app.network.damage import BEFORE_ALL, Victim, Victims
from app.network.links import Acting, Reach
from app.network.noisy_or import Effect, Hypothesis, State
from app.rules.causes import Damages


@dataclass(frozen=True, slots=True)
class HypothesisStates:
    """A hypothesis and, for each epoch asked about, the states in which the fault is there."""

    hypothesis: Hypothesis
    present_in: Mapping[int, tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class _Known:
    """What is the same in all histories of a candidate: the epoch of each moment, and what it can destroy."""

    candidate: Candidate
    reach: Reach
    epochs: Mapping[Moment, int]
    destroys: Sequence[tuple[Damages, Victim]]


def states_of(
    candidate: Candidate,
    reach: Reach,
    *,
    epochs: Iterable[int],
    victims: Victims,
) -> HypothesisStates:
    """States with equal effects and equal presence in the epochs asked about are one."""
    asked = tuple(sorted(set(epochs)))
    epochs_at = {at: candidate.epoch_at(at) for at in victims.doing.moments}
    known = _Known(candidate, reach, epochs_at, victims.of(candidate))
    signatures: list[tuple[bool, ...]] = []
    states: list[State] = []
    for presence, weight in candidate.histories():
        signature = tuple(presence[epoch] for epoch in asked)
        does = _does(known, presence, victims)
        alike = (n for n, one in enumerate(signatures) if one == signature and states[n].effects == does)
        if (place := next(alike, None)) is None:
            signatures.append(signature)
            states.append(State(weight, does))
        else:
            states[place] = State(states[place].weight + weight, does)
    present_in = {epoch: tuple(n for n, one in enumerate(signatures) if one[i]) for i, epoch in enumerate(asked)}
    return HypothesisStates(Hypothesis(tuple(states)), present_in)


def _does(known: _Known, presence: Presence, victims: Victims) -> tuple[Effect, ...]:
    if not any(presence):
        return ()
    own = victims.doing.effects(known.reach, _acting(known, presence, victims.case))
    since, until = _since(known.candidate, presence), _until(known.candidate, presence)
    killed = (victims.damage(damages, victim, since=since, until=until) for damages, victim in known.destroys)
    return (*own, *chain.from_iterable(killed))


def _acting(known: _Known, presence: Presence, case: Case) -> Acting:
    acts = [at for at, epoch in known.epochs.items() if presence[epoch]]
    wears_in = known.candidate.cause.wears_in_over_km
    came_in = _came_in(known.candidate, presence)
    fresh = {epoch: early_after(at, case, wears_in) for epoch, at in came_in.items()}
    early = (at for at in acts if (is_early := fresh.get(known.epochs[at])) and is_early(at))
    return Acting(frozenset(acts), frozenset(early) if fresh else frozenset())


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

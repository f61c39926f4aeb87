"""What is wrong with a drawn vehicle: the fault behind the complaint and others, each with its history over jobs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.random import Generator

from app.evidence.case import Case
from app.evidence.jobs import Touch, touches
from app.network.damage import destroyed_at
from app.rules.causes import Cause
from app.rules.library import Rules
from app.rules.priors import priors
from app.rules.words import CauseId, SymptomId
from app.simulation.not_listed import not_listed
from app.vehicle.layout import Layout, PlaceId

Presence = tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Fault:
    """A cause at a place. `there`: before the first job that touches it and after each; `jobs`: their visits.

    `destroyed_by`: what destroyed the part; None: it failed by itself.
    """

    cause: Cause
    place: PlaceId
    there: Presence
    jobs: tuple[int, ...]
    destroyed_by: CauseId | None = None

    @property
    def now(self) -> bool:
        return self.there[-1]

    def at_visit(self, visit: int) -> bool:
        """Whether it was there when the vehicle came to this visit, before that visit's work."""
        return self.there[sum(job < visit for job in self.jobs)]


@dataclass(frozen=True, slots=True)
class _Chance:
    """A cause at a place with every history it can have had, and the chance that it makes the complaint by itself."""

    cause: Cause
    place: PlaceId
    jobs: tuple[int, ...]
    histories: tuple[tuple[Presence, float], ...]
    makes_complaint: float

    @property
    def there_now(self) -> float:
        return sum(weight for history, weight in self.histories if history[-1])


def draw_faults(case: Case, complaint: SymptomId, rules: Rules, dice: Generator) -> tuple[Fault, ...]:
    """The fault behind the complaint first, then whatever else is wrong.

    () where nothing of the complaint's own family can make it on this vehicle.

    The first is drawn by its chance of being there now and making the complaint, by itself or by what it destroyed
    (then the destroyed part stands first, its culprit second); the rest, of whatever family, by their own chances.
    """
    chances = [chance for cause in rules.causes.values() for chance in _chances(cause, complaint, case, rules)]
    family = rules.family_of(complaint)
    if not any(chance.cause.family == family.id and chance.makes_complaint > 0.0 for chance in chances):
        return ()
    chances += [
        _Chance(cause, place, (), tuple(_histories(prior, ())), 1.0)
        for cause, place, prior in not_listed(complaint, case.vehicle.layout, rules)
    ]
    ways = [way for n, chance in enumerate(chances) for way in _ways(n, chance, complaint, case, rules)]
    weights = np.array([way.weight for way in ways])
    way = ways[int(dice.choice(len(ways), p=weights / weights.sum()))]
    others = [_drawn(chance, chance.histories, dice) for n, chance in enumerate(chances) if n != way.fault]
    first = chances[way.fault]
    there = tuple((history, weight) for history, weight in first.histories if history[-1])
    behind = (*way.destroyed, _drawn(first, there, dice))
    return (*behind, *(fault for fault in others if any(fault.there)))


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to the complaint: a fault that is there now makes it, or has destroyed the part that makes it."""

    fault: int
    weight: float
    destroyed: tuple[Fault, ...] = ()


def _ways(number: int, chance: _Chance, complaint: SymptomId, case: Case, rules: Rules) -> Iterable[_Way]:
    if chance.makes_complaint > 0.0:
        yield _Way(number, chance.there_now * chance.makes_complaint)
    for damages in chance.cause.damages:
        victim = rules.causes[damages.victim]
        strength = makes(victim, complaint, rules)
        for place in near_victims(damages.victim, chance.place, case.vehicle.layout, rules) if strength > 0.0 else ():
            part = Fault(victim, place, (True,), (), chance.cause.id)
            yield _Way(number, chance.there_now * damages.how.chance * strength, (part,))


def near_victims(victim: CauseId, culprit: PlaceId, layout: Layout, rules: Rules) -> Sequence[PlaceId]:
    """Where a culprit destroys a part on this vehicle."""
    return destroyed_at(rules.causes[victim], priors(layout, rules)[victim], culprit, layout)


def makes(cause: Cause, complaint: SymptomId, rules: Rules) -> float:
    """How often the cause gives the complaint, or a kind of it; 0 where it never does."""
    return max((g.how_often.chance for g in cause.gives if complaint in rules.kinds(g.symptom)), default=0.0)


def _chances(cause: Cause, complaint: SymptomId, case: Case, rules: Rules) -> Iterable[_Chance]:
    layout = case.vehicle.layout
    strength = makes(cause, complaint, rules)
    for place, prior in priors(layout, rules)[cause.id].items():
        touched = touches(cause, place, case, rules, prior=prior)
        yield _Chance(
            cause, place, tuple(t.job.visit.number for t in touched), tuple(_histories(prior, touched)), strength
        )


def _histories(prior: float, touched: Sequence[Touch]) -> list[tuple[Presence, float]]:
    """Every way the fault can have been there over the jobs, with its chance."""
    chains: list[tuple[Presence, float]] = [((True,), prior), ((False,), 1.0 - prior)]
    for touch in touched:
        stays = 1.0 - touch.done * touch.removes * (1.0 - touch.brings)
        comes = touch.done * touch.brings
        chains = [
            ((*history, now), weight * chance)
            for history, weight in chains
            for now, chance in _either(stays if history[-1] else comes)
        ]
    return chains


def _either(chance: float) -> tuple[tuple[bool, float], tuple[bool, float]]:
    return (True, chance), (False, 1.0 - chance)


def _drawn(chance: _Chance, histories: Sequence[tuple[Presence, float]], dice: Generator) -> Fault:
    weights = np.array([weight for _, weight in histories])
    history = histories[int(dice.choice(len(histories), p=weights / weights.sum()))][0]
    return Fault(chance.cause, chance.place, history, chance.jobs)

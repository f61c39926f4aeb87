"""Culprit and victim: a fault that destroys other parts holds their links beside its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import exp

from app.evidence.case import Case
from app.evidence.moments import Moment, Phase, Use, early_after, use_between
from app.network.candidates import Candidate, Cut
from app.network.links import Acting, Reach, effects
from app.network.noisy_or import Effect, Group
from app.rules.causes import Damages
from app.rules.library import Settings
from app.rules.words import Effect as Touched
from app.vehicle.layout import Layout, level_of

BEFORE_ALL = Moment(0, Phase.FOUND)


@dataclass(frozen=True, slots=True)
class Victim:
    """A hypothesis that a culprit can bring about: what it reaches, and the events that then hold."""

    candidate: Candidate
    reach: Reach
    events: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Life:
    """The life of one part of the victim, from its fitting to its renewal (`ends` None: still in)."""

    begins: Moment
    fitted_by: Cut | None
    ends: Moment | None


@dataclass(frozen=True, slots=True)
class _Damage:
    """One culprit's damage to one victim, from when the culprit is there."""

    damages: Damages
    victim: Victim
    since: Moment
    case: Case
    settings: Settings


def victims_of(damages: Damages, culprit: Candidate, everyone: Iterable[Victim], layout: Layout) -> list[Victim]:
    """The victim at the culprit's own level where it can be there, else at its main level, near the culprit."""
    near = [
        victim
        for victim in everyone
        if victim.candidate.cause.id == damages.victim and layout.related(victim.candidate.place, culprit.place)
    ]
    levels = {level_of(victim.candidate.place) for victim in near}
    wanted = level_of(culprit.place)
    if near and wanted not in levels:
        wanted = next(level for level in near[0].candidate.cause.acts_at if level in levels)
    return [victim for victim in near if level_of(victim.candidate.place) == wanted]


def damage_effects(
    damages: Damages, victim: Victim, since: Moment, *, case: Case, settings: Settings
) -> tuple[Effect, ...]:
    """The damage over the victim's lives: a renewal may end the old damage and starts a fresh draw."""
    damage = _Damage(damages, victim, since, case, settings)
    lives = [life for life in _lives(victim.candidate) if life.ends is None or life.ends > since]
    found: list[Effect] = []
    for number, life in enumerate(lives):
        draw = damages.how.chance * _after_silence(damages, life, case)
        if life.fitted_by is not None and number > 0:
            draw *= life.fitted_by.ends_damage
        found.extend(_from_life_on(draw, lives[number:], damage))
    return tuple(found)


def _lives(victim: Candidate) -> list[_Life]:
    renewals = [cut for cut in victim.cuts if cut.effect is Touched.RENEWS]
    first = _Life(BEFORE_ALL, None, renewals[0].at if renewals else None)
    later = [
        _Life(cut.at, cut, following.at if following else None)
        for cut, following in zip(renewals, [*renewals[1:], None], strict=True)
    ]
    return [first, *later]


def _from_life_on(draw: float, lives: Sequence[_Life], damage: _Damage) -> tuple[Effect, ...]:
    """group(draw, [this life's links, group(renewal failed, [the next life's links …])]); the last one holds now."""
    life, later = lives[0], lives[1:]
    layout = damage.case.vehicle.layout
    own = effects(damage.victim.reach, _acting_in(life, damage), layout, damage.settings)
    if draw == 0.0:
        return ()
    if not later:
        return (Group(draw, own, turns_on=damage.victim.events),)
    renewal = later[0].fitted_by
    carried = 1.0 - renewal.ends_damage if renewal else 1.0
    inside = (*own, *_from_life_on(carried, later, damage))
    return (Group(draw, inside),) if inside else ()


def _acting_in(life: _Life, damage: _Damage) -> Acting:
    """The victim's links count while this part was in and the culprit had begun."""
    begins = max(life.begins, damage.since)
    wears_in = damage.victim.candidate.cause.wears_in_over_km

    def acts(at: Moment) -> bool:
        return begins < at and (life.ends is None or at < life.ends)

    return Acting(acts, early_after(begins, damage.case, wears_in))


def _after_silence(damages: Damages, life: _Life, case: Case) -> float:
    """A new part silent for longer than `within` was hardly killed by the culprit: exp(-t / within)."""
    if life.fitted_by is None:
        return 1.0
    silent = _silent_use(life, case)
    if damages.within_km is not None and silent.km is not None:
        return _decay(silent.km, damages.within_km)
    if damages.within_months is not None and silent.months is not None:
        return _decay(silent.months, damages.within_months)
    return 1.0


def _decay(silent: float, within: float) -> float:
    return exp(-silent / within) if silent > within else 1.0


def _silent_use(life: _Life, case: Case) -> Use:
    """The use from fitting the part to the next visit of the case: a visit is about the complaint."""
    following = [visit.number for visit in case.visits if visit.number > life.begins.visit]
    return use_between(case, life.begins.visit, following[0]) if following else Use(0.0, 0.0)

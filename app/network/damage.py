"""Culprit and victim: a fault that destroys other parts holds their links beside its own."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import exp

from app.evidence.case import Case
from app.evidence.moments import Moment, Phase, Use, early_after, use_between
from app.network.candidates import Candidate, Cut
from app.network.links import Acting, Doing, Reach
from app.network.noisy_or import Effect, Group
from app.rules.causes import Cause, Damages
from app.rules.words import CauseId
from app.rules.words import Effect as Touched
from app.vehicle.layout import Layout, PlaceId, level_of

BEFORE_ALL = Moment(0, Phase.FOUND)


@dataclass(frozen=True, slots=True)
class Life:
    """The life of one part, from its fitting to its renewal (`ends` None: still in)."""

    begins: Moment
    fitted_by: Cut | None
    ends: Moment | None


@dataclass(frozen=True, slots=True)
class Victim:
    """A hypothesis that a culprit can bring about: what it reaches, the events that then hold, and its parts' lives."""

    candidate: Candidate
    reach: Reach
    events: tuple[int, ...]
    lives: tuple[Life, ...]


class Victims:
    """The hypotheses that culprits can bring about; and what they do."""

    def __init__(self, victims: Iterable[Victim], case: Case, doing: Doing) -> None:
        self.case, self.doing = case, doing
        self._stretches: dict[tuple[Moment, Moment | None], frozenset[Moment]] = {}
        self._of_cause: dict[CauseId, list[Victim]] = defaultdict(list)
        for victim in victims:
            self._of_cause[victim.candidate.cause.id].append(victim)

    def of(self, culprit: Candidate) -> list[tuple[Damages, Victim]]:
        """All that the culprit can destroy."""
        return [(damages, victim) for damages in culprit.cause.damages for victim in self._near(damages, culprit)]

    def _near(self, damages: Damages, culprit: Candidate) -> list[Victim]:
        """The victim where the culprit destroys it."""
        victims = {victim.candidate.place: victim for victim in self._of_cause[damages.victim]}
        if not victims:
            return []
        cause = next(iter(victims.values())).candidate.cause
        return [victims[place] for place in destroyed_at(cause, victims, culprit.place, self.case.vehicle.layout)]

    def damage(self, damages: Damages, victim: Victim, *, since: Moment, until: Moment | None) -> tuple[Effect, ...]:
        """The damage over the victim's lives: a renewal may end the old damage and starts a fresh draw.

        `since` and `until`: when the culprit was there (`until` None: it still is). It spares what is fitted later.
        """
        lives = [life for life in victim.lives if life.ends is None or life.ends > since]
        found: list[Effect] = []
        for number, life in enumerate(lives):
            if until is not None and life.begins >= until:
                break
            draw = damages.how.chance
            if life.fitted_by is not None:
                draw *= after_silence(damages, life.begins.visit, self.case)
            if life.fitted_by is not None and number > 0:
                draw *= life.fitted_by.ends_damage
            found.extend(self._from_life_on(draw, lives[number:], victim, since))
        return tuple(found)

    def _from_life_on(self, draw: float, lives: Sequence[Life], victim: Victim, since: Moment) -> tuple[Effect, ...]:
        """group(draw, [this life's links, group(not renewed, [the next life's links …])]); the last one holds now."""
        life, later = lives[0], lives[1:]
        if draw == 0.0:
            return ()
        own = self._own(victim, max(life.begins, since), life.ends)
        if not later:
            return (Group(draw, own, turns_on=victim.events),)
        renewal = later[0].fitted_by
        carried = 1.0 - renewal.ends_damage if renewal else 1.0
        inside = (*own, *self._from_life_on(carried, later, victim, since))
        return (Group(draw, inside),) if inside else ()

    def _own(self, victim: Victim, begins: Moment, ends: Moment | None) -> tuple[Effect, ...]:
        """The victim's own links while this part was in and the culprit had begun."""
        acts = self._between(begins, ends)
        early = early_after(begins, self.case, victim.candidate.cause.wears_in_over_km)
        return self.doing.effects(victim.reach, Acting(acts, frozenset(filter(early, acts))))

    def _between(self, begins: Moment, ends: Moment | None) -> frozenset[Moment]:
        key = begins, ends
        if key not in self._stretches:
            inside = (at for at in self.doing.moments if begins < at and (ends is None or at < ends))
            self._stretches[key] = frozenset(inside)
        return self._stretches[key]


def destroyed_at(victim: Cause, places: Iterable[PlaceId], culprit: PlaceId, layout: Layout) -> list[PlaceId]:
    """Near the culprit, at its own level where the victim can be there, else at the victim's main level."""
    near = [place for place in places if layout.related(place, culprit)]
    levels = (level_of(culprit), *victim.acts_at)
    wanted = next((level for level in levels if any(level_of(place) is level for place in near)), None)
    return [place for place in near if level_of(place) is wanted]


def lives_of(victim: Candidate) -> tuple[Life, ...]:
    """One part after the other, the first there before all."""
    renewals = [cut for cut in victim.cuts if cut.effect is Touched.RENEWS]
    ends = [*(cut.at for cut in renewals), None]
    fitted = (Life(cut.at, cut, end) for cut, end in zip(renewals, ends[1:], strict=True))
    return (Life(BEFORE_ALL, None, ends[0]), *fitted)


def after_silence(damages: Damages, fitted: int, case: Case) -> float:
    """A part fitted at this visit and silent for longer than `within` was hardly killed by it: exp(-t / within)."""
    silent = _silent_use(fitted, case)
    if damages.within_km is not None and silent.km is not None:
        return _decay(silent.km, damages.within_km)
    if damages.within_months is not None and silent.months is not None:
        return _decay(silent.months, damages.within_months)
    return 1.0


def _decay(silent: float, within: float) -> float:
    return exp(-silent / within) if silent > within else 1.0


def _silent_use(fitted: int, case: Case) -> Use:
    """The use from fitting the part to the next visit of the case: a visit is about the complaint."""
    following = [visit.number for visit in case.visits if visit.number > fitted]
    return use_between(case, fitted, following[0]) if following else Use(0.0, 0.0)

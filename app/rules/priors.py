"""How likely a cause is at a place before anything is known of this vehicle (DESIGN section 6, "How common")."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from functools import lru_cache

from app.rules.causes import Cause
from app.rules.library import Family, Rules
from app.rules.words import CauseId, SymptomId
from app.vehicle.layout import Layout, Level, PlaceId, level_of

LAYOUTS_KEPT = 8
"""Layouts for which what depends on nothing but layout and rules is kept. Few: each keeps its rules in memory, 27 MB
for a library (measured), also after the shop has changed them."""


@lru_cache(maxsize=LAYOUTS_KEPT)
def priors(layout: Layout, rules: Rules) -> Mapping[CauseId, Mapping[PlaceId, float]]:
    """For each cause every place where this vehicle can have it, with its prior there."""
    return {
        cause.id: {
            place: prior
            for level, places in places_at(cause, layout).items()
            for prior in (prior_at(cause, level, layout, rules),)
            for place in places
        }
        for cause in rules.causes.values()
    }


def prior_at(cause: Cause, level: Level, layout: Layout, rules: Rules) -> float:
    """P(the cause is there at one place of `level`) in a year of use, before any work and any evidence.

    share × part_l × r / (places_l × strength_l), r being how often its family strikes; a cause that states its prior
    directly has it at every place.
    0 where the cause cannot act at this level on this vehicle.
    """
    places = places_at(cause, layout)
    if level not in places:
        return 0.0
    if cause.prior is not None:
        return cause.prior
    strength = lead_strength(cause, rules)
    if strength <= 0.0:
        return 0.0
    family = rules.families[cause.family]
    share = shares(family, layout, rules).get(cause.id, 0.0)
    part = _part(cause, level, places)
    return share * part * family.strikes.chance / (len(places[level]) * strength)


def places_at(cause: Cause, layout: Layout) -> Mapping[Level, tuple[PlaceId, ...]]:
    """The levels at which this cause can act on this vehicle, each with its places."""
    found: dict[Level, tuple[PlaceId, ...]] = {}
    for place in cause.can_act_at(layout):
        level = level_of(place)
        found[level] = (*found.get(level, ()), place)
    return found


def _part(cause: Cause, level: Level, places: Mapping[Level, tuple[PlaceId, ...]]) -> float:
    """The part of the share at this level, scaled to the levels this vehicle has."""
    whole = sum(part for other, part in cause.acts_at.items() if other in places)
    return cause.acts_at[level] / whole if whole > 0.0 else 0.0


@lru_cache(maxsize=LAYOUTS_KEPT)
def shares(family: Family, layout: Layout, rules: Rules) -> Mapping[CauseId, float]:
    """Share of first visits with the family's lead complaint that each cause alone explains; together 1 − u.

    Over the causes at home in the family that fit this vehicle and say how common they are.
    """
    weights = {
        cause.id: cause.how_common.chance
        for cause in rules.causes.values()
        if cause.family == family.id and cause.how_common is not None and fits(cause, layout)
    }
    whole = sum(weights.values())
    listed = 1.0 - rules.settings.unlisted_share
    return {name: listed * weight / whole for name, weight in weights.items()}


def fits(cause: Cause, layout: Layout) -> bool:
    """Whether this vehicle can have this cause anywhere."""
    return not cause.fits or any(
        cause.fits_at(place, layout) for level in cause.acts_at for place in layout.places(level)
    )


def lead_strength(cause: Cause, rules: Rules, family: Family | None = None) -> float:
    """P(the lead complaint is there | this cause alone): the strongest of its lead symptoms and their kinds.

    Of its home family, or of the family named. 0 where it does not give the complaint.
    """
    return _strength(cause, (family or rules.families[cause.family]).lead, rules)


def _strength(cause: Cause, lead: Collection[SymptomId], rules: Rules) -> float:
    return max(
        (gives.how_often.chance for gives in cause.gives if any(kind in lead for kind in rules.kinds(gives.symptom))),
        default=0.0,
    )


def leads_of(cause: Cause, family: Family, rules: Rules) -> frozenset[SymptomId]:
    """The lead complaints of the family that this cause gives, by themselves or by a kind of them."""
    return frozenset(kind for gives in cause.gives for kind in rules.kinds(gives.symptom) if kind in family.lead)


@lru_cache(maxsize=LAYOUTS_KEPT)
def unlisted_priors(family: Family, lead: SymptomId, layout: Layout, rules: Rules) -> Mapping[Level, float]:
    """P(something not listed makes this complaint at one place of a level): u × r / (levels × places of the level).

    The levels are those at which the family has causes on this vehicle. A family with several lead complaints shares u
    among them as its listed causes are shared.
    """
    used = {level for cause in rules.causes.values() if family.has(cause) for level in places_at(cause, layout)}
    unlisted = rules.settings.unlisted_share * family.strikes.chance * _part_of_lead(family, lead, layout, rules)
    return {level: unlisted / (len(used) * len(layout.places(level))) for level in Level if level in used}


def _part_of_lead(family: Family, lead: SymptomId, layout: Layout, rules: Rules) -> float:
    """How much of the family's listed shares comes with this lead complaint."""
    share_of = shares(family, layout, rules)
    strengths = {
        name: (_strength(rules.causes[name], (lead,), rules), lead_strength(rules.causes[name], rules))
        for name in share_of
    }
    told = sum(share_of[name] * given / whole for name, (given, whole) in strengths.items() if whole > 0.0)
    return told / (1.0 - rules.settings.unlisted_share) if told > 0.0 else 1.0


def faults_expected(family: Family, layout: Layout, rules: Rules) -> float:
    """How many faults of this family a vehicle has on average before any job: the sum of all its priors."""
    strikes = family.strikes.chance
    by_share = 0.0
    for name, share in shares(family, layout, rules).items():
        strength = lead_strength(rules.causes[name], rules)
        by_share += share * strikes / strength if strength > 0.0 else 0.0
    said = sum(
        cause.prior * len(cause.can_act_at(layout))
        for cause in rules.causes.values()
        if cause.family == family.id and cause.prior is not None
    )
    return by_share + said + rules.settings.unlisted_share * strikes

"""What is asked and answered: a symptom is asked about whether it is there or not, so that silence says nothing."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from numpy.random import Generator

from app.evidence.case import Case, Presence, Source, SymptomSeen, Visit
from app.rules.causes import Gives
from app.rules.library import Family, Rules
from app.rules.symptoms import Sense, Symptom
from app.rules.words import Course, SymptomId
from app.simulation.faults import Fault
from app.vehicle.layout import Layout, PlaceId

ASKED = 0.85
"""How often a symptom of the family is asked about, or looked for."""
TRIED_HERE = 0.7
"""Of what is felt, heard or smelt: how often it is tried here; else the customer's word is taken."""
CODES_READ = 0.8

Shown = Mapping[SymptomId, frozenset[PlaceId]]
"""Where each symptom shows today."""


@dataclass(frozen=True, slots=True)
class _Acting:
    """A fault with the general symptoms that it gives at all (one draw each, for good), each with its kinds."""

    fault: Fault
    acts: Mapping[SymptomId, Sequence[Gives]]


@dataclass(frozen=True, slots=True)
class Told:
    """The case with all answers. `keeps`: the faults that give the complaint now, and what destroyed their parts."""

    case: Case
    keeps: tuple[Fault, ...]


def asked_and_told(case: Case, faults: Sequence[Fault], family: Family, rules: Rules, dice: Generator) -> Told:
    """The complaint at a place where it shows and at each visit; today the answers to all that is asked."""
    acting = [_acting(fault, case.complaint, rules, dice, surely=number == 0) for number, fault in enumerate(faults)]
    shown = _shown(acting, case, rules, dice)
    near = _near(rules.symptoms[case.complaint], faults[0].place, case.vehicle.layout)
    places = [place for place in near if place in shown[case.complaint]]
    case = replace(case, complaint_place=places[dice.integers(len(places))])
    earlier = [_at_earlier(visit, acting, case, rules, dice) for visit in case.visits[:-1]]
    seen = tuple(_answers(shown, family, case, rules, dice))
    told = replace(case, visits=(*earlier, replace(case.visits[-1], symptoms=seen)))
    return Told(told, tuple(_keeping(acting, faults, case)))


def _keeping(acting: Iterable[_Acting], faults: Sequence[Fault], case: Case) -> Iterator[Fault]:
    """A part that was destroyed is destroyed again while its culprit is there."""
    for one in acting:
        gives = one.fault.now and case.complaint in one.acts
        if gives and case.vehicle.layout.related(one.fault.place, case.complaint_place):
            yield one.fault
            yield from (f for f in faults if f.now and f.cause.id == one.fault.destroyed_by)


def _general(symptom: SymptomId, complaint: SymptomId, rules: Rules) -> SymptomId:
    """The complaint for its kinds, else the most general symptom of which this is a kind."""
    kinds = rules.kinds(symptom)
    return complaint if complaint in kinds else kinds[-1]


def _by_general(fault: Fault, complaint: SymptomId, rules: Rules) -> Mapping[SymptomId, list[Gives]]:
    found: dict[SymptomId, list[Gives]] = defaultdict(list)
    for gives in fault.cause.gives:
        found[_general(gives.symptom, complaint, rules)].append(gives)
    return found


def _acting(fault: Fault, complaint: SymptomId, rules: Rules, dice: Generator, *, surely: bool) -> _Acting:
    """`surely`: it is behind the complaint."""
    acts = {
        general: kinds
        for general, kinds in _by_general(fault, complaint, rules).items()
        if (surely and general == complaint) or dice.random() < _strength(kinds)
    }
    return _Acting(fault, acts)


def _strength(kinds: Iterable[Gives]) -> float:
    return max(gives.how_often.chance for gives in kinds)


def _shown(acting: Sequence[_Acting], case: Case, rules: Rules, dice: Generator) -> Shown:
    """All that shows today; the complaint where the fault behind it shows, for it brought the vehicle here."""
    found: dict[SymptomId, set[PlaceId]] = defaultdict(set)
    for one in acting:
        if not one.fault.now:
            continue
        for kinds in one.acts.values():
            for gives in kinds:
                if dice.random() < gives.how_often.chance / _strength(kinds):
                    _show(gives, one.fault, found, case.vehicle.layout, rules, dice)
    near = _near(rules.symptoms[case.complaint], acting[0].fault.place, case.vehicle.layout)
    if found[case.complaint].isdisjoint(near):
        found[case.complaint].add(near[int(dice.integers(len(near)))])
    return {symptom: frozenset(places) for symptom, places in found.items()}


def _show(
    gives: Gives, fault: Fault, found: dict[SymptomId, set[PlaceId]], layout: Layout, rules: Rules, dice: Generator
) -> None:
    """At each place near the fault, what comes and goes as a whole; a kind shows the general symptom too."""
    settings = rules.settings
    if gives.course is Course.COMES_AND_GOES and dice.random() >= _here_today(rules):
        return
    for place in _near(rules.symptoms[gives.symptom], fault.place, layout):
        if dice.random() < settings.shows_again:
            for kind in rules.kinds(gives.symptom):
                found[kind].update([place] if place in layout.places(rules.symptoms[kind].at) else [])


def _here_today(rules: Rules) -> float:
    return rules.settings.shows_again_comes_and_goes / rules.settings.shows_again


def _near(symptom: Symptom, fault: PlaceId, layout: Layout) -> Sequence[PlaceId]:
    """Where a fault shows a symptom: the symptom's places that it covers or lies in."""
    places = layout.places(symptom.at)
    return [place for place in places if layout.related(place, fault)] or list(places)


def _at_earlier(visit: Visit, acting: Iterable[_Acting], case: Case, rules: Rules, dice: Generator) -> Visit:
    """The complaint as told at an earlier visit: there or not."""
    layout, complaint = case.vehicle.layout, case.complaint
    there = [
        one
        for one in acting
        if complaint in one.acts
        and one.fault.at_visit(visit.number)
        and layout.related(one.fault.place, case.complaint_place)
    ]
    shows = any(dice.random() < rules.settings.shows_again for _ in there)
    said = SymptomSeen(complaint, case.complaint_place, _presence(there=shows), Source.TOLD)
    return replace(visit, symptoms=(said,))


def _presence(*, there: bool) -> Presence:
    return Presence.PRESENT if there else Presence.ABSENT


def _answers(shown: Shown, family: Family, case: Case, rules: Rules, dice: Generator) -> Iterator[SymptomSeen]:
    """The complaint first; a kind is asked about only where the symptom of which it is a kind is there."""
    codes_read = dice.random() < CODES_READ
    said_present = set[SymptomId]()
    for symptom in _asked_in_order(family, case, rules):
        is_complaint = symptom.id == case.complaint
        asked = codes_read if symptom.sense is Sense.CODE else dice.random() < ASKED
        more_general = rules.kinds(symptom.id)[1:]
        if not is_complaint and (not asked or (more_general and more_general[0] not in said_present)):
            continue
        for answer in _answer(symptom, shown.get(symptom.id, frozenset()), case, rules, dice):
            if answer.presence is Presence.PRESENT:
                said_present.add(symptom.id)
            yield answer


def _asked_in_order(family: Family, case: Case, rules: Rules) -> Sequence[Symptom]:
    """The complaint, then the symptoms of its family, the general before their kinds."""
    about = [s for s in rules.symptoms.values() if s.family == family.id or s.id == case.complaint]
    return sorted(about, key=lambda symptom: (symptom.id != case.complaint, len(rules.kinds(symptom.id))))


def _answer(
    symptom: Symptom, shows_at: frozenset[PlaceId], case: Case, rules: Rules, dice: Generator
) -> Iterator[SymptomSeen]:
    places = case.vehicle.layout.places(symptom.at)
    source = _source(symptom, places, dice)
    for place in places:
        there = place in shows_at
        if source is Source.TOLD and symptom.id != case.complaint:
            there = _hearsay(rules, dice, there=there)
        yield SymptomSeen(symptom.id, place, _presence(there=there), source)


def _source(symptom: Symptom, places: Sequence[PlaceId], dice: Generator) -> Source:
    by_eye = symptom.sense in (Sense.CODE, Sense.DATA, Sense.SEEN)
    return Source.SEEN_HERE if by_eye or len(places) > 1 or dice.random() < TRIED_HERE else Source.TOLD


def _hearsay(rules: Rules, dice: Generator, *, there: bool) -> bool:
    """What is told is so, or it is said without looking: then mostly "normal"."""
    if dice.random() < rules.settings.reliability[Source.TOLD.value]:
        return there
    return bool(dice.random() >= rules.settings.normal_if_invented)

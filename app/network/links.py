"""What a hypothesis does to the findings while it is there: leaves and groups, as DESIGN section 7 says."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import prod

from app.evidence.jobs import raised_at
from app.evidence.moments import Moment
from app.network.groups import group
from app.network.lines import DefectLine, DutyLine, Lines, SymptomLine
from app.network.noisy_or import Effect, Leaf
from app.network.test_links import Reading, reading_effects, readings_of
from app.rules.causes import Cause, Gives
from app.rules.library import Settings
from app.rules.words import Course, SymptomId
from app.vehicle.layout import Layout, PlaceId

LOOKED_AT = 0.99
"""Chance that who looks sees it: the word *certain* of what tests show (DESIGN section 6)."""


@dataclass(frozen=True, slots=True)
class Acting:
    """When a hypothesis acts; `early`: and has only just come in (a worn-in symptom is not there yet)."""

    acts: frozenset[Moment]
    early: frozenset[Moment] = frozenset()


@dataclass(frozen=True, slots=True)
class _Share:
    """Lines of the complaint that a hypothesis gives with one strength."""

    strength: float
    lines: tuple[SymptomLine, ...]


@dataclass(frozen=True, slots=True)
class Complained:
    """The complaint as far as a hypothesis at a place can give it, and how it then follows in time."""

    shares: tuple[_Share, ...]
    course: Course


@dataclass(frozen=True, slots=True)
class Reach:
    """The lines that one hypothesis can answer for, by its place and its rules."""

    cause: Cause
    place: PlaceId
    complaint: Complained
    symptoms: tuple[tuple[Gives, tuple[SymptomLine, ...]], ...]
    readings: tuple[Reading, ...]
    duties: tuple[tuple[DutyLine, float], ...]
    defects: tuple[DefectLine, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """What is told of symptoms that have to do with a place: the complaint in detail where it was last seen, once for
    every other moment; and the others.
    """

    details: tuple[SymptomLine, ...]
    once: tuple[SymptomLine, ...]
    others: Mapping[SymptomId, tuple[SymptomLine, ...]]


def told_of(place: PlaceId, lines: Lines, layout: Layout) -> Told:
    """A finding at a place belongs to the hypotheses whose place covers it or lies in it."""
    details, once, others = (
        tuple(line for line in some if layout.related(place, line.place))
        for some in (lines.complaint, lines.once, lines.symptoms)
    )
    return Told(details, once, _by_symptom(others))


def reach_of(cause: Cause, place: PlaceId, told: Told, lines: Lines, layout: Layout) -> Reach:
    """What a hypothesis can answer for; `told`: of its place."""
    gives = {one.symptom: one for one in cause.gives}
    return Reach(
        cause,
        place,
        complained_of(told, gives),
        tuple((gives[symptom], shown) for symptom, shown in told.others.items() if symptom in gives),
        readings_of(cause, place, lines, layout),
        tuple((d, share) for d in lines.duties if (share := _share_of_duty(d, cause, place, layout)) > 0.0),
        tuple(d for d in lines.defects if d.defect.cause == cause.id and layout.related(d.defect.place, place)),
    )


def complained_of(told: Told, gives: Mapping[SymptomId, Gives]) -> Complained:
    """The complaint as far as it touches a place and can be given there."""
    return Complained(tuple(_shares(told.details, told.once, gives)), _course(told.details, told.once, gives))


def _share_of_duty(line: DutyLine, cause: Cause, place: PlaceId, layout: Layout) -> float:
    """How likely the fault, if this job brought it in, came by this duty: that much a verified duty speaks against it.

    The other duties of the job, a bad part and a fault from before stay possible, and eyes can miss it.
    """
    raised = raised_at(cause, place, line.duty.job.job, layout)
    whole = 1.0 - prod(1.0 - r.how.chance for r in raised)
    return LOOKED_AT * max((r.how.chance / whole for r in raised if r.duty == line.duty.duty), default=0.0)


class Doing:
    """What hypotheses do at these moments while they act; what is done alike is worked out once."""

    def __init__(self, moments: frozenset[Moment], settings: Settings) -> None:
        self.moments, self.settings = moments, settings
        self._effects: dict[tuple[int, Acting], tuple[Effect, ...]] = {}
        self._complaints: dict[tuple[Complained, Acting], tuple[Effect, ...]] = {}

    def effects(self, reach: Reach, acting: Acting) -> tuple[Effect, ...]:
        """All that the hypothesis of this reach does."""
        key = id(reach), acting
        if key not in self._effects:
            self._effects[key] = (*self._complaint(reach.complaint, acting), *_beside(reach, acting, self.settings))
        return self._effects[key]

    def _complaint(self, complained: Complained, acting: Acting) -> tuple[Effect, ...]:
        key = complained, acting
        if key not in self._complaints:
            self._complaints[key] = complaint_effects(complained, acting, self.settings)
        return self._complaints[key]


def _beside(reach: Reach, acting: Acting, settings: Settings) -> Iterable[Effect]:
    """All but the complaint."""
    yield from _symptom_effects(reach, acting, settings)
    yield from reading_effects((reading for reading in reach.readings if reading.at in acting.acts), settings)
    yield from (Leaf(duty.finding, share) for duty, share in reach.duties if duty.duty.at in acting.acts)
    yield from (Leaf(line.finding, LOOKED_AT) for line in reach.defects if line.defect.at in acting.acts)


def complaint_effects(complained: Complained, acting: Acting, settings: Settings) -> tuple[Effect, ...]:
    """One draw for the complaint over all visits: it acts for good or never, then shows at each (DESIGN section 7)."""
    shares = [share for share in complained.shares if any(line.at in acting.acts for line in share.lines)]
    if not shares:
        return ()
    acts = max(share.strength for share in shares)
    inner: list[Effect] = []
    for share in shares:
        shown = _over_time(share.lines, complained.course, acting, settings)
        inner.extend(shown if share.strength == acts else group(share.strength / acts, shown))
    return group(acts, tuple(inner))


def _shares(
    details: Iterable[SymptomLine], once: Iterable[SymptomLine], gives: Mapping[SymptomId, Gives]
) -> Iterable[_Share]:
    by_symptom = _by_symptom(details)
    for symptom, lines in by_symptom.items():
        if symptom in gives:
            yield _Share(gives[symptom].how_often.chance, lines)
    told = max((gives[symptom].how_often.chance for symptom in by_symptom if symptom in gives), default=0.0)
    for symptom, lines in _by_symptom(once).items():
        strength = gives[symptom].how_often.chance if symptom in gives else told
        if strength > 0.0:
            yield _Share(strength, lines)


def _by_symptom(lines: Iterable[SymptomLine]) -> Mapping[SymptomId, tuple[SymptomLine, ...]]:
    found: dict[SymptomId, tuple[SymptomLine, ...]] = {}
    for line in lines:
        found[line.symptom] = (*found.get(line.symptom, ()), line)
    return found


def _course(details: Iterable[SymptomLine], once: Iterable[SymptomLine], gives: Mapping[SymptomId, Gives]) -> Course:
    names = (line.symptom for line in (*once, *details))
    return next((gives[name].course for name in names if name in gives), Course.AT_ONCE)


def _over_time(lines: Iterable[SymptomLine], course: Course, acting: Acting, settings: Settings) -> tuple[Effect, ...]:
    """Late visits show it; early ones only with the share that comes at once."""
    late: list[SymptomLine] = []
    early: list[SymptomLine] = []
    for line in lines:
        if line.at in acting.acts:
            (early if course is Course.GROWS and line.at in acting.early else late).append(line)
    shown = [*_at_visits(late, course, settings)]
    if early:
        shown.extend(group(settings.early_share_grows, tuple(_at_visits(early, course, settings))))
    return tuple(shown)


def _at_visits(lines: Iterable[SymptomLine], course: Course, settings: Settings) -> Iterable[Effect]:
    """At each visit the live fault shows at each of its places; what comes and goes is there or not as a whole.

    A vehicle is brought when its complaint is there, so that it was there speaks for no fault that is always there
    against one that comes and goes; only looking for it in vain does.
    """
    by_moment: dict[Moment, list[SymptomLine]] = defaultdict(list)
    for line in lines:
        by_moment[line.at].append(line)
    for at_once in by_moment.values():
        leaves = tuple(Leaf(line.finding, settings.shows_again) for line in at_once)
        if course is Course.COMES_AND_GOES and not any(line.brought for line in at_once):
            yield from group(settings.shows_again_comes_and_goes / settings.shows_again, leaves)
        else:
            yield from leaves


def _symptom_effects(reach: Reach, acting: Acting, settings: Settings) -> Iterable[Effect]:
    for gives, lines in reach.symptoms:
        yield from group(gives.how_often.chance, _over_time(lines, gives.course, acting, settings))

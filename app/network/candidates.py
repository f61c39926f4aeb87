"""Hypotheses of a case: each cause at each place, with the epochs that jobs and time cut its history into."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.evidence.case import Case
from app.evidence.jobs import NumberedJob, touches
from app.evidence.moments import Moment, Phase, use_between
from app.evidence.observe import Evidence, ResultFinding
from app.network.touched import touched_causes
from app.rules.causes import Cause
from app.rules.library import Rules
from app.rules.priors import priors
from app.rules.words import Effect
from app.vehicle.layout import Layout, PlaceId

MONTHS_THAT_CUT = 3.0

Presence = tuple[bool, ...]
"""Whether the fault is there in each epoch, oldest first."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A point at which a hypothesis may have changed: a job, or time that passed (`job` None).

    `stays` = P(present after | present before); `comes` = P(present after | absent before).
    `ends_damage`: chance that the job was done and took the part away (rho times kappa).
    """

    at: Moment
    stays: float
    comes: float
    ends_damage: float
    job: NumberedJob | None
    effect: Effect | None


@dataclass(frozen=True, slots=True)
class Candidate:
    """A cause at a place, its chance before any work on it, and its cuts in order of time."""

    cause: Cause
    place: PlaceId
    prior: float
    cuts: tuple[Cut, ...]

    @property
    def now(self) -> int:
        """The index of the present epoch."""
        return len(self.cuts)

    def epoch_at(self, moment: Moment) -> int:
        """Which state an observation speaks about: 0 before any work on it, 1 since the first job, …"""
        return sum(cut.at < moment for cut in self.cuts)

    def histories(self) -> Iterable[tuple[Presence, float]]:
        """Every way the fault can have been there or not over the epochs, with its chance."""
        chains: list[tuple[Presence, float]] = [((True,), self.prior), ((False,), 1.0 - self.prior)]
        for cut in self.cuts:
            chains = [
                ((*presence, there), weight * chance)
                for presence, weight in chains
                for there, chance in _step(cut, before=presence[-1])
                if chance > 0.0
            ]
        return chains


def _step(cut: Cut, *, before: bool) -> tuple[tuple[bool, float], tuple[bool, float]]:
    present = cut.stays if before else cut.comes
    return (True, present), (False, 1.0 - present)


def candidates(case: Case, evidence: Evidence, rules: Rules) -> tuple[Candidate, ...]:
    """Every hypothesis that this vehicle can have for this complaint."""
    layout = case.vehicle.layout
    gaps = _gaps(case, evidence)
    looks_for = _looks_for(evidence, rules, layout)
    found = []
    for cause in touched_causes(evidence, rules):
        looks = looks_for(cause)
        for place, prior in priors(layout, rules)[cause.id].items():
            jobs = _job_cuts(cause, place, case, rules, prior=prior)
            time = _time_cuts(looks(place), gaps, prior=prior)
            found.append(Candidate(cause, place, prior, tuple(sorted((*jobs, *time), key=lambda cut: cut.at))))
    return tuple(found)


def _job_cuts(cause: Cause, place: PlaceId, case: Case, rules: Rules, *, prior: float) -> Iterable[Cut]:
    for touch in touches(cause, place, case, rules, prior=prior):
        yield Cut(
            touch.at,
            stays=1.0 - touch.done * touch.removes * (1.0 - touch.brings),
            comes=touch.done * touch.brings,
            ends_damage=touch.done * touch.removes,
            job=touch.job,
            effect=touch.effect,
        )


@dataclass(frozen=True, slots=True)
class _Gap:
    """A longer time between two visits, over which a fault may have come; `quiet`: the complaint was not there then."""

    at: Moment
    months: float
    quiet: bool


def _gaps(case: Case, evidence: Evidence) -> tuple[_Gap, ...]:
    quiet = {once.at.visit for once in evidence.complaint.once if not once.present}
    used = ((visit, use_between(case, visit.number, later.number).months) for visit, later in pairwise(case.visits))
    return tuple(
        _Gap(Moment(visit.number, Phase.TIME_PASSED), months, visit.number in quiet)
        for visit, months in used
        if months is not None and months > MONTHS_THAT_CUT
    )


def _time_cuts(tested: Sequence[Moment], gaps: Iterable[_Gap], *, prior: float) -> Iterable[Cut]:
    """A test result grows old over every longer gap after it, a quiet stretch over its own: the fault may have come."""
    first = min(tested, default=None)
    for gap in gaps:
        if gap.quiet or (first is not None and first < gap.at):
            came = prior * min(1.0, gap.months / 12.0)
            yield Cut(gap.at, stays=1.0, comes=came, ends_damage=0.0, job=None, effect=None)


Looks = Callable[[PlaceId], Sequence[Moment]]


def _looks_for(evidence: Evidence, rules: Rules, layout: Layout) -> Callable[[Cause], Looks]:
    """For a cause: when it was looked for at a place by a test that shows it."""
    shown = {result.test: {shows.cause for shows in rules.tests[result.test].shows} for result in evidence.results}

    def looks(cause: Cause) -> Looks:
        results = [result for result in evidence.results if cause.id in shown[result.test]]
        return lambda place: [result.at for result in results if layout.related(result.place, place)]

    return looks


def still_current(result: ResultFinding, found: Iterable[Candidate], rules: Rules, layout: Layout) -> bool:
    """Whether a result was taken here and no job has since touched anything its test can show at its place."""
    shown = {s.cause for s in rules.tests[result.test].shows}
    return result.source.here and not any(
        cut.job is not None and cut.at > result.at
        for candidate in found
        if candidate.cause.id in shown and layout.related(candidate.place, result.place)
        for cut in candidate.cuts
    )

"""Jobs cut time: what each job on the history may have done to a cause at a place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import prod

from app.evidence.case import Case, DefectSeen, DutyDone, Job, Visit
from app.evidence.moments import Moment, Phase, use_between
from app.rules.causes import Cause, RaisedBy
from app.rules.library import Rules, Settings
from app.rules.operations import Duty
from app.rules.words import DutyId, Effect
from app.vehicle.layout import Layout, PlaceId, level_of


@dataclass(frozen=True, slots=True)
class NumberedJob:
    """A job with its number on the case (from 1) and the visit it was done on."""

    number: int
    visit: Visit
    job: Job

    @property
    def at(self) -> Moment:
        return Moment(self.visit.number, Phase.WORK)


@dataclass(frozen=True, slots=True)
class Touch:
    """What one job may have done to one hypothesis.

    `removes`: chance that the job, if done, takes the fault away (kappa). `brings`: chance that it brings one in (n).
    `done`: chance that it was done at all (rho).
    """

    job: NumberedJob
    effect: Effect | None
    removes: float
    brings: float
    done: float

    @property
    def at(self) -> Moment:
        return self.job.at


def numbered_jobs(case: Case) -> tuple[NumberedJob, ...]:
    """Every job of the case in order, numbered from 1."""
    pairs = ((visit, job) for visit in case.visits for job in visit.jobs)
    return tuple(NumberedJob(number, visit, job) for number, (visit, job) in enumerate(pairs, 1))


def known_jobs(case: Case, rules: Rules) -> tuple[NumberedJob, ...]:
    """The jobs whose operation the rules know; the others keep their numbers and change nothing."""
    return tuple(numbered for numbered in numbered_jobs(case) if numbered.job.operation in rules.operations)


def touches(cause: Cause, place: PlaceId, case: Case, rules: Rules, *, prior: float) -> tuple[Touch, ...]:
    """The jobs that may have changed this hypothesis, in order; a job that changes nothing cuts nothing."""
    found: list[Touch] = []
    for numbered in known_jobs(case, rules):
        touch = _touch(cause, place, numbered, case, rules, prior=prior)
        if touch is None or (touch.removes == 0.0 and touch.brings == 0.0):
            continue
        if cause.comes_with_part and any(_same_part(before.job, numbered) for before in found):
            continue
        found.append(touch)
    return tuple(found)


def _touch(
    cause: Cause, place: PlaceId, numbered: NumberedJob, case: Case, rules: Rules, *, prior: float
) -> Touch | None:
    operation = rules.operations[numbered.job.operation]
    layout = case.vehicle.layout
    effect = operation.touches.get(cause.id) if works_on(numbered.job, place, layout) else None
    forgotten = [raised.how.chance for raised in raised_at(cause, place, numbered.job, layout)]
    forgotten += _left_behind(cause, place, numbered, case, rules)
    if effect is None and not forgotten:
        return None
    settings = rules.settings
    new_part = cause.bad_part + _aged(case, numbered, prior) if effect is Effect.RENEWS else 0.0
    brings = 1.0 - (1.0 - min(1.0, new_part)) * prod(1.0 - chance for chance in forgotten)
    removes = {Effect.RENEWS: settings.job_renews, Effect.SETS: settings.job_sets}.get(effect, 0.0) if effect else 0.0
    return Touch(numbered, effect, removes, brings, chance_done(numbered.job, settings))


def _left_behind(cause: Cause, place: PlaceId, numbered: NumberedJob, case: Case, rules: Rules) -> Iterable[float]:
    """The chances that this job left the cause behind, from defects found here for which somebody named the job."""
    for defect in (defect for visit in case.visits for defect in visit.defects):
        kind = rules.defects.get(defect.kind)
        if kind is None or kind.brings != cause.id or not case.vehicle.layout.related(defect.place, place):
            continue
        if is_named(defect, numbered):
            yield kind.chance_left_behind()


def is_named(defect: DefectSeen, numbered: NumberedJob) -> bool:
    """Whether somebody said that this job is likely to have left the defect behind."""
    after = defect.after
    return after is not None and (after.visit, after.operation) == (numbered.visit.number, numbered.job.operation)


def _aged(case: Case, numbered: NumberedJob, prior: float) -> float:
    """A part put in t years ago has aged like any other: prior times t, at most one year's worth."""
    years = use_between(case, numbered.visit.number, case.visits[-1].number).years
    return prior * min(1.0, years) if years is not None else 0.0


def chance_done(job: Job, settings: Settings) -> float:
    """The chance that a job on the history was done at all, by how we know of it."""
    if not job.source.here and any(part.receipt for part in job.parts):
        return settings.reliability["parts with a receipt"]
    return settings.reliability[job.source.value]


def works_on(job: Job, place: PlaceId, layout: Layout) -> bool:
    """Whether the job's places cover this place, or all of it piece by piece (every cylinder of the bank)."""
    if any(layout.covers(done_at, place) for done_at in job.places):
        return True
    if not job.places:
        return False
    pieces = [p for p in layout.places(level_of(job.places[0])) if layout.covers(place, p)]
    return bool(pieces) and set(pieces) <= set(job.places)


def raised_at(cause: Cause, place: PlaceId, job: Job, layout: Layout) -> list[RaisedBy]:
    """The rules by which this job can bring the cause in at exactly this place."""
    if not any(layout.related(done_at, place) for done_at in job.places):
        return []
    return [r for r in cause.raised_by if r.operation == job.operation and r.at == level_of(place)]


def _same_part(earlier: NumberedJob, later: NumberedJob) -> bool:
    """The same wrong part again: the same number, or, where no number is known, the same shop."""
    if earlier.job.operation != later.job.operation:
        return False
    numbers = [{part.number for part in job.job.parts if part.number} for job in (earlier, later)]
    if all(numbers):
        return bool(numbers[0] & numbers[1])
    return (earlier.visit.here, earlier.visit.shop) == (later.visit.here, later.visit.shop)


def duties_looked_at(case: Case, rules: Rules) -> Iterable[tuple[NumberedJob, Duty, DutyDone]]:
    """Every duty that someone looked at, with its job, its rule and what stands of it."""
    for numbered in known_jobs(case, rules):
        for duty in rules.operations[numbered.job.operation].duties:
            done = what_stands(numbered.job, duty.id)
            if done is not None:
                yield numbered, duty, done


def what_stands(job: Job, duty: DutyId) -> DutyDone | None:
    """The last word on a duty: what was seen here goes before what others say, and a later look before an earlier."""
    said = [done for done in job.duties if done.duty == duty]
    in_order = sorted(said, key=lambda done: (done.source.here, done.seen_at_visit))
    return in_order[-1] if in_order else None

"""The way back from an opened vehicle: covers in reverse order with their minutes, and this visit's duties."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from app.evidence.case import Case, DutyDone, DutyState, Job, Visit
from app.evidence.jobs import what_stands
from app.rules.library import Rules
from app.rules.operations import Cover, Duty, Operation
from app.rules.words import CoverId

TICKED = (DutyState.VERIFIED, DutyState.NOT_APPLICABLE)


@dataclass(frozen=True, slots=True)
class StepBack:
    """One cover on the way back. `opened_for`: the operations of this visit that open it (none: said to be open).

    `done`: it was put back at this visit and has not been opened since.
    """

    cover: Cover
    minutes: float
    opened_for: tuple[Operation, ...]
    done: bool


@dataclass(frozen=True, slots=True)
class DutyToTick:
    """A duty of a job of this visit. `last`: its last word."""

    job: Job
    operation: Operation
    duty: Duty
    last: DutyDone | None

    @property
    def ticked(self) -> bool:
        return self.last is not None and self.last.state in TICKED


@dataclass(frozen=True, slots=True)
class PuttingBack:
    """What stands between the opened vehicle and its key: the covers from the inside out, and the duties."""

    steps: tuple[StepBack, ...]
    duties: tuple[DutyToTick, ...]
    cautions: tuple[str, ...]

    @property
    def minutes_left(self) -> float:
        return sum(step.minutes for step in self.steps if not step.done)

    @property
    def open_steps(self) -> tuple[StepBack, ...]:
        return tuple(step for step in self.steps if not step.done)

    @property
    def open_duties(self) -> tuple[DutyToTick, ...]:
        return tuple(duty for duty in self.duties if not duty.ticked)


def putting_back(case: Case, rules: Rules, *, put_back: Collection[CoverId]) -> PuttingBack:
    """The way back at our latest visit. `put_back`: the covers ticked as put back at it."""
    visit = our_visit(case)
    jobs = _known_jobs(visit, rules)
    return PuttingBack(
        steps=_steps(case, jobs, rules, put_back=put_back),
        duties=tuple(
            DutyToTick(job, operation, duty, what_stands(job, duty.id))
            for job, operation in jobs
            for duty in rules.duties_on(operation, case.vehicle.layout)
        ),
        cautions=tuple(dict.fromkeys(caution for _, operation in jobs for caution in operation.cautions)),
    )


def our_visit(case: Case) -> Visit | None:
    """Our latest visit of the case."""
    return next((visit for visit in reversed(case.visits) if visit.here), None)


def _known_jobs(visit: Visit | None, rules: Rules) -> tuple[tuple[Job, Operation], ...]:
    jobs = visit.jobs if visit else ()
    return tuple((job, rules.operations[job.operation]) for job in jobs if job.operation in rules.operations)


def _steps(
    case: Case, jobs: Sequence[tuple[Job, Operation]], rules: Rules, *, put_back: Collection[CoverId]
) -> tuple[StepBack, ...]:
    operations = tuple(dict.fromkeys(operation.id for _, operation in jobs))
    opened = {cover for name in operations for cover in rules.operations[name].opens}
    asked = opened | set(case.open_covers) | set(put_back)
    return tuple(
        StepBack(
            cover=rules.covers[name],
            minutes=rules.covers[name].minutes_on(case.vehicle.layout)[1],
            opened_for=tuple(rules.operations[one] for one in operations if name in rules.operations[one].opens),
            done=name in put_back and name not in case.open_covers,
        )
        for name in reversed(opening_order(rules))
        if name in asked
    )


def opening_order(rules: Rules) -> tuple[CoverId, ...]:
    """All covers in the order they come off: as most operations and tests list them, else as the teardown file does."""
    before = _listed_before(rules)
    order: list[CoverId] = []

    def take(cover: CoverId, waiting: tuple[CoverId, ...] = ()) -> None:
        """The cover, after all that must be off before it; what waits for itself is not waited for."""
        if cover in order or cover in waiting:
            return
        for other in rules.covers:
            if before[other, cover] > before[cover, other]:
                take(other, (*waiting, cover))
        order.append(cover)

    for cover in rules.covers:
        take(cover)
    return tuple(order)


def _listed_before(rules: Rules) -> Mapping[tuple[CoverId, CoverId], int]:
    """How often one cover is listed before another."""
    lists = [operation.opens for operation in rules.operations.values()]
    lists += [test.needs_open for test in rules.tests.values()]
    return Counter(pair for covers in lists for pair in combinations(dict.fromkeys(covers), 2))

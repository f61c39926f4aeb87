"""What is proven, wrong and unknown of the work already done on a vehicle: every job opens its duties."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from app.board.board import Board, Row
from app.evidence.case import DutyDone, DutyState, Job, Result
from app.evidence.jobs import what_stands
from app.rules.library import Rules
from app.rules.operations import Duty, Operation
from app.rules.words import CauseId
from app.vehicle.layout import Layout, PlaceId


class Standing(StrEnum):
    """What may be relied on of a duty. Only what was measured or seen here proves it, either way."""

    PROVEN = "proven"
    WRONG = "found wrong"
    UNKNOWN = "not known"
    NOT_APPLICABLE = "does not apply"


@dataclass(frozen=True, slots=True)
class PastJob:
    """A job on the vehicle's history. `visit` counts the vehicle's visits; `counts`: it is part of the case."""

    id: str
    job: Job
    visit: int
    counts: bool


@dataclass(frozen=True, slots=True)
class PastResult:
    """A result on the vehicle's history; `visit` counts the vehicle's visits."""

    result: Result
    visit: int


@dataclass(frozen=True, slots=True)
class Tally:
    """How many duties are proven, wrong, unknown, and how many do not apply."""

    proven: int = 0
    wrong: int = 0
    unknown: int = 0
    not_applicable: int = 0

    @property
    def asked(self) -> int:
        """The duties that apply."""
        return self.proven + self.wrong + self.unknown


@dataclass(frozen=True, slots=True)
class DutyAudit:
    """A duty of a job as it stands.

    `last`: the word that counts; `said`: all that was recorded, oldest first. `row`: the board's likeliest row of the
    cause it can bring in, where the job was done (None: nothing reported points to that cause); `somewhere`: that the
    cause is there at any place, where it has several. `measured`: results of the test that verifies it, taken where the
    job was done and not before it.
    """

    duty: Duty
    standing: Standing
    last: DutyDone | None
    said: tuple[DutyDone, ...]
    row: Row | None
    somewhere: float | None
    measured: tuple[PastResult, ...]


@dataclass(frozen=True, slots=True)
class JobAudit:
    """A job with its duties. `operation` None: the rules do not know it. `again`: the visit it was done again at."""

    past: PastJob
    operation: Operation | None
    duties: tuple[DutyAudit, ...]
    again: int | None

    @property
    def tally(self) -> Tally:
        return tally(self.duties)


@dataclass(frozen=True, slots=True)
class Audit:
    """Every job, the newest first."""

    jobs: tuple[JobAudit, ...]

    @property
    def tally(self) -> Tally:
        return tally(duty for job in self.jobs for duty in job.duties)


def audit(
    jobs: Sequence[PastJob], results: Sequence[PastResult], *, board: Board, rules: Rules, layout: Layout
) -> Audit:
    """The audit as it stands. `jobs` and `results` in order of time, without what was struck out."""
    found = [_job(past, jobs[number + 1 :], results, board=board, rules=rules, layout=layout)
             for number, past in enumerate(jobs)]  # fmt: skip
    return Audit(tuple(reversed(found)))


def tally(duties: Iterable[DutyAudit]) -> Tally:
    count = Counter(duty.standing for duty in duties)
    return Tally(count[Standing.PROVEN], count[Standing.WRONG], count[Standing.UNKNOWN], count[Standing.NOT_APPLICABLE])


def standing(last: DutyDone | None) -> Standing:
    """What a duty's last word is worth."""
    match last:
        case None | DutyDone(state=DutyState.NOT_CHECKED):
            return Standing.UNKNOWN
        case DutyDone(state=DutyState.NOT_APPLICABLE):
            return Standing.NOT_APPLICABLE
        case DutyDone(source=source) if not source.here:
            return Standing.UNKNOWN
        case DutyDone(state=DutyState.VERIFIED):
            return Standing.PROVEN
        case _:
            return Standing.WRONG


def _job(
    past: PastJob,
    later: Sequence[PastJob],
    results: Sequence[PastResult],
    *,
    board: Board,
    rules: Rules,
    layout: Layout,
) -> JobAudit:
    operation = rules.operations.get(past.job.operation)
    fitting = rules.duties_on(operation, layout) if operation else ()
    spoken_of = {done.duty for done in past.job.duties}
    duties = [d for d in operation.duties if d in fitting or d.id in spoken_of] if operation else []
    return JobAudit(
        past,
        operation,
        tuple(_duty(duty, past, results, board=board, layout=layout) for duty in duties),
        again=next((other.visit for other in later if _same_work(past.job, other.job)), None),
    )


def _same_work(job: Job, later: Job) -> bool:
    return job.operation == later.operation and set(job.places) <= set(later.places)


def _duty(duty: Duty, past: PastJob, results: Sequence[PastResult], *, board: Board, layout: Layout) -> DutyAudit:
    last = what_stands(past.job, duty.id)
    return DutyAudit(
        duty=duty,
        standing=standing(last),
        last=last,
        said=tuple(done for done in past.job.duties if done.duty == duty.id),
        row=None if duty.brings is None else likeliest_row(duty.brings, past.job.places, board, layout=layout),
        somewhere=None if duty.brings is None else somewhere(duty.brings, board),
        measured=tuple(one for one in results if _verifies(one, duty, past, layout)),
    )


def _verifies(one: PastResult, duty: Duty, past: PastJob, layout: Layout) -> bool:
    return (
        duty.verify_by_test == one.result.test
        and (one.visit > past.visit or (one.visit == past.visit and one.result.after_work))
        and any(layout.related(place, one.result.place) for place in past.job.places)
    )


def likeliest_row(cause: CauseId, places: Iterable[PlaceId], board: Board, *, layout: Layout) -> Row | None:
    """The board's likeliest row of a cause now, at places that have to do with these."""
    rows = (*board.confirmed, *board.ruled_out, *(row for group in board.groups for row in group.rows))
    near = [
        row
        for row in rows
        if row.id.cause == cause and row.id.job is None and any(layout.related(place, row.id.place) for place in places)
    ]
    return max(near, key=lambda row: row.probability, default=None)


def somewhere(cause: CauseId, board: Board) -> float | None:
    """The chance that a cause is there now at any of its places; None where it has one place, or all are settled."""
    group = next((group for group in board.groups if group.cause == cause), None)
    return group.probability if group is not None and len(group.rows) > 1 else None

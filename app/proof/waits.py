"""How soon the fault used to come back, taken from the case's own history."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import Enum, auto

from app.evidence.case import Case, CodeState, Presence, Visit
from app.evidence.moments import DAYS_A_YEAR, use_between
from app.proof.conditions import Conditions, about_complaint, counts
from app.proof.measures import LEAST, Measure, Use, total, use_of_run
from app.proof.silence import Waits
from app.rules.library import Rules
from app.rules.operations import Operation
from app.rules.words import CauseId, Effect


class Known(Enum):
    """Where a wait is known from."""

    TOLD = auto()
    CLEARING = auto()
    VISITS = auto()
    RUNS = auto()


@dataclass(frozen=True, slots=True)
class Wait:
    """Use without the complaint: until it was back (`returned`), or until it ended otherwise.

    `since`, `until`: numbers of the visits between which it lies (`until` None: a run, not a visit).
    """

    use: Use
    known: Known
    since: int
    until: int | None
    returned: bool


@dataclass(frozen=True, slots=True)
class History:
    """The case as proof looks at it: how it showed, and the visits at which a repair was done."""

    case: Case
    rules: Rules
    shown: tuple[Conditions, ...]
    repairs: tuple[int, ...]


def repairs(case: Case, rules: Rules) -> tuple[int, ...]:
    """Numbers of the visits with a job that renews or sets what can produce the complaint; if none, any such job.

    Work done before the complaint was there mended nothing of it.
    """
    visits = _with_the_complaint(case, rules)
    causes = set(rules.family_of(case.complaint).causes)
    touching = tuple(visit.number for visit in visits if any(_mends(o, causes) for o in _operations(visit, rules)))
    return touching or tuple(visit.number for visit in visits if _mends_anything(visit, rules))


def mended_at(case: Case, repair: int | None, rules: Rules) -> frozenset[CauseId]:
    """The causes that the jobs of this visit renew or set."""
    operations = (o for visit in case.visits if visit.number == repair for o in _operations(visit, rules))
    return frozenset(c for o in operations for c, effect in o.touches.items() if effect is not Effect.OPENS)


def _with_the_complaint(case: Case, rules: Rules) -> tuple[Visit, ...]:
    """The visits from the first at which the complaint is not said to have been absent."""
    began = (n for n, visit in enumerate(case.visits) if presence_at(visit, case, rules) is not Presence.ABSENT)
    return case.visits[next(began, len(case.visits)) :]


def _operations(visit: Visit, rules: Rules) -> Iterator[Operation]:
    return (rules.operations[job.operation] for job in visit.jobs if job.operation in rules.operations)


def _mends(operation: Operation, causes: Collection[CauseId] | None) -> bool:
    return any(
        effect is not Effect.OPENS and (causes is None or cause in causes)
        for cause, effect in operation.touches.items()
    )


def _mends_anything(visit: Visit, rules: Rules) -> bool:
    """A job that the rules do not know may have mended anything."""
    unknown = any(job.operation not in rules.operations for job in visit.jobs)
    return unknown or any(_mends(operation, None) for operation in _operations(visit, rules))


def waits(history: History) -> tuple[Wait, ...]:
    """Every wait known, in order of time. Each return counts once, by what is known of it most closely.

    Up to a visit the way to the workshop is in it, so that such a wait is rather too long than too short.
    """
    found: list[Wait] = []
    since: int | None = None
    for visit in history.case.visits:
        wait = _ended_by(visit, since, history)
        if wait is not None and not (not wait.returned and _stays_open(visit, history)):
            found.append(wait)
        if wait is not None and wait.returned:
            since = None
        if visit.number in history.repairs:
            back = _in_runs(visit, history)
            found.extend(back)
            since = None if back else visit.number
    return tuple(found)


def _stays_open(visit: Visit, history: History) -> bool:
    """A visit without the complaint ends nothing while no repair was done at it: the silence goes on."""
    return visit.number not in history.repairs


def _ended_by(visit: Visit, since: int | None, history: History) -> Wait | None:
    """What this visit says of the use before it: told, from clearing to the code, or from the repair."""
    there = presence_at(visit, history.case, history.rules)
    told = _told(visit, history)
    if there is Presence.PRESENT:
        cleared = _since_clearing(visit, history)
        between = {} if since is None else _between(history.case, since, visit.number)
        if told is not None:
            return Wait(told[1], Known.TOLD, told[0], visit.number, True)
        nearer = {m: min(u[m] for u in (cleared, between) if m in u) for m in Measure if m in cleared or m in between}
        known = Known.CLEARING if cleared else Known.VISITS
        start = visit.number if since is None else since
        return Wait(_whole(nearer), known, start, visit.number, True) if nearer else None
    if told is not None:
        return Wait(told[1], Known.TOLD, told[0], visit.number, False)
    if there is Presence.ABSENT and since is not None and (use := _between(history.case, since, visit.number)):
        return Wait(use, Known.VISITS, since, visit.number, False)
    return None


def _told(visit: Visit, history: History) -> tuple[int, Use] | None:
    """ "Absent for 5,000 km after that visit"."""
    for seen in visit.symptoms:
        told = seen.absent_for_km is not None and about_complaint(seen.symptom, history.case, history.rules)
        if told and seen.absent_for_km is not None and seen.after_visit is not None:
            return seen.after_visit, _whole({Measure.KM: seen.absent_for_km})
    return None


def presence_at(visit: Visit, case: Case, rules: Rules) -> Presence | None:
    """Whether the complaint was there at a visit, before its work; None: nobody says. One word for it is enough."""
    said = [s.presence for s in visit.symptoms if s.absent_for_km is None and about_complaint(s.symptom, case, rules)]
    said += [
        Presence.ABSENT if code.state is CodeState.ABSENT else Presence.PRESENT
        for code in visit.codes
        if code_of_complaint(code.code, case, rules) and not (code.state is CodeState.ABSENT and visit.cleared)
    ]
    return Presence.PRESENT if Presence.PRESENT in said else Presence.ABSENT if Presence.ABSENT in said else None


def code_of_complaint(code: str, case: Case, rules: Rules) -> bool:
    """Whether a trouble code stands for the complaint."""
    meanings = rules.meanings_of(code, case.vehicle.layout)
    return any(about_complaint(symptom, case, rules) for symptom, _ in meanings)


def _since_clearing(visit: Visit, history: History) -> Use:
    """Codes had been cleared and one that stands for the complaint is back; a permanent one is never cleared."""
    back = any(
        code.state in (CodeState.PENDING, CodeState.CONFIRMED)
        and code_of_complaint(code.code, history.case, history.rules)
        for code in visit.codes
    )
    if not back:
        return {}
    km = [cleared.km_ago for cleared in visit.cleared if cleared.km_ago is not None]
    days = [(visit.day - c.day).days for c in visit.cleared if c.day is not None and visit.day is not None]
    use = {Measure.KM: min(km)} if km else {}
    return use | ({Measure.DAYS: float(max(0, min(days)))} if days else {})


def _between(case: Case, earlier: int, later: int) -> Use:
    use = use_between(case, earlier, later)
    known = {} if use.km is None else {Measure.KM: use.km}
    return known | ({} if use.years is None else {Measure.DAYS: float(round(use.years * DAYS_A_YEAR))})


def _in_runs(visit: Visit, history: History) -> tuple[Wait, ...]:
    """The complaint came back in a run after this visit's repair: all use that counts, up to and with that run."""
    used = []
    for run in visit.runs:
        if run.came_back or counts(run, history.shown):
            used.append(use_of_run(run))
        if run.came_back:
            use = _whole(total(used))
            return (Wait(use, Known.RUNS, visit.number, None, True),) if use else ()
    return ()


def _whole(use: Use) -> Use:
    return {measure: max(LEAST, amount) for measure, amount in use.items()}


def known_in(measure: Measure, found: tuple[Wait, ...], shape: float) -> Waits:
    """The waits that are known in one measure."""
    uses = [(wait.use[measure], wait.returned) for wait in found if measure in wait.use]
    return Waits(
        tuple(max(LEAST, use) for use, returned in uses if returned),
        tuple(use for use, returned in uses if not returned),
        shape,
    )

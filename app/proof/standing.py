"""What the use since the repair proves, and how much more is needed. Numbers only; `sentences` puts them into words."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from app.evidence.case import Case, Presence, ProofRun, Visit
from app.evidence.moments import DAYS_A_YEAR, use_between
from app.proof.conditions import Conditions, counts, covers, shown_under
from app.proof.measures import Measure, Use, at_least, total, use_of_run
from app.proof.silence import (
    Waits,
    chance_silent,
    chance_silent_plug_in,
    chance_still_there,
    longest_mean_excluded,
    silent_chance_for,
    use_needed,
)
from app.proof.waits import History, Wait, known_in, presence_at, repairs, waits
from app.rules.library import Rules

LEVELS = (0.10, 0.05, 0.03, 0.01)
"""Chances that the fault is still there for which the use needed is listed."""

DEMONSTRATED = 0.95
"""Confidence of the statement made where no return is known (zero-failure demonstration)."""


class Verdict(StrEnum):
    """Where the proof stands by use alone; what the vehicle's own monitors say is looked at beside it."""

    NO_REPAIR = "no repair yet"
    CAME_BACK = "came back"
    NO_WAIT_KNOWN = "nothing to go by"
    NOT_YET = "not proven yet"
    PROVEN = "proven"


@dataclass(frozen=True, slots=True)
class Shown:
    """One measure: what the silent use proves in it.

    `returns`: how many waits end with the complaint; `longest`: the longest of them. `silent`: use so far that counts.
    `stays_silent`: P(silent so long | the fault is still there), gamma–Poisson; `plug_in`: the same with the rate taken
    as known. `still_there`: P(still there | silent so long), None where no prior is known. `needed`: use in all for the
    chance asked for, infinite where no use is enough; `levels`: other chances with the use they need.
    """

    measure: Measure
    returns: int
    longest: float
    silent: float
    stays_silent: float
    plug_in: float
    still_there: float | None
    needed: float
    levels: tuple[tuple[float, float], ...] = ()

    @property
    def missing(self) -> float:
        return max(0.0, self.needed - self.silent)


@dataclass(frozen=True, slots=True)
class Standing:
    """All that use proves. `repair`: the number of the visit of the last repair (None: none is on file).

    `by`: the measure that is known best first. `untried`: ways in which the fault showed that no use since the repair
    has covered. `excluded`: where no return is known, per measure the mean wait shown to be exceeded with 95 %.
    `worked`: the chance that the repair worked, before any use. `at_most`: the chance asked for.
    """

    repair: int | None
    verdict: Verdict
    waits: tuple[Wait, ...]
    shown: tuple[Conditions, ...]
    silent: Use
    counted: tuple[ProofRun, ...]
    not_counted: tuple[ProofRun, ...]
    by: tuple[Shown, ...]
    untried: tuple[Conditions, ...]
    excluded: Mapping[Measure, float]
    worked: float | None
    at_most: float

    @property
    def lead(self) -> Shown | None:
        return self.by[0] if self.by else None


def standing(case: Case, rules: Rules, worked: float | None, *, reproduced: Collection[str] = ()) -> Standing:
    """Where the proof of this case stands.

    `worked`: the chance that the repairs done have cured the complaint, as the board gives it for the case up to the
    last repair. `reproduced`: the conditions under which the complaint was brought about here.
    """
    shown = shown_under(case, rules, reproduced)
    history = History(case, rules, shown, repairs(case, rules))
    found = waits(history)
    if not history.repairs:
        at_most = rules.settings.proof_still_there_at_most
        return Standing(None, Verdict.NO_REPAIR, found, shown, {}, (), (), (), (), {}, worked, at_most)
    return _since(history, found, worked)


def _since(history: History, found: tuple[Wait, ...], worked: float | None) -> Standing:
    visit = next(v for v in history.case.visits if v.number == history.repairs[-1])
    settings = history.rules.settings
    counted = tuple(run for run in visit.runs if not run.came_back and counts(run, history.shown))
    silent = at_least(total(use_of_run(run) for run in counted), _quiet_use(visit, counted, history))
    back = came_back(history)
    by = _by_measure(found, silent, worked, settings.proof_wait_shape, settings.proof_still_there_at_most)
    untried = tuple(one for one in history.shown if not (_quiet_visits(visit, history) or _tried(one, counted)))
    return Standing(
        repair=visit.number,
        verdict=_verdict(back, by, untried),
        waits=found,
        shown=history.shown,
        silent=silent,
        counted=counted,
        not_counted=tuple(run for run in visit.runs if not run.came_back and run not in counted),
        by=by,
        untried=untried,
        excluded={} if by or back else {m: longest_mean_excluded(use, DEMONSTRATED) for m, use in silent.items()},
        worked=worked,
        at_most=settings.proof_still_there_at_most,
    )


def came_back(history: History) -> bool:
    """Whether the complaint was there again after the last repair: in a run, or at a later visit."""
    last = history.repairs[-1]
    later = [visit for visit in history.case.visits if visit.number > last]
    repaired = next(visit for visit in history.case.visits if visit.number == last)
    return any(run.came_back for run in repaired.runs) or any(
        presence_at(visit, history.case, history.rules) is Presence.PRESENT for visit in later
    )


def _tried(one: Conditions, counted: Iterable[ProofRun]) -> bool:
    return any(covers(run, one) for run in counted)


def _quiet_visits(repaired: Visit, history: History) -> list[Visit]:
    """Later visits to which the vehicle came without the complaint: it had been driven as usual."""
    case, rules = history.case, history.rules
    later = [visit for visit in case.visits if visit.number > repaired.number]
    return [visit for visit in later if presence_at(visit, case, rules) is Presence.ABSENT]


def _quiet_use(repaired: Visit, counted: Iterable[ProofRun], history: History) -> Use:
    """Use known by odometer and calendar: up to the last quiet visit, and the days of runs driven as usual."""
    km, days = 0.0, 0.0
    for visit in _quiet_visits(repaired, history):
        use = use_between(history.case, repaired.number, visit.number)
        km, days = max(km, use.km or 0.0), max(days, float(round((use.years or 0.0) * DAYS_A_YEAR)))
    for run in counted:
        if run.ordinary and run.day is not None and repaired.day is not None:
            days = max(days, float((run.day - repaired.day).days))
    known = {Measure.KM: km, Measure.DAYS: days}
    return {measure: amount for measure, amount in known.items() if amount > 0.0}


def _by_measure(
    found: tuple[Wait, ...], silent: Use, worked: float | None, shape: float, at_most: float
) -> tuple[Shown, ...]:
    """Every measure in which a return is known, the one with the most returns first."""
    shown = []
    for measure in Measure:
        known = known_in(measure, found, shape)
        use = silent.get(measure, 0.0)
        stays, plug_in = chance_silent(known, use), chance_silent_plug_in(known, use)
        if stays is None or plug_in is None:
            continue
        there = None if worked is None else chance_still_there(worked, stays)
        needed = {level: _needed(known, worked, level) for level in (*LEVELS, at_most)}
        shown.append(
            Shown(
                measure=measure,
                returns=known.count,
                longest=max(known.returns),
                silent=use,
                stays_silent=stays,
                plug_in=plug_in,
                still_there=there,
                needed=needed[at_most],
                levels=tuple((level, needed[level]) for level in LEVELS),
            )
        )
    return tuple(sorted(shown, key=lambda one: -one.returns))


def _needed(known: Waits, worked: float | None, at_most: float) -> float:
    """Use in all for a chance of at most so much; never less than the longest it has stayed away before."""
    asked = at_most if worked is None else silent_chance_for(worked, at_most)
    needed = use_needed(known, asked)
    return max(known.returns) if needed is None else max(needed, *known.returns)


def _verdict(back: bool, by: tuple[Shown, ...], untried: tuple[Conditions, ...]) -> Verdict:
    """Proven: silent as long as asked for, never less than the longest wait known, in every way the fault showed."""
    if back:
        return Verdict.CAME_BACK
    if not by:
        return Verdict.NO_WAIT_KNOWN
    return Verdict.PROVEN if by[0].missing <= 0.0 and not untried else Verdict.NOT_YET


def case_at_repair(case: Case, rules: Rules) -> Case | None:
    """The case as it stood after the last repair, before any use; None where no repair is on file."""
    done = repairs(case, rules)
    if not done:
        return None
    return Case(
        case.vehicle,
        case.complaint,
        case.complaint_place,
        tuple(visit for visit in case.visits if visit.number <= done[-1]),
        case.open_covers,
    )

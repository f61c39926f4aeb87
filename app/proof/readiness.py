"""What a scan after the repair says: it counts only for what a monitor has looked at since codes were cleared."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.evidence.case import Case, CodeState, MonitorState, ScanSeen
from app.proof.waits import code_of_complaint
from app.rules.library import Rules
from app.rules.monitors import Monitor, watcher_of


class Ran(StrEnum):
    """Whether the monitor behind the complaint has looked."""

    RAN = "has run"
    RUNS_ALWAYS = "works all the time"
    NOT_RUN = "has not run"
    NOT_THERE = "is not there"
    NOT_READ = "was not read"


class CodeSays(StrEnum):
    """What a code in a scan after the repair says of the repair."""

    SEEN_AGAIN = "seen again"
    BACK = "back"
    MAY_BE_OLD = "may be from before"
    ONLY_THE_VEHICLE = "only the vehicle clears it"


@dataclass(frozen=True, slots=True)
class MonitorSays:
    """One monitor behind the complaint, with the codes for which it stands."""

    monitor: Monitor
    codes: tuple[str, ...]
    ran: Ran


@dataclass(frozen=True, slots=True)
class CodeFound:
    """A code that stands for the complaint, found in the last scan after the repair."""

    code: str
    state: CodeState
    says: CodeSays


@dataclass(frozen=True, slots=True)
class Readiness:
    """What the vehicle's own monitors say. `scan`: the last one after the repair.

    `unwatched`: codes of the complaint that no monitor here stands behind. `by_code`: whether a code stood for the
    complaint in this case at all; only then is a scan part of the proof.
    """

    scan: ScanSeen | None
    monitors: tuple[MonitorSays, ...]
    codes: tuple[CodeFound, ...]
    unwatched: tuple[str, ...]
    by_code: bool

    @property
    def counts(self) -> bool:
        """Whether the last scan, without a code, speaks for the repair."""
        ran = all(one.ran in (Ran.RAN, Ran.RUNS_ALWAYS) for one in self.monitors)
        return self.scan is not None and bool(self.monitors) and ran and not self.codes

    @property
    def back(self) -> bool:
        """Whether a code says that the fault has been seen since the repair."""
        return any(found.says in (CodeSays.BACK, CodeSays.SEEN_AGAIN) for found in self.codes)


def readiness(case: Case, rules: Rules, repair: int) -> Readiness:
    """What scans after the repair at this visit say about the complaint."""
    scan = last_scan(case, repair)
    stored = _stored_codes(case, rules)
    asked = stored or _possible_codes(case, rules)
    behind: dict[str, list[str]] = {}
    unwatched = []
    for code in asked:
        monitor = watcher_of(code, fitting(case, rules))
        if monitor is None:
            unwatched.append(code)
        else:
            behind.setdefault(monitor.id, []).append(code)
    monitors = tuple(
        MonitorSays(rules.monitors[id], tuple(codes), _ran(rules.monitors[id], scan)) for id, codes in behind.items()
    )
    return Readiness(scan, monitors, _found(scan, case, rules), tuple(unwatched), bool(stored))


def fitting(case: Case, rules: Rules) -> tuple[Monitor, ...]:
    """The monitors that a vehicle of this build can have."""
    return tuple(monitor for monitor in rules.monitors.values() if monitor.fits_on(case.vehicle.layout))


def last_scan(case: Case, repair: int) -> ScanSeen | None:
    """The last scan recorded after the repair at this visit."""
    scans = [scan for visit in case.visits if visit.number >= repair for scan in visit.scans]
    return scans[-1] if scans else None


def _stored_codes(case: Case, rules: Rules) -> tuple[str, ...]:
    """The codes on the case's visits that stand for its complaint."""
    codes = (c.code for visit in case.visits for c in visit.codes if c.state is not CodeState.ABSENT)
    return tuple(dict.fromkeys(code for code in codes if code_of_complaint(code, case, rules)))


def _possible_codes(case: Case, rules: Rules) -> tuple[str, ...]:
    """The codes that could stand for it at its place, where none was stored."""
    layout = case.vehicle.layout
    return tuple(
        dict.fromkeys(
            pattern.code
            for pattern in rules.symptoms[case.complaint].codes
            for symptom, place in rules.meanings_of(pattern.code, layout)
            if symptom == case.complaint and layout.related(place, case.complaint_place)
        )
    )


def _ran(monitor: Monitor, scan: ScanSeen | None) -> Ran:
    state = None if scan is None else scan.monitors.get(monitor.id)
    match state:
        case None:
            return Ran.NOT_READ
        case MonitorState.COMPLETE:
            return Ran.RUNS_ALWAYS if monitor.continuous else Ran.RAN
        case MonitorState.NOT_COMPLETE:
            return Ran.NOT_RUN
        case MonitorState.NOT_SUPPORTED:
            return Ran.NOT_THERE


def _found(scan: ScanSeen | None, case: Case, rules: Rules) -> tuple[CodeFound, ...]:
    if scan is None:
        return ()
    return tuple(
        CodeFound(code, state, _says(state, scan.cleared))
        for code, state in scan.codes.items()
        if state is not CodeState.ABSENT and code_of_complaint(code, case, rules)
    )


def _says(state: CodeState, cleared: bool | None) -> CodeSays:
    """Two-drive-cycle logic; without clearing since the repair a code may be what is left from before."""
    if state is CodeState.PERMANENT:
        return CodeSays.ONLY_THE_VEHICLE
    if not cleared:
        return CodeSays.MAY_BE_OLD
    return CodeSays.SEEN_AGAIN if state is CodeState.PENDING else CodeSays.BACK

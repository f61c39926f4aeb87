"""The proof of a case, ready to show: what the use so far proves, what is still needed, and the forms."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.history.values import CaseOnFile, CaseState, EntryKind, Return
from app.proof.readiness import Readiness, fitting
from app.proof.sentences import level_in_words, needs, proves, scan_says, verdict, wait_in_words
from app.proof.standing import Standing
from app.rules.library import Rules
from app.rules.section import capital
from app.web.forms.proof_run_form import RunEntry
from app.web.forms.proof_scan_form import ScanEntry
from app.web.forms.proof_start_form import StartEntry
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.closing_page import cause_at
from app.web.views.entries import EntryView, EntryWords, moment


@dataclass(frozen=True, slots=True)
class LevelLine:
    chance: str
    in_all: str
    more: str


@dataclass(frozen=True, slots=True)
class WaitLine:
    use: str
    how: str


@dataclass(frozen=True, slots=True)
class MonitorLine:
    name: str
    kind: str
    state: str
    runs: str
    source: str


@dataclass(frozen=True, slots=True)
class CodeStateLine:
    word: str
    means: str
    goes: str
    source: str


@dataclass(frozen=True, slots=True)
class ProofView:
    """What is renewed when a run or a scan is recorded. `note`: address of the driver's note ("" where none helps)."""

    verdict: str
    state: str
    returns: tuple[str, ...]
    proves: tuple[str, ...]
    needs: tuple[str, ...]
    levels: tuple[LevelLine, ...]
    waits: tuple[WaitLine, ...]
    scan: tuple[str, ...]
    monitors: tuple[MonitorLine, ...]
    code_states: tuple[CodeStateLine, ...]
    entries: tuple[EntryView, ...]
    note: str


@dataclass(frozen=True, slots=True)
class RunForm:
    """`saved`: what was just recorded; `problems`: sentences that belong to no field."""

    action: str
    entry_id: str
    saved: str
    problems: tuple[str, ...]
    fields: RunEntry


@dataclass(frozen=True, slots=True)
class ScanForm:
    action: str
    entry_id: str
    saved: str
    problems: tuple[str, ...]
    fields: ScanEntry


@dataclass(frozen=True, slots=True)
class StartForm:
    """`fields` None: the case cannot go under proof now; `instead`: why, where its state does not say so.

    `theirs`: what somebody else made of it in the meantime. `left_open`: what is not put back or not ticked yet.
    """

    action: str
    entry_id: str
    theirs: str
    problems: tuple[str, ...]
    left_open: tuple[str, ...]
    putting_back: str
    fields: StartEntry | None
    instead: str
    close: str
    reopen: str
    version: str


@dataclass(frozen=True, slots=True)
class ProofPage:
    """`run`, `scan` and `start` are None where no repair is on file."""

    frame: Frame
    heading: str
    vehicle: str
    back: str
    live: str
    proof: ProofView
    run: RunForm | None
    scan: ScanForm | None
    start: StartForm | None


@dataclass(frozen=True, slots=True)
class Proven:
    """All that is worked out about a case's proof. `scan` None: no repair is on file."""

    standing: Standing
    scan: Readiness | None


def proof_view(scene: Scene, rules: Rules, proven: Proven, returns: Sequence[Return]) -> ProofView:
    standing, scan = proven.standing, proven.scan
    lead = standing.lead
    noted = standing.repair is not None and bool(needs(standing))
    return ProofView(
        verdict=verdict(standing, scan),
        state=state_in_words(scene.on_file, rules),
        returns=tuple(_returns(returns, scene, rules)),
        proves=proves(standing),
        needs=needs(standing),
        levels=tuple(LevelLine(*level_in_words(lead, *level)) for level in lead.levels) if lead and noted else (),
        waits=tuple(WaitLine(*wait_in_words(wait)) for wait in standing.waits),
        scan=() if scan is None else scan_says(scan),
        monitors=() if scan is None else tuple(_monitors(scene, rules, scan)),
        code_states=tuple(
            CodeStateLine(capital(word), one.means, one.goes, one.source) for word, one in rules.code_states.items()
        ),
        entries=_entries(scene, rules),
        note=f"/cases/{scene.on_file.id}/drivers-note" if noted else "",
    )


def state_in_words(on_file: CaseOnFile, rules: Rules) -> str:
    proof = on_file.proof
    believed = ""
    if proof is not None and proof.belief.cause and proof.belief.place:
        layout = on_file.vehicle.vehicle.layout
        believed = f" Believed mended: {cause_at(proof.belief.cause, proof.belief.place, rules, layout)}."
    match on_file.state:
        case CaseState.OPEN:
            return "The case is open."
        case CaseState.UNDER_PROOF:
            since = f"since {moment(proof.begun_at)}, {proof.begun_by}" if proof else ""
            return f"The case is under proof {since}.{believed}"
        case CaseState.CLOSED:
            return "The case is closed. A return opens it again."


def _returns(returns: Iterable[Return], scene: Scene, rules: Rules) -> Iterable[str]:
    """Each return that still stands, with the belief that it proves wrong."""
    layout = scene.on_file.vehicle.vehicle.layout
    struck = {e.id for visit in scene.timeline.visits for e in visit.entries if e.struck or visit.struck}
    for one in returns:
        if one.entry in struck:
            continue
        was = "under proof" if one.state is CaseState.UNDER_PROOF else "closed"
        said = f"It came back while the case was {was} ({moment(one.at)}, {one.by})."
        if one.cause and one.place:
            believed = cause_at(one.cause, one.place, rules, layout)
            yield f"{said} That “{believed}” was the whole cause, and was mended, proved wrong."
        else:
            yield f"{said} No cause had been named."


def _monitors(scene: Scene, rules: Rules, scan: Readiness) -> Iterable[MonitorLine]:
    """Monitors behind the complaint first, then whatever else was read."""
    read = scan.scan.monitors if scan.scan else {}
    behind = [one.monitor for one in scan.monitors]
    for monitor in (*behind, *(m for m in fitting(scene.case, rules) if m.id in read and m not in behind)):
        yield MonitorLine(
            name=capital(monitor.name),
            kind="continuous" if monitor.continuous else "once in a drive cycle, when its conditions are met",
            state=read[monitor.id].value if monitor.id in read else "not read",
            runs=monitor.runs,
            source=monitor.source,
        )


def _entries(scene: Scene, rules: Rules) -> tuple[EntryView, ...]:
    words = EntryWords(scene.on_file.vehicle.id, scene.around.layout, rules, cases={}, from_case=scene.on_file.id)
    return tuple(
        words.entry(entry)
        for visit in scene.timeline.visits
        for entry in visit.entries
        if entry.kind in (EntryKind.RUN, EntryKind.SCAN) and entry.at.case == scene.on_file.id and not visit.struck
    )

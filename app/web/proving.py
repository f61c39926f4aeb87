"""What every page of proof does: work out where the proof stands, and put the page together with its forms."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends

from app.history.ids import new_id
from app.history.values import CaseState
from app.proof.readiness import fitting, readiness
from app.proof.standing import Verdict, case_at_repair, standing
from app.proof.waits import mended_at, repairs
from app.web.forms.fields import NONE, Problems
from app.web.forms.proof_fields import AfterRepair
from app.web.forms.proof_run_form import RunSent, run_entry
from app.web.forms.proof_scan_form import ScanSent, scan_entry
from app.web.forms.proof_start_form import CAME_BACK, StartSent, start_entry
from app.web.given import CurrentRules, History, Now, Show
from app.web.recording import entry_id, names_in
from app.web.scene import LookAt, Scene
from app.web.views.case_page import complaint_name, vehicle_words
from app.web.views.entries import day_words
from app.web.views.proof_page import ProofPage, Proven, RunForm, ScanForm, StartForm, proof_view
from app.web.views.putting_back_page import left_open
from app.web.views.said import job_name
from app.web.who import Framed


@dataclass(frozen=True, slots=True)
class Proving:
    """What every page of proof needs besides its form."""

    history: History
    rules: CurrentRules
    look: LookAt
    show: Show
    framed: Framed
    now: Now

    def proven(self, scene: Scene) -> Proven:
        """Where the proof stands; the prior is the board's, for the case as it was after the last repair."""
        repaired = case_at_repair(scene.case, self.rules)
        worked = None if repaired is None else self.look.cured(repaired)
        under = scene.on_file.details.reproduced_conditions
        found = standing(scene.case, self.rules, worked, reproduced=under)
        scan = None if found.repair is None else readiness(scene.case, self.rules, found.repair)
        return Proven(found, scan)

    def about(self, scene: Scene, proven: Proven) -> AfterRepair:
        case, around = scene.case, scene.around
        behind = [] if proven.scan is None else [one.monitor for one in proven.scan.monitors]
        others = [monitor for monitor in fitting(case, self.rules) if monitor not in behind]
        done = [visit for visit in reversed(case.visits) if visit.number in repairs(case, self.rules)]
        words = {
            visit.entry: "; ".join(job_name(job, around.layout, self.rules) for job in visit.jobs) for visit in done
        }
        days = {visit.entry: day_words(visit.day) if visit.day else "day not known" for visit in done}
        options = tuple((id, f"{days[id]}: {words[id]}") for id in words)
        return AfterRepair(
            around=around,
            repairs=options,
            mended=mended_at(case, proven.standing.repair, self.rules),
            shown=proven.standing.shown,
            monitors=(*behind, *others),
            behind=len(behind),
            came_back=proven.standing.verdict is Verdict.CAME_BACK,
        )

    def page(
        self,
        scene: Scene,
        *,
        run: RunForm | None = None,
        scan: ScanForm | None = None,
        start: StartForm | None = None,
        live: str = "",
    ) -> ProofPage:
        """The page with these forms, and fresh ones for the rest; none where no repair is on file."""
        proven = self.proven(scene)
        about = self.about(scene, proven)
        some = bool(about.repairs)
        return ProofPage(
            frame=self.framed("Proof of repair"),
            heading=complaint_name(scene.on_file, self.rules),
            vehicle=vehicle_words(scene.on_file),
            back=f"/cases/{scene.on_file.id}",
            live=live,
            proof=proof_view(scene, self.rules, proven, self.history.returns(scene.on_file.id)),
            run=run or (self.run_form(scene, about, self.fresh_run()) if some else None),
            scan=scan or (self.scan_form(scene, about, self.fresh_scan()) if some else None),
            start=start or (self.start_form(scene, about, StartSent()) if some else None),
        )

    def fresh_run(self) -> RunSent:
        return RunSent(entry_id=new_id(self.now), day=self.now.astimezone().date().isoformat())

    def fresh_scan(self) -> ScanSent:
        return ScanSent(entry_id=new_id(self.now), day=self.now.astimezone().date().isoformat())

    def run_form(
        self,
        scene: Scene,
        about: AfterRepair,
        sent: RunSent,
        *,
        problems: Problems = NONE,
        saved: str = "",
    ) -> RunForm:
        fields = run_entry(sent, about, problems=problems, focus="distance" if saved else "")
        shown = {*names_in(fields), "outcome"}
        action = f"/cases/{scene.on_file.id}/proof/run"
        return RunForm(action, entry_id(sent, self.now), saved, problems.elsewhere(shown), fields)

    def scan_form(
        self,
        scene: Scene,
        about: AfterRepair,
        sent: ScanSent,
        *,
        problems: Problems = NONE,
        saved: str = "",
    ) -> ScanForm:
        fields = scan_entry(sent, about, problems=problems, focus="codes" if saved else "")
        action = f"/cases/{scene.on_file.id}/proof/scan"
        return ScanForm(action, entry_id(sent, self.now), saved, problems.elsewhere(names_in(fields)), fields)

    def start_form(
        self, scene: Scene, about: AfterRepair, sent: StartSent, *, problems: Problems = NONE, theirs: str = ""
    ) -> StartForm:
        on_file, here = scene.on_file, f"/cases/{scene.on_file.id}"
        fields = start_entry(sent, about, board=scene.board, version=on_file.version, problems=problems)
        return StartForm(
            action=f"{here}/proof/start",
            entry_id=entry_id(sent, self.now),
            theirs=theirs,
            problems=problems.elsewhere(names_in(fields)),
            left_open=left_open(scene, self.rules, self.history.put_back(on_file.id)),
            putting_back=f"{here}/putting-back",
            fields=fields if on_file.state is CaseState.OPEN and not about.came_back else None,
            instead=f"{CAME_BACK.sentence} {CAME_BACK.mend}" if about.came_back else "",
            close="" if on_file.state is CaseState.CLOSED else f"{here}/close",
            reopen="" if on_file.state is CaseState.OPEN else f"{here}/reopen",
            version=str(on_file.version),
        )


Prover = Annotated[Proving, Depends(Proving)]

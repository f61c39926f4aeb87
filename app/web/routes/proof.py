"""Proof of repair: what the use proves and still needs, runs and scans, going under proof, the driver's note."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Annotated

from fastapi import APIRouter, Form, Response

from app.board.as_json import board_as_json
from app.history.desk import Desk
from app.history.errors import Changed
from app.history.values import At, Belief, CaseOnFile, CaseState, SnapshotWhy
from app.problem import Problem, Refused
from app.proof.standing import case_at_repair
from app.web.forms.fields import NONE, Problems
from app.web.forms.proof_run_form import RunSent, read_run
from app.web.forms.proof_scan_form import ScanSent, read_scan
from app.web.forms.proof_start_form import StartSent, read_start
from app.web.forms.void_form import version_of
from app.web.given import OnFile
from app.web.proving import Prover, Proving
from app.web.recording import entry_id
from app.web.scene import Scene
from app.web.views.drivers_note import drivers_note
from app.web.views.proof_page import state_in_words
from app.web.views.said import say, sentence
from app.web.who import Person

router = APIRouter()
RENEWED = ("proof", "proof_start", "live")
NO_REPAIR = Problems([Problem("repair", "No repair is on file for this case.", "Record the job first.")])


@router.get("/cases/{case_id}/proof")
def show_proof(case_id: OnFile, prover: Prover) -> Response:
    return prover.show("proof", prover.page(prover.look(case_id)))


@router.get("/cases/{case_id}/drivers-note")
def show_note(case_id: OnFile, prover: Prover) -> Response:
    scene = prover.look(case_id)
    found = prover.proven(scene).standing
    frame = prover.framed("Note for the driver")
    return prover.show("drivers_note", drivers_note(frame, scene, prover.rules, standing=found, now=prover.now))


@router.post("/cases/{case_id}/proof/run")
def record_run(case_id: OnFile, sent: Annotated[RunSent, Form()], prover: Prover, person: Person) -> Response:
    scene = prover.look(case_id)
    about = prover.about(scene, prover.proven(scene))
    read = read_run(sent, about, now=prover.now) if about.repairs else NO_REPAIR
    problems = read if isinstance(read, Problems) else NONE
    if not isinstance(read, Problems):
        run, visit = replace(read[0], entry=entry_id(sent, prover.now)), read[1]
        today = prover.now.astimezone().date()
        problems = _write(prover, person, lambda desk: desk.record_run(At(visit, case_id), run, today=today))
        if not problems:
            said = f"Recorded: {sentence(say(run, scene.around.layout, prover.rules))}"
            return _saved(prover, case_id, "proof_run", said)
    form = prover.run_form(scene, about, sent, problems=problems)
    return prover.show("proof", prover.page(scene, run=form), part="proof_run", status=422)


@router.post("/cases/{case_id}/proof/scan")
def record_scan(case_id: OnFile, sent: Annotated[ScanSent, Form()], prover: Prover, person: Person) -> Response:
    scene = prover.look(case_id)
    about = prover.about(scene, prover.proven(scene))
    read = read_scan(sent, about, now=prover.now) if about.repairs else NO_REPAIR
    problems = read if isinstance(read, Problems) else NONE
    if not isinstance(read, Problems):
        scan, visit = replace(read[0], entry=entry_id(sent, prover.now)), read[1]
        today = prover.now.astimezone().date()
        problems = _write(prover, person, lambda desk: desk.record_scan(At(visit, case_id), scan, today=today))
        if not problems:
            said = f"Recorded: {sentence(say(scan, scene.around.layout, prover.rules))}"
            return _saved(prover, case_id, "proof_scan", said)
    form = prover.scan_form(scene, about, sent, problems=problems)
    return prover.show("proof", prover.page(scene, scan=form), part="proof_scan", status=422)


def _write(prover: Proving, person: Person, file: Callable[[Desk], object]) -> Problems:
    """File it; what the history refuses comes back as problems of the form."""
    try:
        with prover.history.write(person, prover.now) as desk:
            file(desk)
    except Refused as refusal:
        return Problems(refusal.problems)
    return NONE


def _saved(prover: Proving, case_id: str, part: str, said: str) -> Response:
    """The fresh form, and what the proof says now."""
    after = prover.look(case_id)
    about = prover.about(after, prover.proven(after))
    run = prover.run_form(after, about, prover.fresh_run(), saved=said) if part == "proof_run" else None
    scan = prover.scan_form(after, about, prover.fresh_scan(), saved=said) if part == "proof_scan" else None
    page = prover.page(after, run=run, scan=scan, live=said)
    return prover.show.saved("proof", page, part=part, also=RENEWED, to=f"/cases/{case_id}/proof")


@router.post("/cases/{case_id}/proof/start")
def start(case_id: OnFile, sent: Annotated[StartSent, Form()], prover: Prover, person: Person) -> Response:
    scene = prover.look(case_id)
    about = prover.about(scene, prover.proven(scene))
    repaired = case_at_repair(scene.case, prover.rules)
    if repaired is None:
        return prover.show("proof", prover.page(scene), part="proof_start", status=422)
    read = read_start(sent, about, board=scene.board, worked=prover.look.cured(repaired))
    problems, theirs = (read if isinstance(read, Problems) else NONE), ""
    if not isinstance(read, Problems):
        try:
            problems = _write(prover, person, partial(_file_start, scene, sent, read, entry_id(sent, prover.now)))
        except Changed as changed:
            scene, theirs = prover.look(case_id), _theirs(changed, prover)
            sent = sent.model_copy(update={"version": str(scene.on_file.version)})
        if not problems and not theirs:
            return prover.show.moved(f"/cases/{case_id}/proof")
    form = prover.start_form(scene, about, sent, problems=problems, theirs=theirs)
    page = prover.page(scene, start=form)
    return prover.show("proof", page, part="proof_start", status=409 if theirs else 422)


def _file_start(scene: Scene, sent: StartSent, belief: Belief, id: str, desk: Desk) -> None:
    """Under proof, with the board as it stood; the same form sent twice keeps no second board."""
    case_id, before = scene.on_file.id, scene.on_file.state
    desk.start_proof(case_id, version_of(sent.version), belief=belief, entry_id=id)
    if before is CaseState.OPEN:
        desk.snapshot(
            case_id,
            SnapshotWhy.DECISION,
            rules_version=scene.board.rules_version,
            board=board_as_json(scene.board),
        )


def _theirs(changed: Changed, prover: Proving) -> str:
    """What somebody else made of the case since the form was shown."""
    current = changed.current
    if isinstance(current, CaseOnFile):
        return state_in_words(current, prover.rules)
    return "The case itself was changed; look at the board, then decide."

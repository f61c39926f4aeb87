"""Recording: results, symptoms, codes, codes cleared, jobs, duties, and what is open now."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import Annotated, TypeVar
from uuid import UUID, uuid5

from fastapi import APIRouter, Form, Response

from app.evidence.case import CodesCleared, CodeSeen, DefectSeen, DutyDone, Job, Result, SymptomSeen
from app.history.desk import Desk
from app.history.errors import Changed
from app.history.values import At, CaseOnFile
from app.problem import Problem
from app.web.forms.closing_form import CoversSent, covers_entry, read_covers
from app.web.forms.code_form import ClearedSent, CodeSent, cleared_entry, code_entry, read_cleared, read_code
from app.web.forms.defect_form import DefectSent, defect_entry, knows_kind, read_defect
from app.web.forms.evidence_fields import About, EvidenceSent, Known
from app.web.forms.fields import LONGEST_LINE, NONE, Problems
from app.web.forms.first_form import FirstSent, first_entry, in_words, read_first
from app.web.forms.job_form import (
    DutySent,
    JobSent,
    duty_entry,
    job_entry,
    job_on_file,
    knows_operation,
    read_duty,
    read_job,
)
from app.web.forms.result_form import Recorded, ResultSent, knows_test, read_result, result_entry
from app.web.forms.symptom_form import SymptomSent, knows_symptom, read_symptom, symptom_entry
from app.web.forms.void_form import version_of
from app.web.given import OnFile
from app.web.photos import Photos, SentPhoto, kept
from app.web.recording import Recorder, entry_id
from app.web.scene import Scene
from app.web.views.entry_view import OpenForm
from app.web.views.pick_list import pick_list
from app.web.views.said import say, sentence

router = APIRouter()
OneSaid = TypeVar("OneSaid", SymptomSeen, CodeSeen, CodesCleared, Job, DutyDone, DefectSeen)


def opened(kind: str, chosen: Mapping[str, str], scene: Scene) -> OpenForm:
    """The form of this kind as it is first shown; where something must be chosen first, the list to choose from."""
    around = scene.around
    match kind:
        case "result" if knows_test(sent := ResultSent.model_validate(dict(chosen)), around):
            return OpenForm(result=result_entry(sent, around))
        case "symptom" if knows_symptom(seen := SymptomSent.model_validate(dict(chosen)), around):
            return OpenForm(symptom=symptom_entry(seen, around))
        case "job" if knows_operation(job := JobSent.model_validate(dict(chosen)), around):
            return OpenForm(job=job_entry(job, around))
        case "duty" if job_on_file(chosen.get("job", ""), around):
            return OpenForm(duty=duty_entry(DutySent(job=chosen["job"]), around))
        case "defect" if knows_kind(found := DefectSent.model_validate(dict(chosen)), around):
            return OpenForm(defect=defect_entry(found, around))
        case "code":
            return OpenForm(code=code_entry(CodeSent(), around))
        case "cleared":
            return OpenForm(cleared=cleared_entry(ClearedSent(), around))
        case "covers":
            return OpenForm(covers=covers_entry(CoversSent(), scene.on_file, around, shown=False))
        case "first":
            return OpenForm(first=first_entry(None, scene.on_file, around.rules))
        case "result" | "symptom" | "job" | "duty" | "defect":
            by = entry.id if (entry := job_on_file(chosen.get("job", ""), around)) else ""
            typed = chosen.get("q", "")[:LONGEST_LINE]
            return OpenForm(pick=pick_list(kind, around, scene.board, typed=typed, job=by))
        case _:
            return OpenForm()


@router.post("/cases/{case_id}/result")
def record_result(case_id: OnFile, sent: Annotated[ResultSent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id)
    if not knows_test(sent, scene.around):
        return recorder.unchosen(scene, "result", opened("result", {}, scene))
    read = read_result(sent, scene.around)
    problems = (
        read
        if isinstance(read, Problems)
        else recorder.write(partial(_file_results, read, case_id, entry_id(sent, recorder.now)))
    )
    if problems or isinstance(read, Problems):
        found = problems or NONE
        form = OpenForm(result=result_entry(sent, scene.around, problems=found))
        return recorder.refused(scene, "result", form=form, problems=found, sent=sent)
    said = _said(read.results, scene.around)
    return recorder.saved(scene, "result", said=said, next_form=lambda after: _next_result(sent, read, after))


def _file_results(recorded: Recorded, case_id: str, first_id: str, desk: Desk) -> None:
    """One entry per place; the ids of the further ones follow from the form's, so that they too are recorded once."""
    at = At(recorded.visit, case_id)
    for number, result in enumerate(recorded.results):
        id = first_id if number == 0 else str(uuid5(UUID(first_id), result.place))
        desk.record_result(at, replace(result, entry=id), minutes=recorded.minutes if number == 0 else None)


def _said(results: tuple[Result, ...], around: About) -> str:
    normal = around.rules.tests[results[0].test].normal_word
    others = f" The other {len(results) - 1} places: {normal}." if len(results) > 1 else ""
    return f"Recorded: {sentence(say(results[0], around.layout, around.rules))}{others}"


def _next_result(sent: ResultSent, recorded: Recorded, after: Scene) -> OpenForm:
    """The same test at the next place, its limits kept; the list of tests when all its places have been done."""
    test = after.around.rules.tests[recorded.results[0].test]
    places = after.around.layout.places(test.at)
    last = recorded.results[0].place
    if len(recorded.results) > 1 or last == places[-1]:
        return opened("result", {}, after)
    kept = {
        name: getattr(sent, name)
        for name in ("test", "unit", "low", "high", "limits_from", "visit", "source", "after_work")
    }
    situations = {f"situation_{id}": answer for id, answer in sent.extra("situation_").items()}
    return opened("result", {**kept, **situations, "place": places[places.index(last) + 1]}, after)


@router.post("/cases/{case_id}/symptom")
def record_symptom(case_id: OnFile, sent: Annotated[SymptomSent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id)
    if not knows_symptom(sent, scene.around):
        return recorder.unchosen(scene, "symptom", opened("symptom", {}, scene))
    return _record(
        recorder,
        scene,
        sent,
        read=read_symptom(sent, scene.around),
        kind="symptom",
        form=lambda problems: OpenForm(symptom=symptom_entry(sent, scene.around, problems=problems)),
        file=lambda desk, at, said, _: desk.record_symptom(at, said),
    )


@router.post("/cases/{case_id}/code")
def record_code(case_id: OnFile, sent: Annotated[CodeSent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id)
    return _record(
        recorder,
        scene,
        sent,
        read=read_code(sent, scene.around),
        kind="code",
        form=lambda problems: OpenForm(code=code_entry(sent, scene.around, problems=problems)),
        file=lambda desk, at, said, _: desk.record_code(at, said),
    )


@router.post("/cases/{case_id}/cleared")
def record_cleared(case_id: OnFile, sent: Annotated[ClearedSent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id)
    return _record(
        recorder,
        scene,
        sent,
        read=read_cleared(sent, scene.around, now=recorder.now),
        kind="cleared",
        form=lambda problems: OpenForm(cleared=cleared_entry(sent, scene.around, problems=problems)),
        file=lambda desk, at, said, known: desk.record_cleared(at, said, source=known.source),
    )


@router.post("/cases/{case_id}/job")
def record_job(case_id: OnFile, sent: Annotated[JobSent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id)
    if not knows_operation(sent, scene.around):
        return recorder.unchosen(scene, "job", opened("job", {}, scene))
    return _record(
        recorder,
        scene,
        sent,
        read=read_job(sent, scene.around),
        kind="job",
        form=lambda problems: OpenForm(job=job_entry(sent, scene.around, problems=problems)),
        file=lambda desk, at, said, known: desk.record_job(at, said, minutes=known.minutes),
    )


@router.post("/cases/{case_id}/duty")
def record_duty(case_id: OnFile, sent: Annotated[DutySent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id)
    if job_on_file(sent.job, scene.around) is None:
        return recorder.unchosen(scene, "duty", opened("duty", {}, scene))
    return _record(
        recorder,
        scene,
        sent,
        read=read_duty(sent, scene.around),
        kind="duty",
        form=lambda problems: OpenForm(duty=duty_entry(sent, scene.around, problems=problems)),
        file=lambda desk, at, said, _: desk.record_duty(at, sent.job, said),
    )


@router.post("/cases/{case_id}/defect")
def record_defect(
    case_id: OnFile, sent: Annotated[DefectSent, Form()], recorder: Recorder, photos: Photos, photo: SentPhoto
) -> Response:
    scene = recorder.look(case_id)
    if not knows_kind(sent, scene.around):
        return recorder.unchosen(scene, "defect", opened("defect", {}, scene))
    picture = kept(photo, sent.picture, photos)
    sent = sent.model_copy(update={"picture": "" if isinstance(picture, Problem) else picture})
    return _record(
        recorder,
        scene,
        sent,
        read=_with_photo(read_defect(sent, scene.around), picture),
        kind="defect",
        form=lambda problems: OpenForm(defect=defect_entry(sent, scene.around, problems=problems)),
        file=lambda desk, at, said, _: desk.record_defect(at, said, job_id=sent.job or None),
    )


def _with_photo(
    read: tuple[DefectSeen, Known] | Problems, picture: str | Problem
) -> tuple[DefectSeen, Known] | Problems:
    if isinstance(picture, Problem):
        return Problems([*read, picture] if isinstance(read, Problems) else [picture])
    return read if isinstance(read, Problems) else (replace(read[0], photo=picture), read[1])


@router.post("/cases/{case_id}/covers")
def record_covers(case_id: OnFile, sent: Annotated[CoversSent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id)
    covers = read_covers(sent, scene.around)
    try:
        recorder.write(lambda desk: desk.set_open_covers(case_id, version_of(sent.version), covers=covers))
    except Changed:
        now = recorder.look(case_id)
        theirs = covers_in_words(now.on_file, scene.around)
        form = OpenForm(covers=covers_entry(sent, now.on_file, scene.around, shown=True, theirs=theirs))
        return recorder.refused(scene, "covers", form=form, problems=NONE, sent=sent, status=409)
    return recorder.saved(
        scene, "covers", said="Recorded what is off or open.", next_form=lambda after: opened("covers", {}, after)
    )


@router.post("/cases/{case_id}/first")
def record_first(case_id: OnFile, sent: Annotated[FirstSent, Form()], recorder: Recorder) -> Response:
    scene = recorder.look(case_id)
    details = read_first(sent, scene.on_file.details, recorder.rules)
    if isinstance(details, Problems):
        form = OpenForm(first=first_entry(sent, scene.on_file, recorder.rules, problems=details))
        return recorder.refused(scene, "first", form=form, problems=details, sent=sent)
    try:
        recorder.write(lambda desk: desk.change_case(case_id, version_of(sent.version), details=details))
    except Changed:
        now = recorder.look(case_id)
        theirs = in_words(now.on_file.details)
        form = OpenForm(first=first_entry(sent, now.on_file, recorder.rules, theirs=theirs))
        return recorder.refused(now, "first", form=form, problems=NONE, sent=sent, status=409)
    return recorder.saved(
        scene, "first", said="Recorded the answers.", next_form=lambda after: opened("first", {}, after)
    )


def covers_in_words(on_file: CaseOnFile, around: About) -> str:
    names = [around.rules.covers[cover].name for cover in on_file.details.open_covers if cover in around.rules.covers]
    return ", ".join(names) or "nothing is off or open"


def _record(
    recorder: Recorder,
    scene: Scene,
    sent: EvidenceSent,
    *,
    read: tuple[OneSaid, Known] | Problems,
    kind: str,
    form: Callable[[Problems], OpenForm],
    file: Callable[[Desk, At, OneSaid, Known], object],
) -> Response:
    """One entry of any kind: refused with its form, or filed and answered with the renewed board."""
    if isinstance(read, Problems):
        return recorder.refused(scene, kind, form=form(read), problems=read, sent=sent)
    said, known = replace(read[0], entry=entry_id(sent, recorder.now)), read[1]
    problems = recorder.write(lambda desk: file(desk, At(known.visit, scene.on_file.id), said, known))
    if problems:
        return recorder.refused(scene, kind, form=form(problems), problems=problems, sent=sent)
    words = f"Recorded: {sentence(say(said, scene.around.layout, scene.around.rules))}"
    return recorder.saved(scene, kind, said=words, next_form=lambda after: opened(kind, {}, after))

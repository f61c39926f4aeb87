"""Closing and reopening a case; closed cases; the boards kept for one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Form, Response

from app.board.as_json import board_as_json
from app.history.desk import Desk
from app.history.errors import Changed
from app.history.ids import new_id
from app.history.values import CaseOnFile, CaseState, Closing, SnapshotWhy, Spent
from app.problem import Refused
from app.rules.library import Rules
from app.web.forms.closing_form import ClosingSent, closing_fields, read_closing
from app.web.forms.fields import NONE, Problems
from app.web.forms.void_form import VoidSent, version_of
from app.web.given import CurrentRules, History, Now, OnFile, Show
from app.web.recording import entry_id, names_in
from app.web.scene import LookAt, Scene
from app.web.showing import Frame
from app.web.views.case_page import complaint_name
from app.web.views.closing_page import ClosePage, EndWords, closed_page, snapshots_page
from app.web.views.putting_back_page import left_open
from app.web.views.standing import spent_in_words
from app.web.who import Framed, Person

router = APIRouter()
MOST_LISTED = 50


@router.get("/cases/{case_id}/close")
def ask(
    case_id: OnFile, look: LookAt, history: History, rules: CurrentRules, show: Show, framed: Framed, now: Now
) -> Response:
    scene = look(case_id)
    left = left_open(scene, rules, history.put_back(case_id))
    asked = _Asked(scene, history.spent(case_id), left)
    return show("close", _page(framed("Close the case"), asked, rules, sent=ClosingSent(), id=new_id(now)))


@router.post("/cases/{case_id}/close")
def close(
    case_id: OnFile,
    sent: Annotated[ClosingSent, Form()],
    look: LookAt,
    history: History,
    rules: CurrentRules,
    show: Show,
    framed: Framed,
    person: Person,
    now: Now,
) -> Response:
    scene = look(case_id)
    current = version_of(sent.version) == scene.on_file.version
    left = (
        left_open(scene, rules, history.put_back(case_id)) if current else ()
    )  # what came since is shown before it is asked about
    closing = read_closing(sent, scene.around, board=scene.board, left_open=left)
    problems, theirs = (closing if isinstance(closing, Problems) else NONE), ""
    if not isinstance(closing, Problems):
        try:
            with history.write(person, now) as desk:
                _file(desk, scene, closing, sent=sent, id=entry_id(sent, now))
            return show.moved(f"/cases/{case_id}/snapshots")
        except Refused as refusal:
            problems = Problems(refusal.problems)
        except Changed as changed:
            scene = look(case_id)
            theirs = _theirs(changed, scene, rules)
    asked = _Asked(scene, history.spent(case_id), left_open(scene, rules, history.put_back(case_id)))
    id = entry_id(sent, now)
    page = _page(framed("Close the case"), asked, rules, sent=sent, id=id, problems=problems, theirs=theirs)
    return show("close", page, part="close", status=409 if theirs else 422)


def _file(desk: Desk, scene: Scene, closing: Closing, *, sent: ClosingSent, id: str) -> None:
    """Close the case and keep the board as it stood; the same form sent twice keeps no second board."""
    case_id = scene.on_file.id
    desk.close_case(case_id, version_of(sent.version), closing=closing, entry_id=id)
    if scene.on_file.state is not CaseState.CLOSED:
        desk.snapshot(
            case_id,
            SnapshotWhy.CLOSING,
            rules_version=scene.board.rules_version,
            board=board_as_json(scene.board),
            minutes=closing.minutes,
        )


@router.post("/cases/{case_id}/reopen")
def reopen(
    case_id: OnFile, sent: Annotated[VoidSent, Form()], history: History, show: Show, person: Person, now: Now
) -> Response:
    with history.write(person, now) as desk:
        desk.reopen_case(case_id, version_of(sent.version), why=sent.why.strip()[:500] or "reopened")
    return show.moved(f"/cases/{case_id}")


@router.get("/closed")
def closed(history: History, rules: CurrentRules, show: Show, framed: Framed) -> Response:
    cases = history.recent_cases(MOST_LISTED, state=CaseState.CLOSED)
    return show(
        "closed", closed_page(framed("Closed cases"), [(c, history.timeline(c.vehicle.id)) for c in cases], rules)
    )


@router.get("/cases/{case_id}/snapshots")
def kept(case_id: OnFile, history: History, rules: CurrentRules, show: Show, framed: Framed) -> Response:
    on_file = history.case_on_file(case_id)
    timeline = history.timeline(on_file.vehicle.id)
    page = snapshots_page(
        framed("The board over time"),
        on_file,
        timeline=timeline,
        snapshots=history.snapshots(case_id),
        spent=history.spent(case_id),
        rules=rules,
    )
    return show("snapshots", page)


@dataclass(frozen=True, slots=True)
class _Asked:
    """What the form is shown with: the case, what was spent on it, and what is still open on this visit."""

    scene: Scene
    spent: Spent
    left: Sequence[str]


def _page(
    frame: Frame,
    asked: _Asked,
    rules: Rules,
    *,
    sent: ClosingSent,
    id: str,
    problems: Problems = NONE,
    theirs: str = "",
) -> ClosePage:
    scene = asked.scene
    version = scene.on_file.version
    fresh = sent.model_copy(update={"version": str(version)}) if theirs else sent
    fields = closing_fields(
        fresh,
        scene.around,
        board=scene.board,
        version=version,
        left_open=asked.left,
        problems=problems,
        believed=_believed(scene),
    )
    back = f"/cases/{scene.on_file.id}"
    return ClosePage(
        frame=frame,
        heading=complaint_name(scene.on_file, rules),
        back=back,
        action=f"{back}/close",
        putting_back=f"{back}/putting-back",
        theirs=theirs,
        problems=problems.elsewhere(names_in(fields)),
        fields=fields,
        spent=spent_in_words(asked.spent),
        entry_id=id,
    )


def _believed(scene: Scene) -> str:
    """The cause that the case went under proof with, as an option of the form."""
    belief = scene.on_file.proof.belief if scene.on_file.proof else None
    return f"{belief.cause}@{belief.place}" if belief and belief.cause else ""


def _theirs(changed: Changed, scene: Scene, rules: Rules) -> str:
    """What somebody else made of the case since the form was shown."""
    current = changed.current
    if isinstance(current, CaseOnFile) and current.closing is not None:
        ended = EndWords(rules).ended(current.closing, scene.timeline)
        return f"{ended.cause}. {ended.by}."
    return "The case itself was changed; look at the board, then decide."

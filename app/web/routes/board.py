"""The case board, its JSON, one test's marks with their reasons, and the half-page for the advisor."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request, Response
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException

from app.board.advice_as_json import advice_as_json
from app.board.as_json import board_as_json
from app.history.ids import new_id
from app.rules.words import TestId
from app.web.given import CurrentRules, History, Now, OnFile, Show
from app.web.routes.record import opened
from app.web.scene import LookAt, Scene
from app.web.showing import PLAIN
from app.web.views.advice_view import AdvicePage, advice_view
from app.web.views.board_view import changed
from app.web.views.case_page import NOTHING_CHANGED, case_page, complaint_name
from app.web.views.entry_view import KINDS, OpenForm, entry_form
from app.web.views.matrix import MatrixPage, matrix_view
from app.web.views.standing import standing_page
from app.web.views.test_page import test_page
from app.web.who import Framed

router = APIRouter()
Word = Annotated[str, Query(max_length=100)]


@router.get("/cases/{case_id}")
def show_board(
    request: Request,
    case_id: OnFile,
    look: LookAt,
    rules: CurrentRules,
    show: Show,
    framed: Framed,
    now: Now,
    record: Word = "",
) -> Response:
    scene = look(case_id)
    if _wants_json(request):
        return as_json(scene, look)
    kind = record if record in dict(KINDS) else ""
    form = opened(kind, dict(request.query_params), scene)
    entry = entry_form(case_id, kind, form=form, entry_id=new_id(now))
    part = "pick_found" if form.pick and "q" in request.query_params else "entry"
    return show("board", case_page(framed(complaint_name(scene.on_file, rules)), scene, rules, entry=entry), part=part)


@router.get("/cases/{case_id}/ahead")
def show_ahead(
    case_id: OnFile, look: LookAt, rules: CurrentRules, show: Show, framed: Framed, now: Now, since: Word = ""
) -> Response:
    """The whole board, for a page that was answered with the ranking alone; what changed is told against `since`."""
    scene = look(case_id)
    before = look.before(since)
    moved = changed(before, scene.board) if before is not None else NOTHING_CHANGED
    entry = entry_form(case_id, "", form=OpenForm(), entry_id=new_id(now))
    page = case_page(framed(complaint_name(scene.on_file, rules)), scene, rules, entry=entry, moved=moved)
    return show("board", page, part="board")


@router.get("/cases/{case_id}/board.json")
def show_json(case_id: OnFile, look: LookAt) -> Response:
    return as_json(look(case_id), look)


@router.get("/cases/{case_id}/tests/{test_id}")
def show_test(
    case_id: OnFile,
    test_id: Annotated[str, Path(max_length=100)],
    look: LookAt,
    rules: CurrentRules,
    show: Show,
    framed: Framed,
) -> Response:
    scene = look(case_id)
    test = rules.tests.get(TestId(test_id))
    if test is None:
        raise HTTPException(404)
    return show("test", test_page(framed(test.name), scene, rules, test=test, matrix=look.matrix(scene)))


@router.get("/cases/{case_id}/advice")
def show_advice(case_id: OnFile, look: LookAt, rules: CurrentRules, show: Show, framed: Framed) -> Response:
    scene = look(case_id)
    page = AdvicePage(
        frame=framed("The next step by expected cost"),
        back=f"/cases/{case_id}",
        back_words=complaint_name(scene.on_file, rules),
        advice=advice_view(look.advice(scene), scene, rules),
    )
    return show("advice", page, part="advice")


@router.get("/cases/{case_id}/matrix")
def show_matrix(case_id: OnFile, look: LookAt, rules: CurrentRules, show: Show, framed: Framed) -> Response:
    scene = look(case_id)
    page = MatrixPage(
        frame=framed("What each test can do now"),
        back=f"/cases/{case_id}",
        back_words=complaint_name(scene.on_file, rules),
        matrix=matrix_view(scene.board, look.matrix(scene), scene.around.layout, case_id),
    )
    return show("matrix", page, part="matrix")


@router.get("/cases/{case_id}/where-we-stand")
def show_where_we_stand(
    case_id: OnFile, look: LookAt, history: History, rules: CurrentRules, show: Show, framed: Framed, now: Now
) -> Response:
    scene = look(case_id)
    page = standing_page(framed("Where we stand"), scene, rules, spent=history.spent(case_id), now=now)
    return show("where_we_stand", page)


def as_json(scene: Scene, look: LookAt) -> Response:
    whole = {**board_as_json(scene.board), "advice": advice_as_json(look.advice(scene))}
    return JSONResponse(whole, headers=PLAIN)


def _wants_json(request: Request) -> bool:
    accept = request.headers.get("accept", "")
    return "application/json" in accept and "text/html" not in accept

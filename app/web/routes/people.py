"""Who is working: a name is chosen, or a new one added. No password yet."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Query, Response

from app.history.ids import new_id
from app.history.values import PROGRAM, Role
from app.problem import Problem, Refused
from app.web.forms.evidence_fields import one_of
from app.web.forms.fields import Problems
from app.web.given import History, Now, Show
from app.web.recording import entry_id
from app.web.views.who_page import WhoSent, name_problems, safe_back, who_page
from app.web.who import COOKIE, Framed

router = APIRouter()
A_YEAR = 365 * 24 * 3600


@router.get("/who")
def choose(
    history: History, show: Show, framed: Framed, now: Now, back: Annotated[str, Query(max_length=500)] = "/"
) -> Response:
    return show(
        "who", who_page(framed("Who is working?"), history.people(), sent=WhoSent(back=back), entry_id=new_id(now))
    )


@router.post("/who")
def chosen(sent: Annotated[WhoSent, Form()], history: History, show: Show, framed: Framed, now: Now) -> Response:
    person = sent.person or _added(sent, history, now)
    problems = person if isinstance(person, Problems) else _unknown(person, history)
    if problems or isinstance(person, Problems):
        page = who_page(framed("Who is working?"), history.people(), sent=sent, entry_id=new_id(now), problems=problems)
        return show("who", page, status=422)
    response = show.moved(safe_back(sent.back))
    response.set_cookie(COOKIE, person, max_age=A_YEAR, httponly=True, samesite="lax")
    return response


def _added(sent: WhoSent, history: History, now: Now) -> str | Problems:
    """The id of the new person, added by the program itself: somebody must be the first."""
    problems = name_problems(sent)
    role = one_of(Role, sent.role)
    if problems or role is None:
        return problems or Problems([Problem("role", "The role is missing.", "Choose one.")])
    try:
        with history.write(PROGRAM, now) as desk:
            return desk.add_person(sent.name, role, entry_id=entry_id(sent, now))
    except Refused as refusal:
        return Problems(refusal.problems)


def _unknown(person: str, history: History) -> Problems:
    known = any(one.id == person for one in history.people())
    return Problems(() if known else [Problem("name", "This person is not on file.", "Choose a name, or add one.")])

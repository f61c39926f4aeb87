"""Finding a vehicle; typing narrows the list."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Response

from app.history.values import CaseState
from app.web.given import CurrentRules, History, Show
from app.web.views.find_view import MOST_FOUND, find_page
from app.web.who import Framed

router = APIRouter()
RECENT = 12
UNFINISHED = (CaseState.OPEN, CaseState.UNDER_PROOF)


@router.get("/")
def find(
    history: History, rules: CurrentRules, show: Show, framed: Framed, q: Annotated[str, Query(max_length=200)] = ""
) -> Response:
    found = history.find(q, MOST_FOUND)
    cases = [one for state in UNFINISHED for one in history.recent_cases(RECENT, state=state)]
    return show("find", find_page(framed("Find a vehicle"), q, found=found, cases=cases, rules=rules), part="found")

"""Who is working: chosen by name and kept in a cookie. There is no password yet; every entry names the person."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request

from app.history.history import History
from app.history.values import Person as PersonOnFile
from app.web.showing import Frame

COOKIE = "proofbay_person"


class NobodyNamed(Exception):
    """Something was to be written and nobody has said who is working."""


def person_of(request: Request) -> PersonOnFile | None:
    """The person the cookie names, if that person is on file and active."""
    id = request.cookies.get(COOKIE, "")
    if not id:
        return None
    history: History = request.app.state.history
    return next((one for one in history.people() if one.id == id and one.active), None)


def who_is_working(request: Request) -> str:
    """The name for the frame; an error page must not fail for the sake of it, so a broken history means no name."""
    try:
        person = person_of(request)
    except Exception:
        return ""
    return person.name if person else ""


def named_person(request: Request) -> PersonOnFile:
    """Who writes. Refused as `NobodyNamed` where nobody has said."""
    person = person_of(request)
    if person is None:
        raise NobodyNamed
    return person


Person = Annotated[PersonOnFile, Depends(named_person)]


class FrameMaker:
    """Makes the frame of a page: its title, who is working, and the address to come back to."""

    def __init__(self, request: Request) -> None:
        self._person = who_is_working(request)
        query = f"?{request.url.query}" if request.url.query and request.method == "GET" else ""
        self._here = f"{request.url.path}{query}" if request.method == "GET" else "/"

    def __call__(self, title: str) -> Frame:
        return Frame(title=title, person=self._person, here=self._here)


Framed = Annotated[FrameMaker, Depends(FrameMaker)]

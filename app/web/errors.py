"""One handler, one page, for everything that cannot be answered as asked."""

from __future__ import annotations

import logging
import secrets
import traceback
from dataclasses import dataclass

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException

from app.history.errors import Busy, Changed, HistoryError, NoRoom, NotHere
from app.problem import Refused
from app.web.guard import Foreign, TooLarge
from app.web.showing import Frame, Show, wants_part
from app.web.who import NobodyNamed, who_is_working

LOG = logging.getLogger("proofbay.web")
SENTENCES = {
    400: "What was sent could not be read.",
    403: "This is not allowed.",
    404: "There is nothing at this address.",
    405: "This address does not take what was sent.",
    409: "Somebody changed this in the meantime.",
    413: "That is more than a form can hold. Shorten the text.",
    415: "What was sent has a form that is not taken here.",
    422: "Something in what was sent cannot be taken.",
    500: "Something went wrong here, not at your end. Nothing of what you sent was stored.",
    507: "There is no room left on the disk. Nothing of what you sent was stored.",
}


@dataclass(frozen=True, slots=True)
class ErrorPage:
    """`reference` also stands in the log ("" where the sentence says everything)."""

    frame: Frame
    heading: str
    sentence: str
    mend: str
    mend_address: str
    reference: str


@dataclass(frozen=True, slots=True)
class Wrong:
    """What the error page says."""

    status: int
    sentence: str = ""
    mend: str = "Find a vehicle"
    mend_address: str = "/"
    reference: str = ""


def add_error_pages(app: FastAPI) -> None:
    """Handlers for what we refuse, what the framework refuses, and what breaks."""
    for kind in (RequestValidationError, HTTPException, NobodyNamed, Refused, HistoryError, Exception):
        app.add_exception_handler(kind, answer_wrong)


def answer_wrong(request: Request, error: Exception) -> Response:
    """The error as a page, or as a sentence put into the notice for htmx."""
    wrong = _read(error, request)
    frame = Frame(title=_heading(wrong.status), person=who_is_working(request), here="/")
    view = ErrorPage(
        frame=frame,
        heading=frame.title,
        sentence=wrong.sentence or SENTENCES.get(wrong.status, SENTENCES[400]),
        mend=wrong.mend,
        mend_address=wrong.mend_address,
        reference=wrong.reference,
    )
    response = Show(request)("error", view, part="error", status=wrong.status)
    if wants_part(request):
        response.headers["HX-Retarget"] = "#notice"
        response.headers["HX-Reswap"] = "innerHTML"
    return response


def _read(error: Exception, request: Request) -> Wrong:
    match error:
        case NobodyNamed():
            return Wrong(403, "Say who is working first: every entry carries a name.", "Choose a name", "/who")
        case TooLarge():
            return Wrong(413)
        case Foreign():
            return Wrong(403, "This was sent from another site and is not taken.")
        case RequestValidationError():
            return Wrong(422, "A field holds something that is not text.")
        case HTTPException():
            return Wrong(_known(error.status_code))
        case Refused():
            return Wrong(422, str(error))
        case HistoryError():
            return _from_history(error, request)
        case _:
            return _broken(error, request)


def _from_history(error: HistoryError, request: Request) -> Wrong:
    match error:
        case NotHere():
            return Wrong(404, str(error))
        case Changed():
            return Wrong(409, str(error))
        case NoRoom():
            return Wrong(507, str(error))
        case Busy():
            return Wrong(503, str(error), "Try again", request.url.path)
        case _:
            return _broken(error, request)


def _known(status: int) -> int:
    return status if status in SENTENCES else 400


def _broken(error: Exception, request: Request) -> Wrong:
    reference = secrets.token_hex(4)
    LOG.error("%s %s %s\n%s", reference, request.method, request.url.path, "".join(traceback.format_exception(error)))
    return Wrong(500, reference=reference)


def _heading(status: int) -> str:
    headings = {403: "Not allowed", 404: "Not here", 409: "Changed", 413: "Too long", 422: "Refused", 507: "No room"}
    return headings.get(status, "Something went wrong" if status >= 500 else "Not taken")

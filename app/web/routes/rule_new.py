"""Adding a cause or a test of the shop's own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Form, Response
from starlette.exceptions import HTTPException

from app.web.forms.fields import NONE, Field, Problems
from app.web.forms.new_rule_form import SHELVES, NewRuleSent, new_rule_fields, read_new_rule
from app.web.given import Now, Show
from app.web.rule_book import Book, RuleBook
from app.web.showing import Frame
from app.web.who import Framed, FrameMaker, Person

router = APIRouter()
TITLES = {"causes": "Add a cause", "tests": "Add a test"}


@dataclass(frozen=True, slots=True)
class NewRulePage:
    frame: Frame
    heading: str
    address: str
    fields: tuple[Field, ...]
    problems: tuple[str, ...]
    seen: str


@router.get("/rules/new/{shelf}")
def ask(shelf: str, book: Book, show: Show, framed: Framed) -> Response:
    return show("new_rule", _page(shelf, book, NewRuleSent(), framed=framed))


@router.post("/rules/new/{shelf}")
def add(
    shelf: str,
    sent: Annotated[NewRuleSent, Form()],
    book: Book,
    show: Show,
    framed: Framed,
    person: Person,
    now: Now,
) -> Response:
    page = _page(shelf, book, sent, framed=framed)
    read = read_new_rule(shelf, book.rules, sent)
    if isinstance(read, Problems):
        page = _page(shelf, book, sent, framed=framed, problems=read)
        return show("new_rule", page, part="new_rule", status=422)
    changes, id, said = read
    problems = Problems(book.change(changes, seen=sent.seen, said=said, person=person.name, now=now))
    if problems:
        page = _page(shelf, book, sent, framed=framed, problems=problems)
        return show("new_rule", page, part="new_rule", status=422)
    return show.moved(f"/rules/{shelf}/{id}")


def _page(
    shelf: str, book: RuleBook, sent: NewRuleSent, *, framed: FrameMaker, problems: Problems = NONE
) -> NewRulePage:
    if shelf not in SHELVES:
        raise HTTPException(404)
    fields = new_rule_fields(shelf, book.rules, sent, problems)
    return NewRulePage(
        frame=framed(TITLES[shelf]),
        heading=TITLES[shelf],
        address=f"/rules/new/{shelf}",
        fields=fields,
        problems=problems.elsewhere(field.name for field in fields),
        seen=book.rules.version,
    )

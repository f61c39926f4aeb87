"""The shop's own changes to the rules: made with the same checks as the supplied rules, and taken back."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Response
from starlette.exceptions import HTTPException

from app.board.words import capital
from app.rules.look_up import Rule, find_rule
from app.web.forms.fields import NONE, Problems, Sent
from app.web.forms.rule_forms import RuleSent, change_forms, file_of, read_change
from app.web.given import Now, Show
from app.web.rule_book import Book, Change, RuleBook
from app.web.views.rule_page import rule_page
from app.web.who import Framed, Person

router = APIRouter()


class TakeBackSent(Sent):
    path: str = ""
    seen: str = ""


@router.post("/rules/{shelf}/{id}/change")
def change(
    shelf: str,
    id: str,
    sent: Annotated[RuleSent, Form()],
    book: Book,
    show: Show,
    framed: Framed,
    person: Person,
    now: Now,
) -> Response:
    rule = _rule(shelf, id, book)
    read = read_change(rule, book.rules, sent)
    problems, saved = (read, "") if isinstance(read, Problems) else (NONE, "")
    if not isinstance(read, Problems):
        changes, said = read
        problems = Problems(book.change(changes, seen=sent.seen, said=said, person=person.name, now=now))
        saved = "" if problems else f"Changed: {said}."
    rule = _rule(shelf, id, book)
    forms = change_forms(rule, book.rules, sent if problems else RuleSent(), problems)
    shown = {field.name for form in forms if form.what == sent.what for field in form.fields}
    page = rule_page(
        framed(capital(rule.name)),
        shelf,
        rule,
        book=book,
        forms=forms,
        problems=problems.elsewhere(shown),
        saved=saved,
    )
    if problems:
        return show("rule", page, part="rule", status=422)
    return show.saved("rule", page, part="rule", to=f"/rules/{shelf}/{id}")


@router.post("/rules/{shelf}/{id}/take-back")
def take_back(
    shelf: str,
    id: str,
    sent: Annotated[TakeBackSent, Form()],
    book: Book,
    show: Show,
    framed: Framed,
    person: Person,
    now: Now,
) -> Response:
    """What the shop says at one place of the rule is dropped; the supplied rule holds again."""
    rule = _rule(shelf, id, book)
    path = tuple(part for part in sent.path.split("/") if part)
    words = ": ".join(path) or "the whole rule"
    said = f"{rule.name}: {words} taken back"
    taken = Change(file_of(rule), (shelf, id, *path), None)
    problems = Problems(book.change((taken,), seen=sent.seen, said=said, person=person.name, now=now))
    after = find_rule(shelf, id, book.rules)
    if after is None:
        return show.moved("/rules")
    page = rule_page(
        framed(capital(after.name)),
        shelf,
        after,
        book=book,
        forms=change_forms(after, book.rules, RuleSent()),
        problems=problems.elsewhere(()),
        saved="" if problems else f"Changed: {said}.",
    )
    if problems:
        return show("rule", page, part="rule", status=422)
    return show.saved("rule", page, part="rule", to=f"/rules/{shelf}/{id}")


def _rule(shelf: str, id: str, book: RuleBook) -> Rule:
    rule = find_rule(shelf, id, book.rules)
    if rule is None:
        raise HTTPException(404)
    return rule

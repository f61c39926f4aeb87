"""The rules browser: by family, cause, test, operation and symptom; the test sheet; the shop's own rules as YAML."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Query, Response
from starlette.exceptions import HTTPException

from app.board.words import capital
from app.rules.library import Rules
from app.rules.look_up import find_rule
from app.rules.tests import Test
from app.rules.words import FamilyId, TestId
from app.web.forms.rule_forms import RuleSent, change_forms
from app.web.given import Show
from app.web.rule_book import Book
from app.web.showing import PLAIN, Frame
from app.web.views.rule_page import Fact, rule_page, test_facts
from app.web.views.rules_page import family_page, rules_page
from app.web.views.said import sentence
from app.web.who import Framed

router = APIRouter()


@dataclass(frozen=True, slots=True)
class SheetPage:
    """One test to take to the vehicle: how it is done, and room for its readings."""

    frame: Frame
    name: str
    facts: tuple[Fact, ...]
    cautions: tuple[str, ...]
    shows: tuple[str, ...]
    cannot_show: tuple[Fact, ...]
    ask: tuple[str, ...]
    back: str


@router.get("/rules")
def browse(book: Book, show: Show, framed: Framed, q: Annotated[str, Query(max_length=200)] = "") -> Response:
    return show("rules", rules_page(framed("Rules"), book, q), part="rules_found")


@router.get("/rules/own.yaml")
def export(book: Book) -> Response:
    """All of the shop's own rules in one text, file by file."""
    texts = [f"# {name}\n{text}" for name, text in sorted(book.own().items())]
    headers = {**PLAIN, "Content-Disposition": 'attachment; filename="own-rules.yaml"'}
    return Response("---\n".join(texts) or "# no rule was changed\n", media_type="application/yaml", headers=headers)


@router.get("/rules/families/{family}")
def one_family(family: str, book: Book, show: Show, framed: Framed) -> Response:
    found = book.rules.families.get(FamilyId(family))
    if found is None:
        raise HTTPException(404)
    return show("rules_family", family_page(framed(capital(found.name)), found, book.rules))


@router.get("/rules/tests/{test}/sheet")
def sheet(test: str, book: Book, show: Show, framed: Framed) -> Response:
    rules = book.rules
    found = rules.tests.get(TestId(test))
    if found is None:
        raise HTTPException(404)
    asked = dict.fromkeys(rules.situations[blind.situation].question for blind in found.blind_when)
    page = SheetPage(
        frame=framed(capital(found.name)),
        name=capital(found.name),
        facts=tuple(test_facts(found, rules)),
        cautions=tuple(sentence(one) for one in found.cautions),
        shows=tuple(capital(rules.causes[s.cause].name) for s in found.shows),
        cannot_show=tuple(_by_reason(found, rules)),
        ask=tuple(asked),
        back=f"/rules/tests/{test}",
    )
    return show("test_sheet", page)


def _by_reason(test: Test, rules: Rules) -> Iterator[Fact]:
    """Each reason once, with all the causes that it holds for."""
    names: dict[str, list[str]] = {}
    for cannot in test.cannot_show:
        names.setdefault(cannot.reason, []).append(rules.causes[cannot.cause].name)
    for reason, alike in names.items():
        yield Fact(capital("; ".join(alike)), sentence(reason))


@router.get("/rules/{shelf}/{id}")
def one_rule(shelf: str, id: str, book: Book, show: Show, framed: Framed) -> Response:
    rule = find_rule(shelf, id, book.rules)
    if rule is None:
        raise HTTPException(404)
    forms = change_forms(rule, book.rules, RuleSent())
    return show("rule", rule_page(framed(capital(rule.name)), shelf, rule, book=book, forms=forms))

"""The case board as it is read: causes, blind spots, matrix, next steps, JSON, the half-page, one test's marks."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from fastapi import Request

from app.advice.of_case import Kind
from app.board import ahead
from app.board.as_json import board_as_json
from app.board.build import build_board
from app.board.words import chance_figure, chance_word, least_word
from app.web.boards import Boards
from app.web.scene import Look
from app.web.views.case_page import NOTHING_CHANGED, board_view
from tests.cases import real_rules


def lash_reason() -> str:
    """The rule's own sentence why a leak-down cannot show tight lash."""
    test = real_rules().tests["leak-down"]
    return next(one.reason for one in test.cannot_show if one.cause == "exhaust-lash-too-tight")


@pytest.fixture
def board(history, story):
    return build_board(history.case(story.case), real_rules())


@pytest.fixture
def page(ida, story):
    return ida.get(f"/cases/{story.case}")


def test_causes_stand_in_the_boards_order_with_both_chances_and_their_meaning(page, board):
    shown = [
        cause.one("h3").text for cause in page.root.all("li") if cause.attributes.get("class", "").startswith("cause")
    ]
    assert [text.split(". ", 1)[1] for text in shown] == [group.name for group in board.groups[: len(shown)]]
    first = page.id(f"h-{board.groups[0].cause}").text
    assert (
        f"produces the complaint {chance_word(board.groups[0].to_blame)} {chance_figure(board.groups[0].to_blame)}"
        in first
    )
    assert f"is there now {chance_word(board.groups[0].probability)}" in first


def test_no_figure_stands_without_saying_of_what(page):
    for chance in page.root.all("p", class_="chance"):
        assert chance.all("span", class_="chance-meaning")[0].text


def test_an_old_result_that_could_not_have_shown_a_cause_says_so_with_the_reason(page):
    """At top dead centre on compression the valves rest closed as long as any lash is left (common practice)."""
    result = page.id("r-leak-down-cyl-1-2-normal").text
    assert result.startswith("Visit 2: Cylinder leak-down, cylinders 1 and 3: within limits · measured here")
    assert lash_reason() in result
    causes = [place for place in page.root.all("div", class_="place") if "Could not have shown it" in place.text]
    assert any("Cylinder leak-down, cylinder" in place.text for place in causes)


def test_a_replaced_part_is_told_in_words(page):
    assert "renew ignition coil" in page.text


def test_what_nothing_listed_explains_has_its_own_line(page, board):
    assert least_word(board.not_listed) in page.text.split("Not explained by anything listed")[1]


@pytest.fixture
def matrix(ida, story):
    return ida.get(f"/cases/{story.case}/matrix")


def test_the_board_asks_for_its_matrix_and_links_to_it_without_script(page, story):
    links = [a for a in page.root.all("a") if a.attributes.get("href") == f"/cases/{story.case}/matrix"]
    assert len(links) == 1


def test_every_mark_in_the_matrix_is_a_word_and_says_what_it_is_about(matrix):
    cells = matrix.root.one("table", class_="matrix").one("tbody").all("td")
    assert cells
    for cell in cells:
        unseen = cell.one("span", class_="unseen").text
        assert cell.one("span", aria_hidden="true").text
        assert ", " in unseen
        assert unseen.endswith(".")


def test_the_marks_of_the_matrix_are_those_of_the_board(matrix):
    words = {cell.one("span", aria_hidden="true").text for cell in matrix.root.one("table", class_="matrix").all("td")}
    assert {"cannot show"} < words
    assert words <= {"in and out", "rules in", "rules out", "leans", "cannot show", "–"}


def test_no_line_of_the_matrix_is_without_any_mark(matrix):
    for line in matrix.root.one("table", class_="matrix").one("tbody").all("tr"):
        assert any(cell.one("span", aria_hidden="true").text != "–" for cell in line.all("td"))


@pytest.fixture
def no_time(ida, monkeypatch):
    """A program that has no board yet, and next to no time for a matrix."""
    kept, ida.app.state.boards = ida.app.state.boards, Boards()
    monkeypatch.setattr(ahead, "EVERY_TEST", 1.0)
    yield
    ida.app.state.boards = kept


@pytest.mark.usefixtures("no_time")
@pytest.mark.parametrize("where", ["matrix", "tests/leak-down"])
def test_what_would_take_too_long_is_said_where_the_marks_are_read(ida, story, where):
    page = ida.get(f"/cases/{story.case}/{where}")
    assert "Left out, because it would have taken too long: what " in page.text
    assert "name no way in which this test would show it" not in page.text


def test_nothing_is_said_to_be_left_out_where_nothing_is(matrix):
    assert "too long" not in matrix.text


def test_each_next_step_leads_to_its_form_with_the_test_chosen(page, board, ida):
    step = page.id(f"next-{board.next[0].test}-{board.next[0].places[0]}")
    assert f"{board.next[0].minutes:.0f} min" in step.text
    address = next(link.attributes["href"] for link in step.all("a") if link.text.startswith("Record the result"))
    form = ida.get(address.removesuffix("#entry"), part=True)
    assert form.hidden("test") == board.next[0].test


@pytest.mark.parametrize("kind", ["result", "symptom", "job", "duty", "code", "cleared", "covers", "first"])
def test_each_kind_of_entry_has_its_form_or_list_as_page_and_as_part(ida, story, kind):
    whole = ida.get(f"/cases/{story.case}?record={kind}")
    part = ida.get(f"/cases/{story.case}?record={kind}", part=True)
    assert whole.id("entry").text == part.id("entry").text
    assert not part.root.all("html")


@pytest.mark.parametrize("address", ["", "/board.json"])
def test_programs_get_the_boards_own_json(ida, story, board, address):
    page = ida.get(f"/cases/{story.case}{address}", accept="application/json")
    sent = json.loads(page.response.text)
    assert sent.pop("advice")["kind"] in set(Kind)
    assert sent == json.loads(json.dumps(board_as_json(board)))


def test_one_tests_marks_are_shown_with_every_reason(ida, story):
    page = ida.get(f"/cases/{story.case}/tests/leak-down")
    assert page.heading == "Cylinder leak-down"
    assert lash_reason() in page.text
    assert ida.get(f"/cases/{story.case}/tests/crystal-ball").status == 404


def test_the_half_page_says_known_not_known_next_and_spent(ida, story):
    page = ida.get(f"/cases/{story.case}/where-we-stand")
    assert {"Known, and how", "Not known yet", "Next", "Spent so far on this complaint"} <= set(page.headings())
    assert "at least 40 minutes over 2 visits" in page.text.lower()
    assert "Weir Garage: 412.00" in page.text


def test_other_shops_are_spoken_of_neutrally(page):
    for word in ("botched", "fault of", "incompetent", "sloppy", "bad work"):
        assert word not in page.text


def test_entries_that_contradict_each_other_are_named_with_the_way_to_strike_each_out(ida, history, story, board):
    """The board says so by its `contradiction`; made here by hand, since the demo's entries do not contradict."""
    look = Look(Request({"type": "http", "app": ida.app}))
    words = ("Leak-down, cylinder 1: within limits (visit 2)", "Leak-down, cylinder 3: within limits (visit 2)")
    torn = replace(board, groups=(), contradiction=words, contradicting=story.results)
    scene = replace(look(story.case), board=torn)
    view = board_view(scene, real_rules(), NOTHING_CHANGED)
    assert view.contradiction.said == words
    assert [one.id for one in view.contradiction.entries] == [f"e-{id}" for id in story.results]
    assert all("/void?version=1" in one.void for one in view.contradiction.entries)

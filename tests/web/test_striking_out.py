"""Striking an entry out: with a reason, once, both sides shown when somebody was faster."""

from __future__ import annotations

import pytest


@pytest.fixture
def address(story):
    return f"/vehicles/{story.vehicle}/entries/result/{story.results[0]}/void"


def test_a_struck_out_entry_stays_readable_with_who_and_why_and_no_longer_counts(ida, history, story, address):
    page = ida.post(address, {"why": "wrong cylinder", "version": "1", "case": story.case})
    assert (page.status, page.headers["location"]) == (303, f"/cases/{story.case}")
    row = ida.get(f"/vehicles/{story.vehicle}").id(f"e-{story.results[0]}")
    assert "cylinder 1: within limits" in row.one("s").text
    assert "Struck out by Ida Lorne" in row.text
    assert "wrong cylinder" in row.text
    assert len(history.case(story.case).visits[1].results) == 1


def test_the_form_says_what_is_to_be_struck_out(ida, address):
    page = ida.get(f"{address}?version=1")
    assert "cylinder 1: within limits" in page.headings()[1]
    assert page.field("Why is it wrong?")


@pytest.mark.parametrize(
    ("why", "sentence"), [("", "reason is missing"), ("   ", "reason is missing"), ("x" * 900, "characters long")]
)
def test_without_a_reason_nothing_is_struck_out(ida, history, story, address, why, sentence):
    page = ida.post(address, {"why": why, "version": "1"}, part=True)
    assert page.status == 422
    assert sentence in page.problem_at("Why is it wrong?")
    assert len(history.case(story.case).visits[1].results) == 2


def test_struck_out_by_two_people_at_once_shows_both_reasons(ida, address):
    ida.post(address, {"why": "wrong cylinder", "version": "1"})
    page = ida.post(address, {"why": "wrong gauge", "version": "1"}, part=True)
    assert page.status == 409
    assert "wrong cylinder" in page.text
    assert "Yours: wrong gauge" in page.text


def test_a_stale_version_changes_nothing(ida, history, story, address):
    assert ida.post(address, {"why": "wrong cylinder", "version": "7"}).status == 409
    assert len(history.case(story.case).visits[1].results) == 2


def test_a_whole_visit_can_be_struck_out(ida, history, story):
    ida.post(
        f"/vehicles/{story.vehicle}/entries/visit/{story.visits[0]}/void", {"why": "another vehicle", "version": "1"}
    )
    assert len(history.case(story.case).visits) == 1
    assert "another vehicle" in ida.get(f"/vehicles/{story.vehicle}").text


def test_an_entry_is_only_found_on_its_own_vehicle_and_under_its_own_kind(ida, story):
    assert ida.get(f"/vehicles/{story.vehicle}/entries/job/{story.results[0]}/void").status == 404
    assert ida.get(f"/vehicles/{story.vehicle}/entries/spell/{story.results[0]}/void").status == 404
    assert ida.get(f"/vehicles/nothing/entries/result/{story.results[0]}/void").status == 404


def test_a_reason_with_markup_is_shown_as_text(ida, story, address):
    ida.post(address, {"why": "<script>alert(1)</script>", "version": "1"})
    row = ida.get(f"/vehicles/{story.vehicle}").id(f"e-{story.results[0]}")
    assert "<script>alert(1)</script>" in row.text
    assert not row.all("script")

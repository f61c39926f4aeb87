"""Opening a case from the customer's words."""

from __future__ import annotations

import pytest

from app.evidence.case import Presence, Source


def opened(ida, story, fresh_id, **change):
    sent = {
        "words": "engine shakes",
        "symptom": "rough-running",
        "reproduced": "yes",
        "under_hot": "yes",
        f"visit_{story.visits[0]}": "there",
        f"visit_{story.visits[1]}": "there",
        "entry_id": fresh_id,
        **change,
    }
    return ida.post(f"/vehicles/{story.vehicle}/cases/new", sent)


def test_words_bring_suggestions_as_they_are_typed(ida, story):
    page = ida.get(f"/vehicles/{story.vehicle}/cases/new?words=shakes+when+I+brake", part=True)
    assert page.id("suggestions")
    assert any("judder" in label.text for label in page.root.all("label"))


def test_words_that_mean_nothing_are_said_to_mean_nothing(ida, story):
    assert "No symptom is near" in ida.get(f"/vehicles/{story.vehicle}/cases/new?words=qwxz").text


def test_a_case_is_opened_with_the_complaint_at_each_visit_it_was_there(ida, history, story, fresh_id):
    page = opened(ida, story, fresh_id)
    assert (page.status, page.headers["location"]) == (303, f"/cases/{fresh_id}")
    case = history.case(fresh_id)
    seen = [(s.presence, s.source) for visit in case.visits for s in visit.symptoms if s.symptom == "rough-running"]
    assert seen == [(Presence.PRESENT, Source.TOLD), (Presence.PRESENT, Source.SEEN_HERE)]
    assert ida.get(f"/cases/{fresh_id}").heading == "Misfire or rough running"


def test_opened_twice_it_is_one_case(ida, history, story, fresh_id):
    opened(ida, story, fresh_id)
    opened(ida, story, fresh_id)
    assert len(history.cases_of(story.vehicle)) == 2
    assert sum(len(visit.symptoms) for visit in history.case(fresh_id).visits) == 2


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"symptom": ""}, "The complaint is not chosen"),
        ({"symptom": "made-up"}, "The complaint is not chosen"),
        ({"symptom": "judder-under-braking"}, "The place is missing"),
        ({"symptom": "judder-under-braking", "place_judder-under-braking": "cyl-1"}, "is not one of"),
        ({"reproduced": ""}, "not said whether it was reproduced"),
        ({"words": "x" * 5000}, "characters long"),
    ],
)
def test_a_case_that_says_too_little_is_not_opened(ida, history, story, fresh_id, change, sentence):
    page = opened(ida, story, fresh_id, **change)
    assert page.status == 422
    assert sentence in page.text
    assert len(history.cases_of(story.vehicle)) == 1


def test_a_case_needs_a_visit_at_which_the_complaint_was_there(ida, story, fresh_id):
    page = opened(ida, story, fresh_id, **{f"visit_{id}": "" for id in story.visits})
    assert page.status == 422
    assert "No visit says that the complaint was there" in page.text


@pytest.mark.parametrize(
    ("question", "sentence"),
    [
        ("flashing-lamp", "catalyst"),
        ("brakes", "brakes have been checked"),
        ("steering", "steering has been checked"),
        ("fuel-smell", "Do not start it"),
    ],
)
def test_a_yes_that_speaks_against_driving_is_said_first_on_the_board(ida, story, fresh_id, question, sentence):
    opened(ida, story, fresh_id, **{f"drive_{question}": "yes"})
    assert sentence in ida.get(f"/cases/{fresh_id}").id("drive").text


def test_what_was_not_asked_about_driving_is_said(ida, story, fresh_id):
    opened(ida, story, fresh_id)
    assert "Not asked yet" in ida.get(f"/cases/{fresh_id}").id("drive").text

"""Closing a case: cause, deciding test, minutes; the list for the manager, and the boards kept along the way."""

from __future__ import annotations

import pytest

from app.history.values import CaseState

CLOSING = {
    "cause": "exhaust-lash-too-tight@cyl-3",
    "introduced": "by a job",
    "minutes": "140",
    "note": "Set, road tested.",
}


@pytest.fixture
def close(ida, history, story):
    def send(part: bool = False, **change):
        version = str(history.case_on_file(story.case).version)
        sent = {**CLOSING, "deciding": story.results[1], "job": story.job, "version": version, **change}
        return ida.post(f"/cases/{story.case}/close", sent, part=part)

    return send


def test_a_closed_case_keeps_cause_deciding_test_and_minutes(close, ida, history, story):
    page = close()
    assert (page.status, page.headers["location"]) == (303, f"/cases/{story.case}/snapshots")
    on_file = history.case_on_file(story.case)
    assert on_file.state is CaseState.CLOSED
    assert (on_file.closing.closing.cause, on_file.closing.closing.minutes) == ("exhaust-lash-too-tight", 140)
    listed = ida.get("/closed").text
    assert "Exhaust valve lash too tight, cylinder 3" in listed
    assert "leak-down, cylinder 3: within limits" in listed
    assert "140 min" in listed
    assert "renew ignition coil" in listed


def test_closing_keeps_a_board_with_rows_and_advice(close, ida, story):
    close()
    page = ida.get(f"/cases/{story.case}/snapshots")
    assert any("closing" in heading for heading in page.headings())
    assert page.root.all("table")
    assert "Advice then" in page.headings()


def test_that_no_cause_was_found_is_an_answer(close, history, story):
    assert close(cause="nothing", introduced="not known", job="", deciding="").status == 303
    assert history.case_on_file(story.case).closing.closing.cause is None


@pytest.mark.parametrize(
    ("change", "label", "sentence"),
    [
        ({"cause": ""}, "What was it?", "cause is missing"),
        ({"cause": "gremlins@cyl-1"}, "What was it?", "cause is missing"),
        ({"introduced": ""}, "Was it brought in by earlier work?", "not said whether"),
        ({"introduced": "not by a job"}, "By which job?", "does not fit"),
        ({"deciding": "none"}, "Which result decided?", "not part of the case"),
        ({"minutes": "two"}, "Minutes spent in all", "not a number"),
        ({"note": "x" * 5000}, "Note", "characters long"),
    ],
)
def test_a_closing_that_says_too_little_is_refused_and_the_case_stays_open(
    close, history, story, change, label, sentence
):
    page = close(part=True, **change)
    assert page.status == 422
    assert sentence in page.problem_at(label)
    assert history.case_on_file(story.case).state is CaseState.OPEN


def test_a_case_changed_meanwhile_is_not_closed_over(close, ida, history, story):
    stale = str(history.case_on_file(story.case).version)
    ida.post(f"/cases/{story.case}/covers", {"cover_plugs-out": "yes", "version": stale})
    page = close(version=stale, part=True)
    assert page.status == 409
    assert "Somebody changed this case" in page.text
    assert "Spark plugs out: not put back" in page.text
    assert close(version=page.hidden("version"), left_open_why="Towed away as it stands.").status == 303


def test_closed_twice_by_the_same_form_is_closed_once(close, history, story, fresh_id):
    assert close(entry_id=fresh_id).status == 303
    assert close(entry_id=fresh_id).status == 303
    assert len(history.snapshots(story.case)) == 1


def test_a_closed_case_can_be_opened_again(close, ida, history, story):
    close()
    ida.post(f"/cases/{story.case}/reopen", {"version": str(history.case_on_file(story.case).version)})
    assert history.case_on_file(story.case).state is CaseState.OPEN

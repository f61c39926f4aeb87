"""The way back: ticked by name and time, and what is open cannot be passed over in silence when the case is closed."""

from __future__ import annotations

import pytest

from app.evidence.case import Job, Source
from app.history.values import PROGRAM, At, CaseState, EntryKind
from tests.web.story import NOW


@pytest.fixture
def base(story) -> str:
    return f"/cases/{story.case}"


@pytest.fixture
def worked(history, story) -> str:
    """Lash set here at this visit: it opens the valve cover."""
    with history.write(PROGRAM, NOW) as desk:
        return desk.record_job(At(story.visits[1], story.case), Job("adjust-valve-lash", ("engine",), Source.SEEN_HERE))


@pytest.fixture
def duty(app) -> str:
    return app.state.rule_book.rules.operations["adjust-valve-lash"].duties[0].id


def version(history, story) -> str:
    return str(history.case_on_file(story.case).version)


def opened(ida, history, story, base, *covers: str):
    ida.post(f"{base}/covers", {**{f"cover_{one}": "yes" for one in covers}, "version": version(history, story)})


def test_nothing_open_says_so(ida, base):
    assert "Nothing is off or open" in ida.get(f"{base}/putting-back").text


def test_the_list_goes_from_the_inside_out_with_minutes(ida, history, story, base, worked):
    opened(ida, history, story, base, "plugs-out")
    page = ida.get(f"{base}/putting-back")
    steps = [heading for heading in page.headings() if heading[0].isdigit()]
    assert steps == ["1. Spark plugs out", "2. Valve cover off"]
    assert "things are still open" in page.text
    assert "Opened for: set valve lash." in page.text


def test_putting_a_cover_back_is_ticked_by_name_and_time(ida, history, story, base):
    opened(ida, history, story, base, "plugs-out", "wheels-off")
    page = ida.post(f"{base}/putting-back", {"cover": "plugs-out", "version": version(history, story)}, part=True)
    assert page.status == 200
    assert history.case(story.case).open_covers == ("wheels-off",)
    [tick] = history.put_back(story.case)
    assert (tick.cover, tick.by, tick.visit) == ("plugs-out", "Ida Lorne", story.visits[1])
    assert "Put back by Ida Lorne" in page.text


def test_unticking_it_on_the_board_counts_as_put_back_too(ida, history, story, base):
    opened(ida, history, story, base, "plugs-out")
    opened(ida, history, story, base)
    assert [one.cover for one in history.put_back(story.case)] == ["plugs-out"]


def test_a_cover_that_only_a_job_opened_can_be_ticked(ida, history, story, base, worked):
    ida.post(f"{base}/putting-back", {"cover": "valve-cover-off", "version": version(history, story)})
    assert [one.cover for one in history.put_back(story.case)] == ["valve-cover-off"]
    page = ida.get(f"{base}/putting-back")
    assert "put back" in page.text


def test_an_older_version_is_refused_and_shows_how_it_stands_now(ida, history, story, base):
    stale = version(history, story)
    opened(ida, history, story, base, "plugs-out", "wheels-off")
    page = ida.post(f"{base}/putting-back", {"cover": "plugs-out", "version": stale}, part=True)
    assert page.status == 409
    assert "Somebody changed this case" in page.text
    assert history.put_back(story.case) == ()
    assert len(page.root.all("input", name="cover")) == 2


def test_a_cover_of_no_rule_is_not_here(ida, base):
    assert ida.post(f"{base}/putting-back", {"cover": "ashtray-out", "version": "1"}).status == 404


def test_a_duty_is_ticked_by_name_and_time(ida, base, worked, duty):
    sent = {"job": worked, "duty": duty, "state": "verified", "source": "seen here"}
    page = ida.post(f"{base}/putting-back/duty", sent, part=True)
    assert page.status == 200
    assert "Verified: Ida Lorne" in page.id(f"tick-{worked}-{duty}").text
    assert ida.post(f"{base}/putting-back/duty", {**sent, "state": "found wrong"}, part=True).status == 409


def test_a_tick_on_a_struck_out_job_is_refused(ida, history, base, worked, duty):
    with history.write(PROGRAM, NOW) as desk:
        desk.void(EntryKind.JOB, worked, seen=1, why="not done")
    sent = {"job": worked, "duty": duty, "state": "verified", "source": "seen here"}
    page = ida.post(f"{base}/putting-back/duty", sent, part=True)
    assert page.status == 422
    assert "struck out" in page.text


CLOSING = {"cause": "nothing", "introduced": "not known"}


def test_a_case_with_open_items_is_not_closed_in_silence(ida, history, story, base, worked):
    page = ida.post(f"{base}/close", {**CLOSING, "note": "kept", "version": version(history, story)}, part=True)
    assert page.status == 422
    assert "still open" in page.problem_at("Why is it closed all the same?")
    assert "Valve cover off: not put back" in page.text
    assert "kept" in page.text
    assert history.case_on_file(story.case).state is CaseState.OPEN


def test_it_can_be_closed_with_a_reason_which_is_kept_with_what_was_open(ida, history, story, base, worked):
    sent = {**CLOSING, "left_open_why": "Customer took it away.", "version": version(history, story)}
    assert ida.post(f"{base}/close", sent).status == 303
    closing = history.case_on_file(story.case).closing.closing
    assert closing.left_open_why == "Customer took it away."
    assert "Valve cover off: not put back" in closing.left_open
    for address in ("/closed", f"{base}/snapshots"):
        text = ida.get(address).text
        assert "Customer took it away." in text
        assert "Valve cover off: not put back" in text


def test_a_case_with_everything_ticked_asks_for_no_reason(ida, history, story, base):
    assert "Why is it closed all the same?" not in ida.get(f"{base}/close").text
    assert ida.post(f"{base}/close", {**CLOSING, "version": version(history, story)}).status == 303

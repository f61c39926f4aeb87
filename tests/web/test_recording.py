"""Recording on the board: symptoms, codes, jobs, duties, covers; right, wrong, twice and stale."""

from __future__ import annotations

import pytest

from app.evidence.case import DutyState, Presence, Source
from app.history.values import CaseDetails
from tests.web.story import LEAK


def test_a_symptom_with_place_presence_and_conditions(record, history, story):
    sent = {
        "symptom": "misfire-counted",
        "place": "cyl-5",
        "presence": "not reproduced",
        "source": "seen here",
        "under_hot": "yes",
    }
    assert record("symptom", sent).status == 200
    seen = history.case(story.case).visits[1].symptoms[-1]
    assert (seen.place, seen.presence, seen.source, seen.conditions) == (
        "cyl-5",
        Presence.NOT_REPRODUCED,
        Source.SEEN_HERE,
        ("hot",),
    )


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"place": "cyl-8"}, "not one of"),
        ({"presence": "perhaps"}, "not said whether"),
        ({"symptom": "gremlins"}, "not in the rules"),
    ],
)
def test_a_wrong_symptom_is_refused(record, change, sentence):
    page = record(
        "symptom",
        {"symptom": "misfire-counted", "place": "cyl-1", "presence": "present", "source": "seen here", **change},
    )
    assert page.status == 422
    assert sentence in page.text


def test_a_code_with_its_state_and_freeze_frame(record, history, story):
    """Five characters, a letter of P B C U first: SAE J2012 / ISO 15031-6."""
    sent = {
        "code": "p0305 ",
        "state": "pending",
        "freeze_frame": "engine speed: 742 1/min\ncoolant: 88 °C",
        "source": "measured here",
    }
    assert record("code", sent).status == 200
    code = history.case(story.case).visits[1].codes[-1]
    assert (code.code, code.state.value, code.freeze_frame["coolant"]) == ("P0305", "pending", "88 °C")


@pytest.mark.parametrize(
    ("change", "label", "sentence"),
    [
        ({"code": "X0305"}, "Code", "not a trouble code"),
        ({"code": ""}, "Code", "missing"),
        ({"state": ""}, "State", "missing"),
        ({"freeze_frame": "engine speed 742"}, "Freeze frame", "no colon"),
    ],
)
def test_a_wrong_code_is_refused(record, change, label, sentence):
    page = record("code", {"code": "P0305", "state": "pending", "source": "measured here", **change})
    assert page.status == 422
    assert sentence in page.problem_at(label)


def test_that_codes_were_cleared_where_and_how_far_ago(record, history, story):
    assert (
        record("cleared", {"where": "another shop", "km_ago": "120", "day": "2026-05-02", "source": "as told"}).status
        == 200
    )
    cleared = history.case(story.case).visits[1].cleared[-1]
    assert (cleared.where, cleared.km_ago) == ("another shop", 120)


@pytest.mark.parametrize(
    ("change", "label"),
    [
        ({"where": ""}, "Where were they cleared?"),
        ({"km_ago": "far"}, "How far ago, in km?"),
        ({"day": "2199-01-01"}, "On which day?"),
    ],
)
def test_codes_cleared_somewhere_unsaid_or_in_the_future_are_refused(record, change, label):
    page = record("cleared", {"where": "here", "source": "as told", **change})
    assert page.status == 422
    assert page.problem_at(label)


JOB = {
    "operation": "renew-coil",
    "at_cyl-5": "yes",
    "part_1_name": "ignition coil",
    "part_1_number": "C-78",
    "part_1_kind": "new",
    "part_1_date_code": "2604",
    "part_1_receipt": "yes",
    "source": "seen here",
    "minutes": "25",
}


def test_a_job_with_its_part_and_a_duty(record, history, story):
    duty = "plugs-in-order"
    assert record("job", {**JOB, "operation": "renew-coil"}).status == 200
    job = history.case(story.case).visits[1].jobs[-1]
    assert job.places == ("cyl-5",)
    assert (job.parts[0].number, job.parts[0].date_code, job.parts[0].receipt) == ("C-78", "2604", True)
    assert duty not in {done.duty for done in job.duties}


@pytest.mark.parametrize(
    ("change", "label", "sentence"),
    [
        ({"at_cyl-5": ""}, "Where?", "missing"),
        ({"at_cyl-9": "yes"}, "Where?", "not on this vehicle"),
        ({"part_1_name": ""}, "Part 1", "no name"),
        ({"part_1_number": "x" * 300}, "Part number", "characters long"),
    ],
)
def test_a_wrong_job_is_refused(record, history, story, change, label, sentence):
    page = record("job", {**JOB, **change})
    assert page.status == 422
    assert sentence in page.problem_at(label)
    assert not history.case(story.case).visits[1].jobs


def test_a_duty_of_a_job_on_file_found_wrong_later(record, history, story, ida):
    form = ida.get(f"/cases/{story.case}?record=duty&job={story.job}")
    duty = form.field("Which duty?").all("input")[0].attributes["value"]
    assert record("duty", {"job": story.job, "duty": duty, "state": "found wrong", "source": "seen here"}).status == 200
    done = history.case(story.case).visits[0].jobs[0].duties[-1]
    assert (done.duty, done.state) == (duty, DutyState.FOUND_WRONG)


def test_a_duty_without_an_answer_or_of_no_job_is_refused(record, story):
    assert record("duty", {"job": story.job, "source": "seen here"}).status == 422
    assert record("duty", {"job": "none", "duty": "x", "state": "verified"}).status == 422


def test_what_is_open_is_kept(record, history, story):
    version = history.case_on_file(story.case).version
    assert record("covers", {"cover_plugs-out": "yes", "version": str(version)}).status == 200
    assert history.case(story.case).open_covers == ("plugs-out",)


def test_two_people_saying_what_is_open_see_each_others_answer(record, history, story):
    version = str(history.case_on_file(story.case).version)
    record("covers", {"cover_plugs-out": "yes", "version": version})
    page = record("covers", {"cover_valve-cover-off": "yes", "version": version})
    assert page.status == 409
    assert "Theirs: " in page.text
    ticked = [one.attributes["name"] for one in page.root.all("input", type="checkbox") if "checked" in one.attributes]
    assert ticked == ["cover_valve-cover-off"]
    assert record("covers", {"cover_valve-cover-off": "yes", "version": page.hidden("version")}).status == 200


def test_the_first_questions_can_be_answered_later(record, history, story):
    version = history.case_on_file(story.case).version
    record("first", {"reproduced": "no", "under_cold": "yes", "drive_fuel-smell": "yes", "version": str(version)})
    details = history.case_on_file(story.case).details
    assert isinstance(details, CaseDetails)
    assert (details.reproduced.value, details.reproduced_conditions, details.may_drive) == (
        "no",
        ("cold",),
        {"fuel-smell": "yes"},
    )


def test_an_answer_given_meanwhile_by_somebody_else_is_shown(record, history, story):
    version = str(history.case_on_file(story.case).version)
    record("first", {"reproduced": "no", "version": version})
    page = record("first", {"reproduced": "yes", "version": version})
    assert page.status == 409
    assert "reproduced: tried, did not show" in page.text


@pytest.mark.parametrize("kind", ["result", "symptom", "code", "cleared", "job", "duty", "covers", "first"])
def test_an_empty_post_is_answered_with_sentences_or_a_list(record, kind):
    assert record(kind, {}).status in (409, 422)


@pytest.mark.parametrize("kind", ["result", "symptom", "code", "cleared", "job"])
def test_markup_in_every_field_is_shown_as_text(record, kind):
    nasty = "<script>alert(1)</script>"
    names = (
        "test",
        "place",
        "outcome",
        "reading",
        "unit",
        "low",
        "symptom",
        "presence",
        "code",
        "state",
        "freeze_frame",
        "where",
        "km_ago",
        "day",
        "operation",
        "minutes",
        "note",
        "visit",
        "source",
        "entry_id",
    )
    page = record(
        kind,
        {
            **(LEAK if kind == "result" else {}),
            **dict.fromkeys(names, nasty),
            **({"test": "leak-down"} if kind == "result" else {}),
        },
    )
    assert page.status == 422
    assert not page.root.all("script")


def test_a_test_that_is_not_of_this_complaint_is_found_by_part_of_its_name(ida, story):
    page = ida.get(f"/cases/{story.case}?record=result&q=hub runout")
    assert "record=result&test=hub-face-runout" in " ".join(a.attributes.get("href", "") for a in page.root.all("a"))
    part = ida.get(f"/cases/{story.case}?record=symptom&q=judder", part=True)
    assert part.root.all("div", id="pick_found")
    assert "judder while braking" in part.text
    assert "Nothing is called that" in ida.get(f"/cases/{story.case}?record=job&q=zzzz", part=True).text

"""Recording on the board: results, symptoms, codes, jobs, duties, covers; right, wrong, twice and stale."""

from __future__ import annotations

import pytest

from app.evidence.case import DutyState, Outcome, Presence, Source
from app.history.values import CaseDetails

LEAK = {"test": "leak-down", "place": "cyl-5", "outcome": "normal", "source": "measured here"}


@pytest.fixture
def record(ida, story):
    """Sends one entry of this case."""

    def send(kind: str, sent: dict[str, str], *, part: bool = True):
        return ida.post(f"/cases/{story.case}/{kind}", sent, part=part)

    return send


def results(history, story, test="leak-down"):
    return [result for visit in history.case(story.case).visits for result in visit.results if result.test == test]


def test_a_result_is_recorded_and_the_answer_is_the_fresh_form_with_the_renewed_board(record, history, story):
    page = record("result", LEAK)
    assert page.status == 200
    assert [one.attributes["hx-target"] for one in page.root.all("hx-partial")] == ["#drive", "#board", "#live"]
    assert (
        "Cylinder leak-down, cylinder 5: within limits" in page.id("entry").text
        or "cylinder 5: within limits" in page.id("entry").text
    )
    assert any("What changed" in heading for heading in page.headings())
    assert {result.place for result in results(history, story)} == {"cyl-1", "cyl-3", "cyl-5"}


def test_what_changed_is_also_read_out(record):
    page = record("result", LEAK)
    live = page.id("live")
    assert live.attributes["role"] == "status"
    assert "Recorded" in live.text


def test_without_script_a_result_leads_back_to_the_board(record, story):
    page = record("result", LEAK, part=False)
    assert (page.status, page.headers["location"]) == (303, f"/cases/{story.case}?record=result")


def test_after_a_result_the_form_offers_the_next_place(record):
    page = record("result", {**LEAK, "place": "cyl-1"})
    chosen = [one.attributes["value"] for one in page.field("Where?").all("input") if "checked" in one.attributes]
    assert chosen == ["cyl-2"]


def test_a_result_sent_twice_is_one_result(record, history, story, fresh_id):
    for _ in range(2):
        assert record("result", {**LEAK, "entry_id": fresh_id}).status == 200
    assert len(results(history, story)) == 3


def test_one_abnormal_all_others_clean_is_one_touch_and_recorded_once(record, history, story, fresh_id):
    sent = {
        "test": "leak-down",
        "place": "cyl-2",
        "outcome": "abnormal, all others clean",
        "source": "seen here",
        "entry_id": fresh_id,
    }
    record("result", sent)
    record("result", sent)
    new = results(history, story)[2:]
    assert {r.place: r.outcome for r in new} == {
        f"cyl-{n}": Outcome.ABNORMAL if n == 2 else Outcome.NORMAL for n in range(1, 7)
    }


def test_a_reading_is_judged_by_its_limits_and_kept_as_typed(record, history, story):
    sent = {
        **LEAK,
        "outcome": "by reading",
        "reading": "34",
        "unit": "%",
        "high": "20",
        "limits_from": "maker’s manual",
    }
    assert record("result", sent).status == 200
    result = results(history, story)[-1]
    assert result.outcome is Outcome.ABNORMAL
    assert (result.reading.typed, result.specification.high, result.specification.source) == (
        "34 %",
        20.0,
        "maker’s manual",
    )


def test_a_reading_too_near_its_limit_is_kept_as_uncertain_with_its_weights(record, history, story):
    sent = {
        **LEAK,
        "outcome": "by reading",
        "reading": "20",
        "unit": "%",
        "high": "20",
        "limits_from": "maker’s manual",
    }
    record("result", sent)
    result = results(history, story)[-1]
    assert result.outcome is Outcome.UNCERTAIN
    assert result.weights == pytest.approx((0.5, 0.5))


def test_a_situation_that_blinds_the_test_is_asked_and_kept(record, history, story):
    record("result", {**LEAK, "situation_engine-cold": "yes"})
    assert results(history, story)[-1].situations == {"engine-cold": True}


WRONG_RESULTS = [
    ({"place": ""}, "Where?", "place is missing"),
    ({"place": "cyl-9"}, "Where?", "not one of the cylinders"),
    ({"reading": "34", "unit": "bar"}, "Reading: leak-down loss", "pressure"),
    ({"reading": "34", "unit": ""}, "Reading: leak-down loss", "no unit"),
    ({"reading": "340", "unit": "%"}, "Reading: leak-down loss", "not believable"),
    ({"reading": "nan", "unit": "%"}, "Reading: leak-down loss", "not a number"),
    (
        {"reading": "34", "unit": "%", "high": "20", "limits_from": "manual"},
        "Reading: leak-down loss",
        "outside the limits",
    ),
    ({"reading": "3", "unit": "%", "high": "20"}, "Whose limits?", "whose limits"),
    (
        {"reading": "3", "unit": "%", "low": "30", "high": "20", "limits_from": "manual"},
        "Allowed up to",
        "under the lower one",
    ),
    ({"outcome": "by reading"}, "Reading: leak-down loss", "needed to judge"),
    ({"minutes": "-3"}, "Minutes spent", "cannot be"),
    ({"note": "x" * 5000}, "Note", "characters long"),
    ({"visit": "elsewhere"}, "Visit", "not part of the case"),
    ({"source": "dreamt"}, "How is it known?", "not said how"),
]


@pytest.mark.parametrize(("change", "label", "sentence"), WRONG_RESULTS)
def test_a_wrong_result_gets_its_sentence_keeps_its_values_and_writes_nothing(
    record, history, story, change, label, sentence
):
    page = record("result", {**LEAK, "note": "kept", **change})
    assert page.status == 422
    assert [child.attributes["id"] for child in page.root.children if not isinstance(child, str)] == ["entry"]
    assert sentence in page.problem_at(label)
    assert page.field("Note").attributes["value"] == change.get("note", "kept")
    assert len(results(history, story)) == 2


def test_a_result_without_an_outcome_is_refused_with_a_sentence(record):
    page = record("result", {**LEAK, "outcome": ""})
    assert page.status == 422
    assert "The outcome is missing" in page.text


def test_a_test_that_is_not_in_the_rules_leads_to_the_list(record):
    page = record("result", {**LEAK, "test": "crystal-ball"})
    assert page.status == 422
    assert "Which test?" in page.headings()


def test_without_script_a_wrong_result_comes_back_with_the_whole_page(record):
    page = record("result", {**LEAK, "place": ""}, part=False)
    assert page.status == 422
    assert page.root.all("html")
    assert page.id("board")


def test_each_result_keeps_a_snapshot_of_the_board_once(record, history, story, fresh_id):
    record("result", {**LEAK, "entry_id": fresh_id})
    record("result", {**LEAK, "entry_id": fresh_id})
    kept = history.snapshots(story.case)
    assert len(kept) == 1
    assert kept[0].board["hypotheses"]
    assert kept[0].board["next"]
    assert kept[0].rules_version


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


def test_the_ranking_answers_at_once_and_the_rest_follows(ida, story, fresh_id):
    sent = {"entry_id": fresh_id, "test": "hub-face-runout", "place": "front-left-wheel", "outcome": "normal",
            "source": "measured here", "visit": ""}  # fmt: skip
    first = ida.post(f"/cases/{story.case}/result", sent, part=True)
    assert first.status == 200
    assert "Working out which test tells most" in first.text
    waiting = next(p for p in first.root.all("p") if "hx-get" in p.attributes)
    rest = ida.get(waiting.attributes["hx-get"], part=True)
    assert rest.root.all("div", id="board")
    assert "Working out" not in rest.text
    assert "What changed with the last entry" in rest.text
    assert rest.root.all("li", class_="step")
    whole = ida.get(f"/cases/{story.case}")
    assert "Working out" not in whole.text

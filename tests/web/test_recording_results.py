"""Recording a test result on the board: right, wrong, twice; the ranking answers, the rest follows."""

from __future__ import annotations

import pytest

from app.evidence.case import Outcome
from tests.web.story import LEAK


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

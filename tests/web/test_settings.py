"""The settings page: each figure right and wrong, twice, without script, by who may; and what it does to the advice."""

from __future__ import annotations

import json

import pytest

from app.history.figures import Figure, FigureKind
from app.history.values import PROGRAM, Role
from tests.cases import real_rules
from tests.web.conftest import Browser
from tests.web.story import NOW

GOOD = {"kind": "operation minutes", "about": "renew an ignition coil", "family": "big estate", "value": "25"}


@pytest.fixture
def boss(ida, history) -> Browser:
    """The manager's browser."""
    with history.write(PROGRAM, NOW) as desk:
        person = desk.add_person("Runa Holt", Role.MANAGER)
    return Browser(ida.app, {"proofbay_person": person})


def coil() -> str:
    return real_rules().operations["renew-coil"].name


def test_a_figure_is_set_and_shown_with_who_and_when(boss, history):
    page = boss.post("/settings", {**GOOD, "about": coil()})
    assert (page.status, page.headers["location"]) == (303, "/settings")
    [found] = history.figures()
    assert found.figure == Figure(FigureKind.OPERATION, 25.0, "25", "renew-coil", "big estate")
    shown = boss.get("/settings")
    assert f"Operation minutes: {coil()}, for big estate" in shown.text
    assert "Runa Holt" in shown.text


WRONG = [
    ({"kind": ""}, "What is it?", "not said what"),
    ({"kind": "weight"}, "What is it?", "not said what"),
    ({"about": ""}, "Of which operation, test, cover or part?", "not said what the figure is about"),
    ({"about": "renew the flux gate"}, "Of which operation, test, cover or part?", "not in the rules"),
    ({"value": ""}, "Figure", "no number"),
    ({"value": "soon"}, "Figure", "not a number"),
    ({"value": "-5"}, "Figure", "cannot be"),
    ({"value": "1e400"}, "Figure", "too big"),
    ({"value": "99999"}, "Figure", "too much"),
    ({"value": "1,234.5"}, "Figure", "more than one way"),
    ({"family": "x" * 90}, "For which vehicles?", "characters long"),
    ({"kind": "part price", "about": "ignition coil"}, "For which vehicles?", "Only minutes"),
    ({"kind": "labour rate", "family": ""}, "Of which operation, test, cover or part?", "about nothing else"),
    ({"kind": "labour rate", "family": "", "about": "", "value": "0"}, "Figure", "cannot be"),
    ({"kind": "currency", "family": "", "about": "", "value": "90"}, "Figure", "no currency"),
]


@pytest.mark.parametrize("part", [False, True], ids=["whole page", "part"])
@pytest.mark.parametrize(("change", "label", "sentence"), WRONG)
def test_a_wrong_figure_gets_its_sentence_and_keeps_what_was_typed(boss, history, change, label, sentence, part):
    sent = {**GOOD, "about": coil(), **change}
    page = boss.post("/settings", sent, part=part)
    assert page.status == 422
    assert sentence in page.problem_at(label)
    assert page.field("Figure").attributes["value"] == sent["value"]
    assert page.field("Of which operation, test, cover or part?").attributes["value"] == sent["about"]
    assert history.figures() == ()


def test_a_slip_in_a_name_is_answered_with_the_name_meant(boss):
    page = boss.post("/settings", {**GOOD, "about": coil()[:-1]})
    assert f"Did you mean “{coil()}”?" in page.problem_at("Of which operation, test, cover or part?")


def test_who_is_no_manager_is_told_so_and_nothing_is_written(ida, history):
    page = ida.post("/settings", {**GOOD, "about": coil()})
    assert page.status == 403
    assert "Only a manager changes settings; Ida Lorne is technician." in page.text
    assert history.figures() == ()


def test_nobody_named_cannot_set_anything(stranger, history):
    assert stranger.post("/settings", {**GOOD, "about": coil()}).status == 403
    assert history.figures() == ()


def test_two_people_set_the_same_and_the_slower_sees_both(boss, history):
    rate = {"kind": "labour rate", "value": "95"}
    assert boss.post("/settings", rate).status == 303
    page = boss.post("/settings", {**rate, "value": "80"})
    assert page.status == 409
    assert "Theirs: Labour rate: 95, by Runa Holt" in page.text
    assert "Yours: 80" in page.text
    assert history.figures()[0].figure.value == 95.0
    again = boss.post("/settings", {**rate, "value": "80", "seen": page.hidden("seen")})
    assert again.status == 303
    assert [one.figure.value for one in history.figures()] == [80.0]


def test_a_figure_is_changed_from_its_own_line_and_taken_back(boss, history):
    boss.post("/settings", {"kind": "hours when nothing listed helps", "value": "4"})
    [found] = history.figures()
    form = boss.get(f"/settings?figure={found.id}")
    assert form.field("Figure").attributes["value"] == "4"
    assert form.hidden("seen") == found.id
    assert boss.post(f"/settings/{found.id}/take-back", {"version": "1"}).status == 303
    assert history.figures() == ()
    again = boss.post(f"/settings/{found.id}/take-back", {"version": "1"})
    assert again.status == 409
    assert "taken back already" in again.text


def test_the_same_form_sent_twice_sets_one_figure(boss, history, fresh_id):
    for _ in range(2):
        assert boss.post("/settings", {"kind": "labour rate", "value": "95", "entry_id": fresh_id}).status == 303
    assert len(history.figures()) == 1


def test_the_next_advice_reckons_with_the_shops_rate_and_currency(boss, story):
    assert "90 EUR an hour" in boss.get(f"/cases/{story.case}/advice").text
    boss.post("/settings", {"kind": "labour rate", "value": "120"})
    boss.post("/settings", {"kind": "currency", "value": "CHF"})
    assert "120 CHF an hour" in boss.get(f"/cases/{story.case}/advice").text


def test_a_vehicles_family_is_saved_and_the_slower_one_sees_both(ida, history, story):
    version = ida.get(f"/vehicles/{story.vehicle}").hidden("version")
    page = ida.post(f"/vehicles/{story.vehicle}/family", {"family": "big estate", "version": version})
    assert page.status == 303
    assert history.vehicle(story.vehicle).vehicle.family == "big estate"
    late = ida.post(f"/vehicles/{story.vehicle}/family", {"family": "van", "version": version})
    assert late.status == 409
    assert "Theirs: big estate" in late.text
    assert "Yours: van" in late.text
    long = ida.post(f"/vehicles/{story.vehicle}/family", {"family": "x" * 90, "version": "2"})
    assert long.status == 422
    assert "characters long" in long.problem_at("Vehicle family, in your words")


def test_minutes_of_a_family_hold_for_its_vehicles_alone(boss, history, story):
    def repair() -> dict[str, object]:
        told = json.loads(boss.get(f"/cases/{story.case}/board.json").response.text)
        return {one["operation"]: one["minutes"] for one in told["advice"]["repairs"]}

    operation, minutes = next(iter(repair().items()))
    figure = {"kind": "operation minutes", "about": operation, "value": "777", "family": "van"}
    assert boss.post("/settings", figure).status == 303
    assert repair()[operation] == minutes
    with history.write(PROGRAM, NOW) as desk:
        desk.set_family(story.vehicle, seen=history.vehicle(story.vehicle).version, family="van")
    assert repair()[operation] == 777.0

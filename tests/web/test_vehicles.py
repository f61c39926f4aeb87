"""A new vehicle and a new visit: right, each field wrong, twice, without script; and the history as one timeline."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

GOOD = {
    "plate": "BAY 900",
    "vin": "",
    "name": "blue van",
    "customer": "Otto Fenn",
    "engine": "1 2 3 4",
    "trait_fuel": "diesel",
}
VISIT = {"where": "here", "day": "2026-05-30", "odometer": "84950", "odometer_unit": "km", "complaint": "Worse now."}
NASTY = "<script>alert(1)</script>\"'&<b>"


def test_a_new_vehicle_is_filed_and_shown(ida, history, fresh_id):
    page = ida.post("/vehicles/new", {**GOOD, "entry_id": fresh_id})
    assert (page.status, page.headers["location"]) == (303, f"/vehicles/{fresh_id}")
    shown = ida.get(f"/vehicles/{fresh_id}")
    assert shown.heading == "BAY 900, blue van"
    assert "fuel: diesel" in shown.text
    assert history.vehicle(fresh_id).customer.name == "Otto Fenn"


def test_the_same_form_sent_twice_files_one_vehicle(ida, history, fresh_id):
    for _ in range(2):
        assert ida.post("/vehicles/new", {**GOOD, "entry_id": fresh_id}).status == 303
    assert len(history.find("BAY 900")) == 1


WRONG_VEHICLES = [
    ({"plate": "bay-417"}, "Plate", "on file already"),
    ({"plate": "", "name": "", "vin": ""}, "Plate", "called nothing"),
    ({"plate": "x" * 200}, "Plate", "characters long"),
    ({"engine": ""}, "Cylinders", "missing"),
    ({"engine": "9 9 9"}, "Cylinders", "no set of cylinders"),
    ({"engine": "other", "banks": "1 2 / 2 3"}, "Another engine: cylinders of each bank", "no set of cylinders"),
    ({"firing_order": "1 2 3"}, "Firing order", "each cylinder once"),
    ({"trait_fuel": "wood"}, "Fuel", "not one of the choices"),
]


@pytest.mark.parametrize("part", [False, True], ids=["whole page", "part"])
@pytest.mark.parametrize(("change", "label", "sentence"), WRONG_VEHICLES)
def test_a_wrong_vehicle_gets_its_sentence_and_keeps_what_was_typed(ida, history, change, label, sentence, part):
    page = ida.post("/vehicles/new", {**GOOD, "phone": "0555 99", **change}, part=part)
    assert page.status == 422
    assert sentence in page.problem_at(label)
    assert page.field("Telephone").attributes["value"] == "0555 99"
    assert bool(page.root.all("html")) is not part
    assert not history.find("BAY 900")


def test_what_looks_wrong_in_a_vin_is_advice_and_no_refusal(ida, fresh_id):
    page = ida.post("/vehicles/new", {**GOOD, "vin": "SHART1", "entry_id": fresh_id})
    assert page.status == 303
    assert "6 characters" in ida.get(f"/vehicles/{fresh_id}").text


def test_markup_typed_into_every_field_is_shown_as_text(ida, fresh_id):
    sent = {**GOOD, "plate": "BAY 901", "name": NASTY, "customer": NASTY, "phone": NASTY, "entry_id": fresh_id}
    assert ida.post("/vehicles/new", sent).status == 303
    page = ida.get(f"/vehicles/{fresh_id}")
    assert NASTY in page.heading
    assert not [script for script in page.root.all("script") if "src" not in script.attributes]


def test_the_history_tells_all_visits_with_their_entries_their_source_and_their_case(ida, story):
    page = ida.get(f"/vehicles/{story.vehicle}")
    assert any("Weir Garage" in heading for heading in page.headings())
    assert any("our workshop" in heading for heading in page.headings())
    row = page.id(f"e-{story.results[0]}")
    assert "measured here" in row.text
    assert "Ida Lorne" in row.text
    assert f"/cases/{story.case}" in {link.attributes["href"] for link in row.all("a")}


def test_a_new_visit_is_filed_in_its_place_and_joined_to_the_case(ida, history, story):
    page = ida.post(f"/vehicles/{story.vehicle}/visits/new", {**VISIT, "case": story.case})
    assert (page.status, page.headers["location"]) == (303, f"/cases/{story.case}")
    assert len(history.case(story.case).visits) == 3


def test_miles_are_kept_as_typed_and_counted_in_kilometres(ida, history, story):
    """One mile is 1.609344 km exactly (international yard and pound agreement, 1959)."""
    ida.post(f"/vehicles/{story.vehicle}/visits/new", {**VISIT, "odometer": "60000", "odometer_unit": "mi"})
    odometer = history.timeline(story.vehicle).visits[-1].stay.odometer
    assert (odometer.typed, odometer.km) == ("60000", pytest.approx(96560.64))


WRONG_VISITS = [
    ({"where": ""}, "Where was it?", "not said where"),
    ({"day": (date.today() + timedelta(days=3)).isoformat()}, "Day", "future"),
    ({"day": "31.05.2026"}, "Day", "not a date"),
    ({"odometer": "10"}, "Odometer", "earlier visit already had"),
    ({"odometer": "1e400"}, "Odometer", "too big"),
    ({"odometer": "84,950.5"}, "Odometer", "more than one way"),
    ({"odometer": "-5"}, "Odometer", "cannot be"),
    ({"odometer_unit": ""}, "Unit", "no unit"),
    ({"odometer_unit": "furlong"}, "Unit", "no unit"),
    ({"minutes": "soon"}, "Minutes spent", "not a number"),
    ({"complaint": "x" * 5000}, "Complaint, in the customer’s words", "characters long"),
    ({"before_visit": "nothing"}, "Without a day: before which visit?", "not on file"),
]


@pytest.mark.parametrize(("change", "label", "sentence"), WRONG_VISITS)
def test_a_wrong_visit_gets_its_sentence_and_nothing_is_written(ida, history, story, change, label, sentence):
    page = ida.post(f"/vehicles/{story.vehicle}/visits/new", {**VISIT, "shop": "kept", **change})
    assert page.status == 422
    assert sentence in page.problem_at(label)
    assert page.field("Name of the other shop").attributes["value"] == "kept"
    assert len(history.timeline(story.vehicle).visits) == 2


def test_a_visit_without_a_day_says_so_and_goes_before_the_one_it_names(ida, history, story):
    sent = {"where": "other", "when": "last winter", "before_visit": story.visits[0]}
    assert ida.post(f"/vehicles/{story.vehicle}/visits/new", sent).status == 303
    assert history.timeline(story.vehicle).visits[0].stay.when == "last winter"
    assert "last winter" in ida.get(f"/vehicles/{story.vehicle}").text

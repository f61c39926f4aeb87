"""Finding a vehicle, and who is working."""

from __future__ import annotations

import pytest


@pytest.mark.parametrize("typed", ["BAY 417", "bay417", "grey est", "Mara", "1043"])
def test_a_vehicle_is_found_by_plate_name_customer_or_repair_order(ida, typed):
    page = ida.get(f"/?q={typed}")
    assert any(text.startswith("BAY 417") for text in page.links())


def test_typing_asks_for_the_list_alone(ida):
    page = ida.get("/?q=bay", part=True)
    assert [child.attributes["id"] for child in page.root.all("section")] == ["found"]
    assert not page.root.all("html")


def test_nothing_found_is_said(ida):
    assert "No vehicle found" in ida.get("/?q=zzz999").text


def test_the_open_cases_stand_below(ida, story):
    assert f"/cases/{story.case}" in ida.get("/").links().values()


def test_nobody_can_write_before_saying_who_is_working(stranger, history):
    page = stranger.post("/vehicles/new", {"plate": "NEW 1", "engine": "1 2 3 4"})
    assert page.status == 403
    assert "/who" in page.links().values()
    assert not history.find("NEW 1")


def test_choosing_a_name_sets_it_for_this_browser_and_goes_back(stranger, story):
    page = stranger.post("/who", {"person": story.person, "back": "/closed"})
    assert (page.status, page.headers["location"]) == (303, "/closed")
    cookie = page.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=lax" in cookie


@pytest.mark.parametrize(
    "back", ["//elsewhere.example", "https://elsewhere.example", "/\\elsewhere.example", "javascript:1"]
)
def test_choosing_a_name_never_leads_to_another_site(stranger, story, back):
    assert stranger.post("/who", {"person": story.person, "back": back}).headers["location"] == "/"


def test_somebody_new_can_be_added_and_works_at_once(stranger, history):
    page = stranger.post("/who", {"name": "Ola Brandt", "role": "technician"})
    assert page.status == 303
    assert "Ola Brandt" in {person.name for person in history.people()}


@pytest.mark.parametrize(
    "sent", [{"name": "", "role": "technician"}, {"name": "x" * 100, "role": "technician"}, {"person": "nobody"}]
)
def test_a_person_without_a_name_or_not_on_file_is_refused(stranger, history, sent):
    before = history.people()
    page = stranger.post("/who", sent)
    assert page.status == 422
    assert page.problem_at("Name")
    assert history.people() == before

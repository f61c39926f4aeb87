"""Every page of a case to which nothing listed fits: the noise of a cooling that this vehicle is said not to have."""

from __future__ import annotations

from datetime import date

import pytest

from app.evidence.case import Presence, Source, SymptomSeen, Vehicle
from app.history.values import At, CaseDetails, Person, Reproduced, Role, Stay
from app.rules.words import SymptomId
from app.vehicle.layout import VEHICLE
from tests.board.test_nothing_fits import WITHOUT
from tests.web.story import NOW

NOISE = SymptomId("ac-noise")


@pytest.fixture
def case(history, story) -> str:
    with history.write(Person(story.person, "Ida Lorne", Role.TECHNICIAN), NOW) as desk:
        vehicle = desk.add_vehicle(Vehicle(WITHOUT, "green box van", "BAY 88"), None)
        visit = desk.add_visit(vehicle, Stay(True, day=date(2026, 5, 28)), today=NOW.date())
        opened = desk.open_case(vehicle, CaseDetails(NOISE, VEHICLE, Reproduced.YES, (), {}), visits=(visit,))
        seen = SymptomSeen(NOISE, VEHICLE, Presence.PRESENT, Source.SEEN_HERE)
        desk.record_symptom(At(visit, opened), seen)
    return opened


@pytest.mark.parametrize(
    ("address", "sentence"),
    [
        ("", "Not explained by anything listed"),
        ("/matrix", "Nothing can be ranked yet"),
        ("/advice", "no repair"),
        ("/where-we-stand", "Not explained by anything listed"),
        ("/earlier-work", "Earlier work"),
        ("/proof", "Proof of repair"),
        ("/close", "Close"),
        ("/board.json", "not_in_rules"),
        ("/tests/leak-down", "leak-down"),
    ],
)
def test_every_page_can_be_read(ida, case, address, sentence):
    page = ida.get(f"/cases/{case}{address}")
    assert page.status == 200
    assert sentence.lower() in page.text.lower()

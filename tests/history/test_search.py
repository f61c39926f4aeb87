"""Finding a vehicle by what someone has at hand."""

from datetime import date

import pytest

from app.evidence.case import Vehicle
from app.history.values import CaseDetails, EntryKind, Stay
from tests.history.workshop import IDA, NOW, TODAY, V6


@pytest.fixture
def parked(history):
    """Three vehicles with what they are found by."""
    with history.write(IDA, NOW) as desk:
        owner = desk.add_customer('Marlo O"Brien-Vett')
        other = desk.add_customer("Märta Ünal")
        grey = desk.add_vehicle(Vehicle(V6, "grey estate", "KX-41 QP", "ZZZTEST0000417788"), owner)
        blue = desk.add_vehicle(Vehicle(V6, "blue van", "KX-42 RT"), other)
        desk.add_vehicle(Vehicle(V6, "50 % silver* saloon", "BD-7 ZZ"), None)
        visit = desk.add_visit(grey, Stay(True, "", "R-2041", date(2026, 4, 2)), today=TODAY)
        desk.add_visit(blue, Stay(False, "", "R-2042"), today=TODAY)
        desk.open_case(grey, CaseDetails("misfire-counted", "engine"), visits=(visit,))
    return history


def names(history, text):
    return [found.name for found in history.find(text)]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("KX-41 QP", ["grey estate"]),
        ("kx41qp", ["grey estate"]),
        ("kx", ["grey estate", "blue van"]),
        ("K", ["grey estate", "blue van"]),
        ("417788", ["grey estate"]),
        ("41Q", ["grey estate"]),
        ("R-2042", ["blue van"]),
        ("r2042", ["blue van"]),
        ("2042", ["blue van"]),
        ("kx\x0041", ["grey estate"]),
        ("\ufdd0", []),
        ("R-20", ["grey estate", "blue van"]),
        ('o"brien', ["grey estate"]),
        ('O"Brien-Vett', ["grey estate"]),
        ("ma", ["grey estate"]),
        ("MÄRTA", ["blue van"]),
        ("mä", ["blue van"]),
        ("estate grey", ["grey estate"]),
        ("silver*", ["50 % silver* saloon"]),
        ("50 %", []),
        ("estate van", []),
        ("nothing like it", []),
        ("", []),
        ("   ", []),
    ],
)
def test_what_is_found(parked, text, found):
    assert names(parked, text) == found


@pytest.mark.parametrize(
    "text",
    [
        "-",
        "*",
        '"',
        '""',
        "'",
        "a-",
        "NEAR(",
        "plate:KX",
        "AND OR NOT",
        "%",
        "_",
        "(",
        "x*",
        "^",
        "ab " * 4000,
        "a\x00b\x00c",
    ],
)
def test_signs_are_taken_literally(parked, text):
    assert isinstance(names(parked, text), list)
    assert names(parked, text) != ["grey estate", "blue van", "50 % silver* saloon"]


def test_a_whole_number_comes_before_its_longer_namesake(parked):
    with parked.write(IDA, NOW) as desk:
        desk.add_vehicle(Vehicle(V6, "red coupe", "KX-4"), None)
    assert names(parked, "KX4")[0] == "red coupe"


def test_a_found_vehicle_says_what_matched_and_what_is_open(parked):
    [found] = parked.find("R-2041")
    assert (found.matched, found.plate, found.customer) == ("repair order", "KX-41 QP", 'Marlo O"Brien-Vett')
    assert (found.visits, found.last_day, found.open_cases) == (1, date(2026, 4, 2), 1)


def test_no_more_than_asked_for(parked):
    assert len(parked.find("kx", limit=1)) == 1


def test_a_struck_out_visit_is_no_longer_found_by_its_number(parked):
    [found] = parked.find("R-2041")
    visit = parked.timeline(found.id).visits[0]
    with parked.write(IDA, NOW) as desk:
        desk.void(EntryKind.VISIT, visit.id, seen=1, why="wrong vehicle")
    assert names(parked, "R-2041") == names(parked, "2041") == []


def test_the_full_text_index_agrees_with_what_it_indexes(parked):
    with parked.engine.connect() as connection:
        connection.exec_driver_sql(
            "insert into vehicle_words_text(vehicle_words_text, rank) values ('integrity-check', 1)"
        )

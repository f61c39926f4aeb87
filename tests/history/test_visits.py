"""Visits in order of time, and what cannot be true of them."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.evidence.case import DutyDone, DutyState, Source
from app.history.errors import Changed, NotHere
from app.history.values import At, CaseDetails, EntryKind, Stay
from app.problem import Refused
from tests.history.workshop import IDA, LASH_SET, LEAK_DOWN, MISFIRE, NOW, TODAY, a_case, a_vehicle, km


def add(history, vehicle, **stay):
    with history.write(IDA, NOW) as desk:
        return desk.add_visit(vehicle, Stay(here=False, **stay), today=TODAY)


def shops(history, vehicle):
    return [visit.stay.shop for visit in history.timeline(vehicle).visits]


def where_refused(action):
    with pytest.raises(Refused) as caught:
        action()
    return [problem.where for problem in caught.value.problems]


def test_visits_are_read_in_order_of_time_however_they_were_entered(history):
    vehicle = a_vehicle(history)
    add(history, vehicle, shop="second", day=date(2026, 3, 1))
    first = add(history, vehicle, shop="first", day=date(2025, 3, 1))
    add(history, vehicle, shop="last, day not known")
    add(history, vehicle, shop="before the first", when="some winter", before=first)
    assert shops(history, vehicle) == ["before the first", "first", "second", "last, day not known"]


def test_a_visit_that_has_not_come_yet_is_refused(history):
    vehicle = a_vehicle(history)
    assert where_refused(lambda: add(history, vehicle, day=TODAY + timedelta(days=1))) == ["day"]
    assert add(history, vehicle, day=TODAY)


@pytest.mark.parametrize(("day", "reading"), [(date(2026, 2, 1), 900.0), (date(2025, 1, 1), 1100.0)])
def test_an_odometer_that_goes_backwards_is_refused(history, day, reading):
    vehicle = a_vehicle(history)
    add(history, vehicle, day=date(2025, 6, 1), odometer=km(1000))
    assert where_refused(lambda: add(history, vehicle, day=day, odometer=km(reading))) == ["odometer"]
    assert add(history, vehicle, day=day)


def test_an_odometer_is_held_against_neighbours_in_time_not_in_order_of_entry(history):
    vehicle = a_vehicle(history)
    add(history, vehicle, day=date(2026, 1, 1), odometer=km(2000))
    add(history, vehicle, day=date(2025, 1, 1), odometer=km(1000))
    assert add(history, vehicle, day=date(2025, 6, 1), odometer=km(1500))
    assert where_refused(lambda: add(history, vehicle, day=date(2025, 6, 2), odometer=km(2500))) == ["odometer"]


def test_an_odometer_is_held_against_every_earlier_visit(history):
    vehicle = a_vehicle(history)
    for month, reading in ((1, 1000), (2, 3000)):
        add(history, vehicle, day=date(2025, month, 1), odometer=km(reading))
    assert where_refused(lambda: add(history, vehicle, day=date(2025, 3, 1), odometer=km(2000))) == ["odometer"]


def test_visits_of_one_day_keep_the_order_they_were_entered_in(history):
    vehicle = a_vehicle(history)
    for shop in ("morning", "noon", "evening"):
        add(history, vehicle, shop=shop, day=date(2025, 1, 1))
    assert shops(history, vehicle) == ["morning", "noon", "evening"]


def test_a_struck_out_visit_holds_no_odometer_against_others_and_leaves_the_case(history):
    filed = a_case(history, visits=3)
    with history.write(IDA, NOW) as desk:
        desk.void(EntryKind.VISIT, filed.visits[1], seen=1, why="another vehicle")
        desk.add_visit(filed.vehicle, Stay(False, day=date(2025, 1, 10), odometer=km(500)), today=TODAY)
    assert [visit.number for visit in history.case(filed.case).visits] == [1, 2]
    assert history.timeline(filed.vehicle).visits[1].struck.why == "another vehicle"


def test_a_changed_day_moves_the_visit(history):
    vehicle = a_vehicle(history)
    early = add(history, vehicle, shop="early", day=date(2025, 1, 1))
    add(history, vehicle, shop="late", day=date(2025, 6, 1))
    with history.write(IDA, NOW) as desk:
        desk.change_visit(early, 1, stay=Stay(False, "moved", day=date(2025, 9, 1)), today=TODAY)
    assert shops(history, vehicle) == ["late", "moved"]
    with pytest.raises(Changed) as caught, history.write(IDA, NOW) as desk:
        desk.change_visit(early, 1, stay=Stay(False, "mine"), today=TODAY)
    assert caught.value.current.stay.shop == "moved"


def test_a_change_without_a_new_day_leaves_a_visit_without_a_day_where_it_was(history):
    vehicle = a_vehicle(history)
    dated = add(history, vehicle, shop="dated", day=date(2025, 1, 1))
    vague = add(history, vehicle, shop="vague", before=dated)
    with history.write(IDA, NOW) as desk:
        desk.change_visit(vague, 1, stay=Stay(False, "still vague"), today=TODAY)
    assert shops(history, vehicle) == ["still vague", "dated"]


def test_a_visit_of_another_vehicle_cannot_join_a_case(history, filed):
    other = a_case(history, name="blue van")

    def join():
        with history.write(IDA, NOW) as desk:
            desk.link_visit(filed.case, other.visits[0])

    assert where_refused(join) == ["visit"]


def test_a_place_the_vehicle_does_not_have_is_refused(history, filed):
    def record(place):
        with history.write(IDA, NOW) as desk:
            desk.record_result(filed.at(1), replace(LEAK_DOWN, place=place))

    assert where_refused(lambda: record("cyl-7")) == ["place"]
    record("cyl-6")


def test_a_case_is_about_a_place_the_vehicle_has(history, filed):
    def open_it():
        with history.write(IDA, NOW) as desk:
            desk.open_case(filed.vehicle, CaseDetails("misfire-counted", "cyl-9"))

    assert where_refused(open_it) == ["place"]


def test_nothing_is_recorded_at_a_visit_that_is_not_here_or_struck_out(history, filed):
    with pytest.raises(NotHere), history.write(IDA, NOW) as desk:
        desk.record_symptom(At("no such visit"), MISFIRE)
    with history.write(IDA, NOW) as desk:
        desk.void(EntryKind.VISIT, filed.visits[0], seen=1, why="twice")

    def record():
        with history.write(IDA, NOW) as desk:
            desk.record_symptom(filed.at(1), MISFIRE)

    assert where_refused(record) == ["visit"]


def test_a_duty_is_seen_on_the_same_vehicle_and_not_before_its_job(history, filed):
    other = a_case(history, name="blue van")
    with history.write(IDA, NOW) as desk:
        job = desk.record_job(filed.at(2), LASH_SET)

    def look(at):
        with history.write(IDA, NOW) as desk:
            desk.record_duty(at, job, DutyDone("measured-cold", DutyState.VERIFIED, Source.SEEN_HERE, 1))

    assert where_refused(lambda: look(other.at(1))) == ["job"]
    assert where_refused(lambda: look(filed.at(1))) == ["visit"]
    look(filed.at(2))

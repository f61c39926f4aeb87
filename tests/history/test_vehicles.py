"""Filing and changing vehicles, customers and people."""

from dataclasses import replace

import pytest

from app.evidence.case import Vehicle
from app.history.errors import Changed, NotHere
from app.history.ids import new_id
from app.history.values import Role
from app.problem import Refused
from tests.history.workshop import IDA, NOW, V6, a_vehicle


def refused(action):
    with pytest.raises(Refused) as caught:
        action()
    return [problem.where for problem in caught.value.problems]


@pytest.mark.parametrize("again", ["KX-41 QP", "kx41qp", " KX 41QP "])
def test_a_plate_is_filed_once_however_it_is_written(history, again):
    a_vehicle(history, plate="KX-41 QP")
    assert refused(lambda: a_vehicle(history, name="blue van", plate=again)) == ["plate"]
    assert len(history.find("KX-41 QP")) == 1


def test_plate_and_vin_are_both_named_when_both_are_on_file(history):
    grey = Vehicle(V6, "grey estate", "KX-41 QP", "ZZZTEST0000000001")
    with history.write(IDA, NOW) as desk:
        desk.add_vehicle(grey, None)

    def again():
        with history.write(IDA, NOW) as desk:
            desk.add_vehicle(replace(grey, name="blue van"), None)

    assert refused(again) == ["plate", "vin"]


def test_vehicles_without_a_plate_do_not_collide(history):
    assert a_vehicle(history) != a_vehicle(history)


def test_a_vehicle_is_called_something(history):
    assert refused(lambda: a_vehicle(history, name=" ")) == ["name"]


def test_sent_twice_is_filed_once(history):
    entry = new_id(NOW)
    for _ in range(2):
        with history.write(IDA, NOW) as desk:
            assert desk.add_vehicle(Vehicle(V6, "grey estate", "KX-41 QP"), None, entry_id=entry) == entry
    assert [found.id for found in history.find("KX-41 QP")] == [entry]


def test_the_second_to_change_a_vehicle_is_told_what_it_is_now(history):
    vehicle = a_vehicle(history)
    with history.write(IDA, NOW) as desk:
        desk.change_vehicle(vehicle, 1, vehicle=Vehicle(V6, "green estate"), customer=None)
    with pytest.raises(Changed) as caught, history.write(IDA, NOW) as desk:
        desk.change_vehicle(vehicle, 1, vehicle=Vehicle(V6, "blue estate"), customer=None)
    assert (caught.value.current.vehicle.name, caught.value.current.version) == ("green estate", 2)
    assert history.vehicle(vehicle) == caught.value.current
    assert [found.name for found in history.find("green")] == ["green estate"]
    assert history.find("grey") == ()


def test_a_changed_vehicle_may_keep_its_own_plate(history):
    vehicle = a_vehicle(history, plate="KX-41 QP")
    with history.write(IDA, NOW) as desk:
        desk.change_vehicle(vehicle, 1, vehicle=Vehicle(V6, "grey estate", "KX 41 QP"), customer=None)
    assert history.vehicle(vehicle).vehicle.plate == "KX 41 QP"


def test_nothing_is_stored_when_the_block_fails(history):
    def add_both():
        with history.write(IDA, NOW) as desk:
            desk.add_person("Ada Quill", Role.MANAGER)
            desk.add_vehicle(Vehicle(V6, "grey estate"), "no such customer")

    with pytest.raises(NotHere):
        add_both()
    assert history.people() == ()


def test_people_and_customers_come_back_by_name(history):
    with history.write(IDA, NOW) as desk:
        desk.add_person("Tom Reed", Role.TECHNICIAN)
        desk.add_person("Ada Quill", Role.MANAGER)
        desk.add_customer("Zoe Marsh", "555 0102")
    assert [(person.name, person.role) for person in history.people()] == [
        ("Ada Quill", Role.MANAGER),
        ("Tom Reed", Role.TECHNICIAN),
    ]
    assert [(customer.name, customer.phone) for customer in history.customers()] == [("Zoe Marsh", "555 0102")]


def test_a_write_needs_a_time_with_a_zone(history):
    with history.write(IDA, NOW) as desk:
        assert desk.now.tzinfo is not None
    with pytest.raises(ValueError, match="zone"), history.write(IDA, NOW.replace(tzinfo=None)):
        pass

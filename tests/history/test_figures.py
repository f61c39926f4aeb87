"""The shop's own figures: one stands for each thing and family, the old one stays readable, the slower one is told."""

from __future__ import annotations

import pytest
from sqlmodel import Session, select

from app.history.errors import Changed, NotHere
from app.history.figures import Figure, FigureKind
from app.history.tables.conclusions import TrailRow
from app.history.tables.figures import FigureRow
from app.problem import Refused
from tests.history.workshop import IDA, NOW, a_vehicle

RATE = Figure(FigureKind.LABOUR_RATE, 95.0, "95")
LASH = Figure(FigureKind.OPERATION, 200.0, "200", "adjust-valve-lash", "big estate")


def say(history, figure: Figure, *, seen: str = "", entry_id: str = "") -> str:
    with history.write(IDA, NOW) as desk:
        return desk.set_figure(figure, seen=seen, entry_id=entry_id)


def test_a_figure_is_read_back_with_who_and_when(history):
    say(history, LASH)
    [found] = history.figures()
    assert found.figure == LASH
    assert found.at == NOW


def test_another_figure_for_the_same_takes_its_place_and_the_old_one_stays_readable(history):
    first = say(history, RATE)
    say(history, Figure(FigureKind.LABOUR_RATE, 99.0, "99"), seen=first)
    [found] = history.figures()
    assert found.figure.value == 99.0
    with Session(history.engine) as session:
        [old] = session.exec(select(FigureRow).where(FigureRow.id == first)).all()
        assert (old.value, old.voided_by) == (95.0, "ida")
        assert {row.what for row in session.exec(select(TrailRow)).all()} >= {"set a figure"}


def test_the_same_thing_for_another_family_is_another_figure(history):
    say(history, LASH)
    say(history, Figure(FigureKind.OPERATION, 150.0, "150", "adjust-valve-lash"))
    assert len(history.figures()) == 2


def test_who_has_not_seen_what_stands_is_refused_and_told(history):
    say(history, RATE)
    with pytest.raises(Changed) as refusal:
        say(history, Figure(FigureKind.LABOUR_RATE, 80.0, "80"))
    assert refusal.value.current.figure == RATE
    assert history.figures()[0].figure == RATE


def test_who_replaces_a_figure_that_was_taken_back_is_told(history):
    first = say(history, RATE)
    with history.write(IDA, NOW) as desk:
        desk.take_back_figure(first, seen=1)
    with pytest.raises(Changed) as refusal:
        say(history, RATE, seen=first)
    assert refusal.value.current is None


def test_the_same_form_sent_twice_sets_one_figure(history):
    assert say(history, RATE, entry_id="once") == say(history, RATE, entry_id="once") == "once"
    assert len(history.figures()) == 1


def test_a_figure_taken_back_no_longer_stands_and_cannot_be_taken_back_again(history):
    first = say(history, RATE)
    with history.write(IDA, NOW) as desk:
        desk.take_back_figure(first, seen=1)
    assert history.figures() == ()
    with pytest.raises(Changed), history.write(IDA, NOW) as desk:
        desk.take_back_figure(first, seen=1)
    with pytest.raises(NotHere), history.write(IDA, NOW) as desk:
        desk.take_back_figure("nothing", seen=1)


def test_less_than_nothing_is_refused(history):
    with pytest.raises(Refused):
        say(history, Figure(FigureKind.PART, -1.0, "-1", "ignition coil"))
    assert history.figures() == ()


def test_a_vehicles_family_is_named_and_the_slower_one_is_told(history):
    vehicle = a_vehicle(history)
    with history.write(IDA, NOW) as desk:
        desk.set_family(vehicle, seen=1, family=" big estate ")
    assert history.vehicle(vehicle).vehicle.family == "big estate"
    assert history.vehicle_families() == ("big estate",)
    with pytest.raises(Changed) as refusal, history.write(IDA, NOW) as desk:
        desk.set_family(vehicle, seen=1, family="van")
    assert refusal.value.current.vehicle.family == "big estate"

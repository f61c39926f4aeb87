"""Places of a vehicle: which there are, which cover which, and traits as they hold at a place."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.vehicle.layout import Layout, Level, PlaceId, level_of

V6 = Layout(banks=((1, 3, 5), (2, 4, 6)), traits={"fuel": "petrol", "rear brakes": "drum", "brakes": "disc"})


@st.composite
def layouts(draw: st.DrawFn) -> Layout:
    cylinders = draw(st.integers(1, 12))
    cut = draw(st.integers(0, cylinders))
    numbers = tuple(range(1, cylinders + 1))
    banks = tuple(bank for bank in (numbers[:cut], numbers[cut:]) if bank)
    return Layout(banks=banks)


@settings(derandomize=True, max_examples=30)
@given(layouts())
def test_every_cylinder_lies_in_one_bank_and_in_the_engine(layout: Layout) -> None:
    for cylinder in layout.places(Level.CYLINDER):
        assert sum(layout.covers(bank, cylinder) for bank in layout.places(Level.BANK)) == 1
        assert layout.covers(PlaceId("engine"), cylinder)
        assert layout.covers(PlaceId("vehicle"), cylinder)


@settings(derandomize=True, max_examples=30)
@given(layouts())
def test_covering_is_an_order(layout: Layout) -> None:
    places = layout.all_places()
    for one in places:
        assert layout.covers(one, one)
        for other in places:
            assert one == other or not (layout.covers(one, other) and layout.covers(other, one))


@settings(derandomize=True, max_examples=30)
@given(layouts())
def test_a_place_says_its_own_level(layout: Layout) -> None:
    for level in Level:
        assert all(level_of(place) is level for place in layout.places(level))


def test_a_bank_covers_its_own_cylinders_only() -> None:
    assert layout_names("bank-1") == ["cyl-1", "cyl-3", "cyl-5"]


def layout_names(bank: str) -> list[str]:
    return [c for c in V6.places(Level.CYLINDER) if V6.covers(PlaceId(bank), c)]


@pytest.mark.parametrize(
    ("trait", "place", "value"),
    [
        ("brakes", "rear-left-wheel", "drum"),
        ("brakes", "front-left-wheel", "disc"),
        ("banks", "engine", "2"),
        ("fuel", "cyl-1", "petrol"),
        ("turbo", "engine", None),
    ],
)
def test_a_trait_holds_as_it_is_known_at_the_place(trait: str, place: str, value: str | None) -> None:
    assert V6.trait(trait, PlaceId(place)) == value


def test_places_are_said_as_the_trade_says_them() -> None:
    assert [V6.in_words(PlaceId(p)) for p in ("cyl-3", "bank-1", "rear-left-wheel", "front-axle")] == [
        "cylinder 3",
        "bank 1",
        "rear left wheel",
        "front axle",
    ]

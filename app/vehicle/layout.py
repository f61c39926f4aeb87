"""What a vehicle is made of, as far as faults need it: cylinders, banks, axles, wheels and traits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache
from typing import NewType

PlaceId = NewType("PlaceId", str)
"""A place on one vehicle: "vehicle", "engine", "bank-1", "cyl-3", "front-axle", "rear-left-wheel"."""


class Level(StrEnum):
    """A kind of place. One hand or one part acts at one level."""

    VEHICLE = "vehicle"
    ENGINE = "engine"
    BANK = "bank"
    CYLINDER = "cylinder"
    AXLE = "axle"
    WHEEL = "wheel"


Banks = tuple[tuple[int, ...], ...]
"""The cylinder numbers of each bank."""

VEHICLE = PlaceId("vehicle")
ENGINE = PlaceId("engine")
AXLES = ("front", "rear")
SIDES = ("left", "right")


@dataclass(frozen=True, slots=True)
class Layout:
    """The places of one vehicle and its traits.

    `banks` holds the cylinder numbers of each bank; an engine in line has one bank.
    `traits` holds what is known of the build: {"fuel": "petrol", "rear brakes": "drum"}; the names and
    their values are listed in seed_data/rules/places.yaml. A trait that is not given is not known.
    """

    banks: Banks
    firing_order: tuple[int, ...] = ()
    traits: Mapping[str, str] = field(default_factory=dict)

    def __hash__(self) -> int:
        return hash((self.banks, self.firing_order, frozenset(self.traits.items())))

    @property
    def cylinders(self) -> tuple[int, ...]:
        return tuple(sorted(number for bank in self.banks for number in bank))

    def places(self, level: Level) -> tuple[PlaceId, ...]:
        """Every place of this level on this vehicle, in the trade's order."""
        return places_of(level, self.banks)

    def all_places(self) -> tuple[PlaceId, ...]:
        return tuple(place for level in Level for place in self.places(level))

    def has(self, place: PlaceId) -> bool:
        return place in self.all_places()

    def covers(self, outer: PlaceId, inner: PlaceId) -> bool:
        """Whether `inner` is `outer` or lies in it: the bank covers its cylinders."""
        return inner == outer or outer in surroundings(inner, self.banks)

    def related(self, one: PlaceId, other: PlaceId) -> bool:
        return self.covers(one, other) or self.covers(other, one)

    def trait(self, name: str, place: PlaceId) -> str | None:
        """The trait as it holds at this place ("brakes" at a rear wheel is "rear brakes"); None: not known."""
        if level_of(place) in (Level.AXLE, Level.WHEEL):
            axle = place.split("-")[0]
            if f"{axle} {name}" in self.traits:
                return self.traits[f"{axle} {name}"]
        if name == "banks":
            return str(len(self.banks))
        return self.traits.get(name)

    def in_words(self, place: PlaceId) -> str:
        """The place as the trade says it: "cylinder 3", "bank 1", "rear left wheel"."""
        if place.startswith("cyl-"):
            return f"cylinder {place.removeprefix('cyl-')}"
        return place.replace("-", " ")


def fits_at(fits: Mapping[str, tuple[str, ...]], place: PlaceId, layout: Layout) -> bool:
    """Whether nothing known of the build at this place excludes what fits only such vehicles (trait -> values)."""
    return all(layout.trait(name, place) in (None, *values) for name, values in fits.items())


def bank_place(number: int) -> PlaceId:
    return PlaceId(f"bank-{number}")


def cylinder_place(number: int) -> PlaceId:
    return PlaceId(f"cyl-{number}")


@cache
def places_of(level: Level, banks: Banks) -> tuple[PlaceId, ...]:
    match level:
        case Level.VEHICLE:
            return (VEHICLE,)
        case Level.ENGINE:
            return (ENGINE,)
        case Level.BANK:
            return tuple(bank_place(number) for number in range(1, len(banks) + 1))
        case Level.CYLINDER:
            return tuple(cylinder_place(number) for number in sorted(n for bank in banks for n in bank))
        case Level.AXLE:
            return tuple(PlaceId(f"{axle}-axle") for axle in AXLES)
        case Level.WHEEL:
            return tuple(PlaceId(f"{axle}-{side}-wheel") for axle in AXLES for side in SIDES)


@cache
def surroundings(place: PlaceId, banks: Banks) -> frozenset[PlaceId]:
    """Every larger place around a place."""
    match level_of(place):
        case Level.VEHICLE:
            return frozenset()
        case Level.ENGINE | Level.AXLE:
            return frozenset({VEHICLE})
        case Level.BANK:
            return frozenset({ENGINE, VEHICLE})
        case Level.CYLINDER:
            number = int(place.removeprefix("cyl-"))
            bank = next(i for i, members in enumerate(banks, 1) if number in members)
            return frozenset({bank_place(bank), ENGINE, VEHICLE})
        case Level.WHEEL:
            return frozenset({PlaceId(f"{place.split('-')[0]}-axle"), VEHICLE})


@cache
def level_of(place: PlaceId) -> Level:
    """The level a place belongs to, read from its id."""
    if place in (VEHICLE, ENGINE):
        return Level(place)
    if place.startswith("bank-"):
        return Level.BANK
    if place.startswith("cyl-"):
        return Level.CYLINDER
    return Level.AXLE if place.endswith("-axle") else Level.WHEEL

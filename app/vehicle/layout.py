"""What a vehicle is made of, as far as faults need it: cylinders, banks, axles, wheels and traits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
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

    banks: tuple[tuple[int, ...], ...]
    firing_order: tuple[int, ...] = ()
    traits: Mapping[str, str] = field(default_factory=dict)

    @property
    def cylinders(self) -> tuple[int, ...]:
        return tuple(sorted(number for bank in self.banks for number in bank))

    def places(self, level: Level) -> tuple[PlaceId, ...]:
        """Every place of this level on this vehicle, in the trade's order."""
        match level:
            case Level.VEHICLE:
                return (VEHICLE,)
            case Level.ENGINE:
                return (ENGINE,)
            case Level.BANK:
                return tuple(bank_place(number) for number in range(1, len(self.banks) + 1))
            case Level.CYLINDER:
                return tuple(cylinder_place(number) for number in self.cylinders)
            case Level.AXLE:
                return tuple(PlaceId(f"{axle}-axle") for axle in AXLES)
            case Level.WHEEL:
                return tuple(PlaceId(f"{axle}-{side}-wheel") for axle in AXLES for side in SIDES)

    def all_places(self) -> tuple[PlaceId, ...]:
        return tuple(place for level in Level for place in self.places(level))

    def has(self, place: PlaceId) -> bool:
        return place in self.all_places()

    def covers(self, outer: PlaceId, inner: PlaceId) -> bool:
        """Whether `inner` is `outer` or lies in it: the bank covers its cylinders."""
        return inner == outer or outer in self._surroundings(inner)

    def related(self, one: PlaceId, other: PlaceId) -> bool:
        return self.covers(one, other) or self.covers(other, one)

    def _surroundings(self, place: PlaceId) -> tuple[PlaceId, ...]:
        match level_of(place):
            case Level.VEHICLE:
                return ()
            case Level.ENGINE | Level.AXLE:
                return (VEHICLE,)
            case Level.BANK:
                return (ENGINE, VEHICLE)
            case Level.CYLINDER:
                number = int(place.removeprefix("cyl-"))
                bank = next(i for i, members in enumerate(self.banks, 1) if number in members)
                return (bank_place(bank), ENGINE, VEHICLE)
            case Level.WHEEL:
                return (PlaceId(f"{place.split('-')[0]}-axle"), VEHICLE)

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


def bank_place(number: int) -> PlaceId:
    return PlaceId(f"bank-{number}")


def cylinder_place(number: int) -> PlaceId:
    return PlaceId(f"cyl-{number}")


def level_of(place: PlaceId) -> Level:
    """The level a place belongs to, read from its id."""
    if place in (VEHICLE, ENGINE):
        return Level(place)
    if place.startswith("bank-"):
        return Level.BANK
    if place.startswith("cyl-"):
        return Level.CYLINDER
    return Level.AXLE if place.endswith("-axle") else Level.WHEEL

"""A new vehicle: what it is called and how it is built, as far as faults need to know."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.board.words import capital
from app.evidence.case import Vehicle
from app.problem import Problem
from app.rules.library import Rules, Trait
from app.vehicle.layout import AXLES, Layout
from app.vehicle.vin import vin_advice
from app.web.forms.fields import NONE, Field, FieldMaker, Problems, Sent, too_long

ENGINES = (
    ("1 2 3", "3 in line"),
    ("1 2 3 4", "4 in line"),
    ("1 2 3 4 5", "5 in line"),
    ("1 2 3 4 5 6", "6 in line"),
    ("1 3 / 2 4", "flat 4, odd and even"),
    ("1 3 5 / 2 4 6", "V6 or flat 6, odd and even"),
    ("1 2 3 / 4 5 6", "V6 or flat 6, counted through"),
    ("1 3 5 7 / 2 4 6 8", "V8, odd and even"),
    ("1 2 3 4 / 5 6 7 8", "V8, counted through"),
    ("other", "another: write it below"),
)
MOST_CYLINDERS = 16


class VehicleSent(Sent):
    """Traits come as `trait_<name>`."""

    plate: str = ""
    vin: str = ""
    name: str = ""
    customer: str = ""
    phone: str = ""
    engine: str = ""
    banks: str = ""
    firing_order: str = ""


@dataclass(frozen=True, slots=True)
class VehicleFields:
    plate: Field
    vin: Field
    name: Field
    customer: Field
    phone: Field
    engine: Field
    banks: Field
    firing_order: Field
    traits: tuple[Field, ...]
    more_traits: tuple[Field, ...]


@dataclass(frozen=True, slots=True)
class NewVehicle:
    vehicle: Vehicle
    customer: str
    phone: str


def vehicle_fields(sent: VehicleSent, rules: Rules, *, problems: Problems = NONE) -> VehicleFields:
    make = FieldMaker("vehicle", problems, focus_on="plate")
    answers = sent.extra("trait_")
    return VehicleFields(
        plate=make.line("plate", "Plate", value=sent.plate),
        vin=make.line(
            "vin", "VIN", value=sent.vin, hint=vin_advice(sent.vin) or "17 characters; leave empty if not known."
        ),
        name=make.line("name", "What people call it", value=sent.name, hint="Such as: grey estate."),
        customer=make.line("customer", "Customer", value=sent.customer),
        phone=make.line("phone", "Telephone", value=sent.phone),
        engine=make.choice(
            "engine",
            "Cylinders",
            options=[("", "choose"), *ENGINES],
            chosen=sent.engine,
            hint="Bank 1 first, as the maker counts.",
        ),
        banks=make.line(
            "banks", "Another engine: cylinders of each bank", value=sent.banks, hint="Such as: 1 2 3 4 5 / 6 7 8 9 10."
        ),
        firing_order=make.line(
            "firing_order", "Firing order", value=sent.firing_order, hint="Such as: 1 3 4 2; leave empty if not known."
        ),
        traits=tuple(_trait(make, name, trait, answers) for name, trait in _asked(rules) if trait.asked_first),
        more_traits=tuple(_trait(make, name, trait, answers) for name, trait in _asked(rules) if not trait.asked_first),
    )


def _trait(make: FieldMaker, name: str, trait: Trait, answers: Mapping[str, str]) -> Field:
    options = [("", "not known"), *((value, value) for value in trait.values)]
    return make.choice(f"trait_{name}", capital(name), options=options, chosen=answers.get(name, ""))


def read_vehicle(sent: VehicleSent, rules: Rules) -> NewVehicle | Problems:
    """The vehicle and whose it is, or everything that is wrong."""
    lines = {"plate": sent.plate, "vin": sent.vin, "name": sent.name, "customer": sent.customer, "phone": sent.phone}
    problems = [problem for name, text in lines.items() for problem in too_long(name, text, limit=80)]
    if not any(text.strip() for text in (sent.plate, sent.vin, sent.name)):
        problems.append(Problem("plate", "The vehicle is called nothing.", "Give a plate, a VIN or a name."))
    banks = _banks(sent, problems)
    order = _firing_order(sent.firing_order, banks, problems=problems)
    traits = _traits(sent, rules, problems=problems)
    if problems:
        return Problems(problems)
    layout = Layout(banks=banks, firing_order=order, traits=traits)
    vehicle = Vehicle(layout, name=sent.name.strip(), plate=sent.plate.strip().upper(), vin=sent.vin.strip().upper())
    return NewVehicle(vehicle, sent.customer.strip(), sent.phone.strip())


def _asked(rules: Rules) -> tuple[tuple[str, Trait], ...]:
    """Traits that are entered, each axle's on its own."""
    entered = [trait for trait in rules.traits.values() if not trait.computed]
    names = [(f"{axle} {t.name}", t) for t in entered if t.per_axle for axle in AXLES]
    return (*((t.name, t) for t in entered if not t.per_axle), *names)


def _banks(sent: VehicleSent, problems: list[Problem]) -> tuple[tuple[int, ...], ...]:
    where = "banks" if sent.engine == "other" else "engine"
    typed = sent.banks if sent.engine == "other" else sent.engine
    if not typed.strip():
        problems.append(Problem(where, "The cylinders are missing.", "Choose the engine, or write its banks."))
        return ()
    banks = tuple(_numbers(bank) for bank in typed.split("/"))
    counted = sorted(number for bank in banks for number in bank)
    if not all(banks) or counted != list(range(1, len(counted) + 1)) or len(counted) > MOST_CYLINDERS or len(banks) > 4:
        problems.append(
            Problem(
                where,
                f"“{typed[:40]}” is no set of cylinders.",
                "Write each number once, from 1, with a stroke between banks.",
            )
        )
        return ()
    return banks


def _numbers(text: str) -> tuple[int, ...]:
    """Whole numbers of one or two digits; () where anything else stands there."""
    words = text.replace(",", " ").replace("-", " ").split()
    return tuple(int(word) for word in words) if all(w.isascii() and w.isdigit() and len(w) < 3 for w in words) else ()


def _firing_order(typed: str, banks: tuple[tuple[int, ...], ...], *, problems: list[Problem]) -> tuple[int, ...]:
    if not typed.strip():
        return ()
    order = _numbers(typed)
    if banks and sorted(order) != sorted(number for bank in banks for number in bank):
        problems.append(
            Problem("firing_order", f"“{typed[:40]}” does not name each cylinder once.", "Write such as 1 3 4 2.")
        )
    return order


def _traits(sent: VehicleSent, rules: Rules, *, problems: list[Problem]) -> dict[str, str]:
    answers = sent.extra("trait_")
    for name, trait in _asked(rules):
        if answers.get(name, "") not in ("", *trait.values):
            problems.append(Problem(f"trait_{name}", "This is not one of the choices.", "Choose one of the list."))
    return {name: answers[name] for name, _ in _asked(rules) if answers.get(name)}

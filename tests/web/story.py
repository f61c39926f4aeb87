"""An invented workshop for the tests of the pages: one V6 that came back, filed through the real history."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, date, datetime

from app.evidence.case import Job, Outcome, Part, Presence, Reading, Result, Source, Specification, SymptomSeen, Vehicle
from app.history.history import History
from app.history.values import (
    PROGRAM,
    At,
    CaseDetails,
    Odometer,
    OdometerUnit,
    Person,
    Reproduced,
    Role,
    Stay,
)
from app.rules.words import OperationId, SymptomId, TestId
from app.vehicle.layout import Layout, PlaceId, cylinder_place
from tests.cases import V6

NOW = datetime(2026, 6, 1, 9, 30, tzinfo=UTC)
LEAK = {"test": "leak-down", "place": "cyl-5", "outcome": "normal", "source": "measured here"}
"""One result as the form sends it."""
FOUR: Layout = replace(V6, banks=((1, 2, 3, 4),), firing_order=(1, 3, 4, 2))


@dataclass(frozen=True)
class Story:
    """Ids of what was filed."""

    person: str
    vehicle: str
    visits: tuple[str, str]
    case: str
    results: tuple[str, ...]
    job: str


def tell(history: History) -> Story:
    """A V6: coils renewed elsewhere, misfire still there; a leak-down within limits on cylinders 1 and 3."""
    with history.write(PROGRAM, NOW) as desk:
        person = desk.add_person("Ida Lorne", Role.TECHNICIAN)
        desk.add_person("Per Adler", Role.ADVISOR)
    ida = Person(person, "Ida Lorne", Role.TECHNICIAN)
    with history.write(ida, NOW) as desk:
        customer = desk.add_customer("Mara Quell", "0555 0143")
        vehicle = desk.add_vehicle(Vehicle(V6, "grey estate", "BAY 417"), customer)
        there = Stay(
            False, "Weir Garage", day=date(2026, 3, 2), odometer=_km(84_000), complaint_words="misfire", cost="412.00"
        )
        here = Stay(
            True,
            order_number="1043",
            day=date(2026, 5, 28),
            odometer=_km(84_900),
            complaint_words="It shakes at the lights when warm.",
        )
        visits = tuple(desk.add_visit(vehicle, stay, today=NOW.date()) for stay in (there, here))
        details = CaseDetails(
            SymptomId("misfire-counted"),
            cylinder_place(3),
            Reproduced.YES,
            ("hot", "idle"),
            {"brakes": "no", "steering": "no", "fuel-smell": "no", "flashing-lamp": "no"},
        )
        case = desk.open_case(vehicle, details, visits=visits)
        for visit, source in zip(visits, (Source.PAPER, Source.SEEN_HERE), strict=True):
            desk.record_symptom(
                At(visit, case), SymptomSeen(SymptomId("misfire-counted"), cylinder_place(3), Presence.PRESENT, source)
            )
        job = desk.record_job(
            At(visits[0], case),
            Job(
                OperationId("renew-coil"),
                (PlaceId("cyl-3"),),
                Source.PAPER,
                (Part("ignition coil", "C-77", "new", "2603", receipt=True),),
            ),
        )
        results = tuple(desk.record_result(At(visits[1], case), _leak_down(number), minutes=20) for number in (1, 3))
    return Story(person, vehicle, (visits[0], visits[1]), case, results, job)


def _leak_down(number: int) -> Result:
    return Result(
        TestId("leak-down"),
        cylinder_place(number),
        Outcome.NORMAL,
        Source.MEASURED_HERE,
        Reading("6 %", 6.0, "%", 0.5),
        Specification(None, 20.0, "common practice"),
    )


def _km(value: float) -> Odometer:
    return Odometer(f"{value:.0f}", OdometerUnit.KM, value)

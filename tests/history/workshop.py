"""A small invented workshop for the tests of the history."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from app.evidence.case import (
    CodesCleared,
    CodeSeen,
    CodeState,
    DefectSeen,
    DutyDone,
    DutyState,
    Job,
    MonitorState,
    Outcome,
    Part,
    Presence,
    ProofRun,
    Reading,
    Result,
    ScanSeen,
    Source,
    Specification,
    SymptomSeen,
    Vehicle,
)
from app.history.history import History
from app.history.values import At, CaseDetails, Odometer, OdometerUnit, Person, Role, Stay
from app.vehicle.layout import ENGINE, Layout, cylinder_place

NOW = datetime(2026, 6, 1, 9, 30, tzinfo=UTC)
TODAY = NOW.date()
IDA = Person("ida", "Ida Lorne", Role.TECHNICIAN)
V6 = Layout(((1, 3, 5), (2, 4, 6)), (1, 2, 3, 4, 5, 6), {"fuel": "petrol", "front brakes": "disc"})

MISFIRE = SymptomSeen("misfire-counted", cylinder_place(3), Presence.PRESENT, Source.SEEN_HERE, ("hot", "idle"))
CODE = CodeSeen("P0303", CodeState.CONFIRMED, Source.MEASURED_HERE, {"engine speed": "742 rpm"})
CLEARED = CodesCleared("another shop", 120.0, date(2026, 5, 2))
LEAK_DOWN = Result(
    "leak-down",
    cylinder_place(3),
    Outcome.UNCERTAIN,
    Source.MEASURED_HERE,
    Reading("19,5 %", 19.5, "%", 0.5),
    Specification(None, 20.0, "common practice"),
    (0.4, 0.6),
    {"engine-cold": True},
    after_work=True,
    note="air heard nowhere",
)
LASH_SET = Job(
    "adjust-valve-lash",
    (ENGINE,),
    Source.PAPER,
    (Part("cover gasket", "G-11", "copy", "24-07", receipt=True), Part("sealant")),
    note="sheet without values",
)
RUN = ProofRun(date(2026, 5, 20), False, Source.SEEN_HERE, ("hot", "idle"), km=42.0, starts=3.0, route="by-pass")
SCAN = ScanSeen(
    date(2026, 5, 20),
    Source.MEASURED_HERE,
    {"misfire": MonitorState.COMPLETE, "catalyst": MonitorState.NOT_COMPLETE},
    {"P0303": CodeState.PERMANENT},
    cleared=True,
)

OIL_IN_WELL = DefectSeen(
    "oil-in-plug-well", cylinder_place(3), Source.SEEN_HERE, "boot swollen", note="wiped dry", photo="ab.jpg"
)


@dataclass(frozen=True)
class Filed:
    vehicle: str
    case: str
    visits: tuple[str, ...]

    def at(self, number: int) -> At:
        return At(self.visits[number - 1], self.case)


def km(value: float) -> Odometer:
    return Odometer(f"{value:.0f}", OdometerUnit.KM, value)


def a_vehicle(history: History, *, name: str = "grey estate", plate: str = "", customer: str = "") -> str:
    with history.write(IDA, NOW) as desk:
        owner = desk.add_customer(customer) if customer else None
        return desk.add_vehicle(Vehicle(V6, name, plate), owner)


def a_case(history: History, *, visits: int = 2, name: str = "grey estate") -> Filed:
    """A vehicle with a case over so many dated visits at another shop, a week apart."""
    vehicle = a_vehicle(history, name=name)
    start = date(2025, 1, 1)
    with history.write(IDA, NOW) as desk:
        stays = [
            Stay(False, "Weir Garage", day=start + timedelta(weeks=i), odometer=km(1000 * i)) for i in range(visits)
        ]
        ids = tuple(desk.add_visit(vehicle, stay, today=TODAY) for stay in stays)
        case = desk.open_case(vehicle, CaseDetails("misfire-counted", ENGINE), visits=ids)
    return Filed(vehicle, case, ids)


def a_full_visit(history: History, filed: Filed, number: int) -> None:
    """One entry of every kind at this visit."""
    at = filed.at(number)
    with history.write(IDA, NOW) as desk:
        desk.record_symptom(at, MISFIRE)
        desk.record_code(at, CODE)
        desk.record_cleared(at, CLEARED, source=Source.TOLD)
        desk.record_result(at, LEAK_DOWN, minutes=23)
        job = desk.record_job(at, LASH_SET, minutes=150)
        desk.record_duty(at, job, DutyDone("measured-cold", DutyState.NOT_CHECKED, Source.PAPER, number))
        desk.record_run(at, RUN, today=TODAY)
        desk.record_scan(at, SCAN, today=TODAY)
        desk.record_defect(at, OIL_IN_WELL, job_id=job)

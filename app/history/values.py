"""What the history hands out and takes in: plain values, never rows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum
from typing import Any

from app.evidence.case import (
    CodesCleared,
    CodeSeen,
    DefectSeen,
    DutyDone,
    Job,
    ProofRun,
    Result,
    ScanSeen,
    SymptomSeen,
    Vehicle,
)
from app.rules.words import CauseId, CoverId, SymptomId
from app.vehicle.layout import PlaceId


class Role(StrEnum):
    TECHNICIAN = "technician"
    ADVISOR = "advisor"
    MANAGER = "manager"


class OdometerUnit(StrEnum):
    KM = "km"
    MILES = "mi"


class CaseState(StrEnum):
    OPEN = "open"
    UNDER_PROOF = "under proof"
    CLOSED = "closed"


class Reproduced(StrEnum):
    """Whether the complaint was brought about here."""

    YES = "yes"
    NO = "no"
    NOT_TRIED = "not tried"


class SnapshotWhy(StrEnum):
    RESULT = "result recorded"
    DECISION = "decision"
    CLOSING = "closing"


class Introduced(StrEnum):
    """Whether earlier work brought the confirmed cause in."""

    BY_A_JOB = "by a job"
    NOT_BY_A_JOB = "not by a job"
    NOT_KNOWN = "not known"


class EntryKind(StrEnum):
    """What can be struck out."""

    VISIT = "visit"
    SYMPTOM = "symptom"
    CODE = "code"
    CLEARED = "codes cleared"
    RESULT = "result"
    JOB = "job"
    DUTY = "duty"
    RUN = "run after repair"
    SCAN = "scan after repair"
    DEFECT = "defect"


@dataclass(frozen=True, slots=True)
class Person:
    id: str
    name: str
    role: Role
    active: bool = True


PROGRAM = Person("program", "Proofbay", Role.MANAGER)
"""Who records what the program does by itself: the first person, the demo workshop."""


@dataclass(frozen=True, slots=True)
class Customer:
    id: str
    name: str
    phone: str = ""


@dataclass(frozen=True, slots=True)
class VehicleOnFile:
    id: str
    version: int
    vehicle: Vehicle
    customer: Customer | None


@dataclass(frozen=True, slots=True)
class FoundVehicle:
    """A vehicle that a search found. `matched`: what the text was found in, in words ("plate", "customer" …)."""

    id: str
    name: str
    plate: str
    vin: str
    customer: str
    matched: str
    visits: int
    last_day: date | None
    open_cases: int


@dataclass(frozen=True, slots=True)
class Odometer:
    """As typed, in the unit it was read in, and in km."""

    typed: str
    unit: OdometerUnit
    km: float


@dataclass(frozen=True, slots=True)
class Stay:
    """One visit as it is entered. `day` None with `when` in words ("last winter") where the day is not known.

    `before`: id of the visit it came before, for a stay without a day (None: after all others).
    """

    here: bool
    shop: str = ""
    order_number: str = ""
    day: date | None = None
    when: str = ""
    odometer: Odometer | None = None
    complaint_words: str = ""
    cost: str = ""
    minutes: float | None = None
    before: str | None = None


@dataclass(frozen=True, slots=True)
class At:
    """Where an entry belongs: the visit, and the case it is about (None: about the vehicle, whatever the complaint)."""

    visit: str
    case: str | None = None


@dataclass(frozen=True, slots=True)
class Struck:
    """When, by whom and why an entry was struck out."""

    at: datetime
    by: str
    why: str


Said = SymptomSeen | CodeSeen | CodesCleared | Result | Job | DutyDone | DefectSeen | ProofRun | ScanSeen
"""What one entry says, in the words of a case."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of the history with its stamps. `job`: the job a duty belongs to, or that left a defect behind."""

    kind: EntryKind
    id: str
    version: int
    at: At
    said: Said
    minutes: float | None
    recorded_at: datetime
    recorded_by: str
    struck: Struck | None
    job: str | None = None


@dataclass(frozen=True, slots=True)
class VisitOnFile:
    """A visit with its entries in the order they were recorded. `number` counts the vehicle's visits from 1."""

    id: str
    version: int
    number: int
    stay: Stay
    cases: tuple[str, ...]
    recorded_at: datetime
    recorded_by: str
    struck: Struck | None
    entries: tuple[Entry, ...] = ()


@dataclass(frozen=True, slots=True)
class Closing:
    """How a case ended, as the technician accepts it. No cause: closed without one being found.

    `left_open`: what was not put back or not ticked when it was closed, in words, and why it was closed all the same.
    """

    cause: CauseId | None
    place: PlaceId | None
    deciding_result: str | None = None
    introduced: Introduced = Introduced.NOT_KNOWN
    introduced_by_job: str | None = None
    minutes: float | None = None
    note: str = ""
    left_open: tuple[str, ...] = ()
    left_open_why: str = ""


@dataclass(frozen=True, slots=True)
class ClosingOnFile:
    id: str
    closing: Closing
    closed_at: datetime
    closed_by: str


@dataclass(frozen=True, slots=True)
class Belief:
    """What is believed to be mended when a case goes under proof. No cause: it is not known what did it.

    `repair`: the visit of the repair. `worked`: the chance that it worked, as the board gave it then.
    """

    repair: str
    cause: CauseId | None
    place: PlaceId | None
    worked: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class ProofOnFile:
    id: str
    belief: Belief
    begun_at: datetime
    begun_by: str


@dataclass(frozen=True, slots=True)
class Return:
    """The complaint came back to a case under proof or closed, and which belief that proves wrong.

    `entry`: the run or the symptom that says so.
    """

    id: str
    entry: str
    state: CaseState
    cause: CauseId | None
    place: PlaceId | None
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class CaseDetails:
    """What can be changed about a case: everything but its evidence."""

    complaint: SymptomId
    complaint_place: PlaceId
    reproduced: Reproduced = Reproduced.NOT_TRIED
    reproduced_conditions: tuple[str, ...] = ()
    may_drive: Mapping[str, str] = field(default_factory=dict)
    open_covers: tuple[CoverId, ...] = ()


@dataclass(frozen=True, slots=True)
class CaseOnFile:
    """A case without its evidence. `visits`: ids of its visits that stand, in order of time.

    `proof`: what is believed to be mended, from when the case went under proof until it is reopened.
    """

    id: str
    version: int
    vehicle: VehicleOnFile
    details: CaseDetails
    state: CaseState
    opened_at: datetime
    opened_by: str
    visits: tuple[str, ...]
    complaint_words: str
    closing: ClosingOnFile | None
    proof: ProofOnFile | None = None


@dataclass(frozen=True, slots=True)
class Timeline:
    """Everything that ever happened to a vehicle, struck-out entries too. `cases`: newest first."""

    vehicle: VehicleOnFile
    visits: tuple[VisitOnFile, ...]
    cases: tuple[CaseOnFile, ...]


@dataclass(frozen=True, slots=True)
class PutBack:
    """A cover put back: at which visit, by whom and when."""

    cover: CoverId
    visit: str | None
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Snapshot:
    id: str
    case: str
    why: SnapshotWhy
    at: datetime
    by: str
    rules_version: str
    board: Mapping[str, Any]
    minutes: float | None


@dataclass(frozen=True, slots=True)
class Cost:
    """What one visit cost the customer, as written on paper; "" where nobody knows."""

    visit: str
    shop: str
    here: bool
    words: str


@dataclass(frozen=True, slots=True)
class Spent:
    """What went into one complaint so far. `minutes_known` is false where a visit says nothing about time."""

    minutes: float
    minutes_known: bool
    visits: int
    costs: tuple[Cost, ...]

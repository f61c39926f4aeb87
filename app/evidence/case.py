"""A case as plain values: one vehicle, all its visits, everything said about it, and how we know."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from app.rules.words import CoverId, DefectId, DutyId, OperationId, SituationId, SymptomId, TestId
from app.vehicle.layout import Layout, PlaceId


class Source(StrEnum):
    """How we know something."""

    MEASURED_HERE = "measured here"
    SEEN_HERE = "seen here"
    PAPER = "on paper"
    TOLD = "as told"
    TRACES = "from traces"

    @property
    def here(self) -> bool:
        return self in (Source.MEASURED_HERE, Source.SEEN_HERE)


class Presence(StrEnum):
    PRESENT = "present"
    ABSENT = "absent"
    NOT_REPRODUCED = "not reproduced"


class Outcome(StrEnum):
    NORMAL = "normal"
    ABNORMAL = "abnormal"
    UNCERTAIN = "uncertain"


class CodeState(StrEnum):
    PENDING = "pending"
    CONFIRMED = "confirmed"
    PERMANENT = "permanent"
    ABSENT = "absent"


class DutyState(StrEnum):
    VERIFIED = "verified"
    FOUND_WRONG = "found wrong"
    NOT_CHECKED = "not checked"
    NOT_APPLICABLE = "not applicable"


@dataclass(frozen=True, slots=True)
class Reading:
    """A measured value. `typed` is kept as typed; `value` is in `unit`; `resolution` is half an interval, in `unit`."""

    typed: str
    value: float
    unit: str
    resolution: float = 0.0


@dataclass(frozen=True, slots=True)
class Specification:
    """Limits in the reading's unit, and whose figure they are."""

    low: float | None
    high: float | None
    source: str


@dataclass(frozen=True, slots=True)
class SymptomSeen:
    """A symptom said of a visit. `entry` is the id of the stored entry ("" in a case file).

    `absent_for_km` with `after_visit`: it was absent for so many km after that visit ("smooth until 5,000 km").
    """

    symptom: SymptomId
    place: PlaceId
    presence: Presence
    source: Source
    conditions: tuple[str, ...] = ()
    note: str = ""
    absent_for_km: float | None = None
    after_visit: int | None = None
    entry: str = ""


@dataclass(frozen=True, slots=True)
class CodeSeen:
    """A trouble code read at a visit; `freeze_frame`: what was stored with it, as read."""

    code: str
    state: CodeState
    source: Source
    freeze_frame: Mapping[str, str] = field(default_factory=dict)
    note: str = ""
    entry: str = ""


@dataclass(frozen=True, slots=True)
class CodesCleared:
    """Codes were cleared before they were read at this visit: where ("here", another shop …) and how far ago."""

    where: str
    km_ago: float | None
    day: date | None = None
    entry: str = ""


@dataclass(frozen=True, slots=True)
class Result:
    """One test at one place. `weights` (abnormal, normal) are the reading's likelihoods when the outcome is uncertain.

    `situations`: blind situations known to have been given (True) or not (False). `after_work`: taken after this
    visit's jobs.
    """

    test: TestId
    place: PlaceId
    outcome: Outcome
    source: Source
    reading: Reading | None = None
    specification: Specification | None = None
    weights: tuple[float, float] | None = None
    situations: Mapping[SituationId, bool] = field(default_factory=dict)
    after_work: bool = False
    note: str = ""
    entry: str = ""


@dataclass(frozen=True, slots=True)
class ProofRun:
    """Use of the vehicle after the repair of this visit, and whether the complaint came back in it.

    `conditions`: those that were given long enough for the fault to show. `ordinary`: driven as the customer usually
    drives. Amounts are None where they were not noted; `minutes` is running time.
    """

    day: date | None
    came_back: bool
    source: Source
    conditions: tuple[str, ...] = ()
    ordinary: bool = False
    km: float | None = None
    minutes: float | None = None
    starts: float | None = None
    cycles: float | None = None
    route: str = ""
    note: str = ""
    entry: str = ""


class MonitorState(StrEnum):
    """What the vehicle says of one of its own monitors since codes were last cleared."""

    COMPLETE = "complete"
    NOT_COMPLETE = "not complete"
    NOT_SUPPORTED = "not supported"


@dataclass(frozen=True, slots=True)
class ScanSeen:
    """Codes and readiness read after the repair of this visit. `monitors`: by the id of their rule.

    `cleared`: whether codes were cleared between the repair and this scan; None: not known.
    """

    day: date | None
    source: Source
    monitors: Mapping[str, MonitorState] = field(default_factory=dict)
    codes: Mapping[str, CodeState] = field(default_factory=dict)
    cleared: bool | None = None
    note: str = ""
    entry: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    name: str
    number: str = ""
    kind: str = ""
    date_code: str = ""
    receipt: bool = False


@dataclass(frozen=True, slots=True)
class DutyDone:
    """What is known about a duty of a job. `seen_at_visit`: the visit at which it was verified or found wrong.

    `photo`: the name of a kept picture.
    """

    duty: DutyId
    state: DutyState
    source: Source
    seen_at_visit: int
    note: str = ""
    photo: str = ""
    entry: str = ""


@dataclass(frozen=True, slots=True)
class Job:
    """An operation done on a visit at some places."""

    operation: OperationId
    places: tuple[PlaceId, ...]
    source: Source
    parts: tuple[Part, ...] = ()
    duties: tuple[DutyDone, ...] = ()
    note: str = ""
    entry: str = ""


@dataclass(frozen=True, slots=True)
class JobNamed:
    """A job as people name it: the operation done at a visit of this number."""

    visit: int
    operation: OperationId


@dataclass(frozen=True, slots=True)
class DefectSeen:
    """A defect that somebody came upon without having asked. `words`: what was seen, in the finder's words.

    `after`: the job that is likely to have left it behind. `photo`: the name of a kept picture.
    """

    kind: DefectId
    place: PlaceId
    source: Source
    words: str = ""
    after: JobNamed | None = None
    note: str = ""
    photo: str = ""
    entry: str = ""


@dataclass(frozen=True, slots=True)
class Visit:
    """One stay at a shop. `number` counts the case's visits from 1; `here`: our shop; `day` None: not known.

    `runs` and `scans`: use and scans after this visit's jobs. `cost` is what this visit cost the customer (None: not
    known); `minutes` the time spent on this complaint.
    """

    number: int
    here: bool
    shop: str
    day: date | None
    odometer_km: float | None
    complaint_words: str = ""
    symptoms: tuple[SymptomSeen, ...] = ()
    codes: tuple[CodeSeen, ...] = ()
    cleared: tuple[CodesCleared, ...] = ()
    results: tuple[Result, ...] = ()
    jobs: tuple[Job, ...] = ()
    runs: tuple[ProofRun, ...] = ()
    scans: tuple[ScanSeen, ...] = ()
    defects: tuple[DefectSeen, ...] = ()
    cost: str = ""
    minutes: float | None = None
    entry: str = ""


@dataclass(frozen=True, slots=True)
class Vehicle:
    """`name` is what people call it ("grey estate"); identity fields may be empty in a case file.

    `family`: the shop's word for vehicles of this kind.
    """

    layout: Layout
    name: str = ""
    plate: str = ""
    vin: str = ""
    customer: str = ""
    family: str = ""


@dataclass(frozen=True, slots=True)
class Case:
    """All visits about one complaint on one vehicle, in order of time.

    `complaint`: the lead symptom (or a kind of it) the case is about, at `complaint_place`.
    `open_covers`: what is off or open now.
    """

    vehicle: Vehicle
    complaint: SymptomId
    complaint_place: PlaceId
    visits: tuple[Visit, ...]
    open_covers: tuple[CoverId, ...] = ()

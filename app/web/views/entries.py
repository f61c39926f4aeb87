"""Every entry that a case rests on, visit by visit, with who recorded it and the way to strike it out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from app.evidence.case import DefectSeen, DutyDone
from app.history.values import Entry, EntryKind, Stay, Struck, Timeline, VisitOnFile
from app.measurements.numbers import write_number
from app.rules.library import Rules
from app.vehicle.layout import Layout
from app.web.photos import photo_address
from app.web.views.said import say, source_of

KINDS = {
    EntryKind.VISIT: "Visit",
    EntryKind.SYMPTOM: "Symptom",
    EntryKind.CODE: "Trouble code",
    EntryKind.CLEARED: "Codes cleared",
    EntryKind.RESULT: "Result",
    EntryKind.JOB: "Job",
    EntryKind.DUTY: "Duty",
    EntryKind.RUN: "Run",
    EntryKind.SCAN: "Scan",
    EntryKind.DEFECT: "Defect",
}


@dataclass(frozen=True, slots=True)
class EntryView:
    """`struck`: who struck it out, when and why ("" for an entry that stands). `void`: address of the form for that.

    `photo`: the picture's address ("" where there is none).
    """

    id: str
    kind: str
    what: str
    source: str
    recorded: str
    struck: str
    void: str
    photo: str
    case_link: str
    case_words: str


@dataclass(frozen=True, slots=True)
class VisitView:
    """One visit with its entries. `facts`: day, odometer, repair order, cost, minutes, as far as known."""

    id: str
    heading: str
    facts: tuple[str, ...]
    complaint: str
    struck: str
    void: str
    entries: tuple[EntryView, ...]


@dataclass(frozen=True, slots=True)
class EntryWords:
    """Puts entries into words. `cases`: case id -> its complaint; `from_case`: where striking out leads back to."""

    vehicle_id: str
    layout: Layout
    rules: Rules
    cases: dict[str, str]
    from_case: str = ""

    def visits(self, timeline: Timeline, *, only: Iterable[str] | None = None) -> tuple[VisitView, ...]:
        kept = None if only is None else set(only)
        return tuple(self.visit(v) for v in timeline.visits if kept is None or v.id in kept)

    def visit(self, visit: VisitOnFile) -> VisitView:
        shown = [e for e in visit.entries if not self.from_case or e.at.case in (None, self.from_case)]
        return VisitView(
            id=f"visit-{visit.id}",
            heading=visit_heading(visit.number, visit.stay),
            facts=stay_facts(visit.stay),
            complaint=visit.stay.complaint_words,
            struck=struck_words(visit.struck),
            void="" if visit.struck else self._void(EntryKind.VISIT, visit.id, visit.version),
            entries=tuple(self.entry(one) for one in shown),
        )

    def entry(self, entry: Entry) -> EntryView:
        case = entry.at.case or ""
        return EntryView(
            id=f"e-{entry.id}",
            kind=KINDS[entry.kind],
            what=say(entry.said, self.layout, self.rules),
            source=source_of(entry.said),
            recorded=f"{entry.recorded_by}, {moment(entry.recorded_at)}",
            struck=struck_words(entry.struck),
            void="" if entry.struck else self._void(entry.kind, entry.id, entry.version),
            photo=_photo(entry),
            case_link=f"/cases/{case}" if case in self.cases else "",
            case_words=self.cases.get(case, ""),
        )

    def _void(self, kind: EntryKind, id: str, version: int) -> str:
        slug = kind.value.replace(" ", "-")
        back = f"&case={self.from_case}" if self.from_case else ""
        return f"/vehicles/{self.vehicle_id}/entries/{slug}/{id}/void?version={version}{back}"


def _photo(entry: Entry) -> str:
    return photo_address(entry.said.photo) if isinstance(entry.said, DutyDone | DefectSeen) else ""


def visit_heading(number: int, stay: Stay) -> str:
    where = "our workshop" if stay.here else stay.shop or "another shop"
    return f"Visit {number}: {where}, {when(stay)}"


def when(stay: Stay) -> str:
    return day_words(stay.day) if stay.day else stay.when or "day not known"


def stay_facts(stay: Stay) -> tuple[str, ...]:
    odometer = f"{stay.odometer.typed} {stay.odometer.unit.value}" if stay.odometer else "odometer not known"
    order = f"repair order {stay.order_number}" if stay.order_number else ""
    cost = f"cost {stay.cost}" if stay.cost else ""
    minutes = f"{write_number(stay.minutes)} min" if stay.minutes is not None else ""
    return tuple(fact for fact in (odometer, order, cost, minutes) if fact)


def struck_words(struck: Struck | None) -> str:
    return "" if struck is None else f"Struck out by {struck.by}, {moment(struck.at)}: {struck.why}"


def day_words(day: date) -> str:
    return f"{day:%-d %b %Y}"


def moment(at: datetime) -> str:
    return f"{at.astimezone():%-d %b %Y, %H:%M}"

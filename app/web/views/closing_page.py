"""Closing a case; the list of closed ones; and the boards kept along the way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.board.words import capital, chance_figure, chance_word, least_in_words
from app.history.values import CaseOnFile, CaseState, ClosingOnFile, Introduced, Snapshot, Spent, Timeline
from app.measurements.numbers import write_number
from app.rules.library import Rules
from app.rules.words import CauseId
from app.vehicle.layout import Layout
from app.web.forms.closing_form import ClosingFields
from app.web.showing import Frame
from app.web.views.case_page import complaint_name, vehicle_words
from app.web.views.entries import moment
from app.web.views.said import at_place, is_whole, say, sentence, test_name
from app.web.views.standing import spent_in_words

ROWS_SHOWN = 5
STEPS_SHOWN = 3


@dataclass(frozen=True, slots=True)
class ClosePage:
    """`theirs`: how somebody else changed the case in the meantime."""

    frame: Frame
    heading: str
    back: str
    action: str
    putting_back: str
    theirs: str
    problems: tuple[str, ...]
    fields: ClosingFields
    spent: tuple[str, ...]
    entry_id: str


@dataclass(frozen=True, slots=True)
class EndedView:
    """How a case ended."""

    cause: str
    deciding: str
    introduced: str
    minutes: str
    note: str
    left_open: tuple[str, ...]
    left_open_why: str
    by: str


@dataclass(frozen=True, slots=True)
class ClosedLine:
    address: str
    snapshots: str
    vehicle: str
    complaint: str
    ended: EndedView


@dataclass(frozen=True, slots=True)
class ClosedPage:
    frame: Frame
    cases: tuple[ClosedLine, ...]


@dataclass(frozen=True, slots=True)
class KeptRow:
    cause: str
    blame: str
    status: str


@dataclass(frozen=True, slots=True)
class SnapshotView:
    heading: str
    rules_version: str
    minutes: str
    rows: tuple[KeptRow, ...]
    not_listed: str
    advice: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SnapshotsPage:
    frame: Frame
    heading: str
    back: str
    ended: EndedView | None
    spent: tuple[str, ...]
    reopen: str
    version: str
    snapshots: tuple[SnapshotView, ...]


@dataclass(frozen=True, slots=True)
class EndWords:
    """Puts closings into words; the timeline holds the deciding result and the job."""

    rules: Rules

    def ended(self, on_file: ClosingOnFile, timeline: Timeline) -> EndedView:
        closing, layout = on_file.closing, timeline.vehicle.vehicle.layout
        minutes = "" if closing.minutes is None else f"{write_number(closing.minutes)} min"
        return EndedView(
            cause=self._cause(closing.cause, closing.place, layout),
            deciding=self._entry(closing.deciding_result, timeline),
            introduced=self._introduced(on_file, timeline),
            minutes=minutes,
            note=closing.note,
            left_open=closing.left_open,
            left_open_why=closing.left_open_why,
            by=f"Closed by {on_file.closed_by}, {moment(on_file.closed_at)}",
        )

    def _cause(self, cause: str | None, place: str | None, layout: Layout) -> str:
        if cause is None or place is None:
            return "No cause was found"
        return cause_at(cause, place, self.rules, layout)

    def _entry(self, id: str | None, timeline: Timeline) -> str:
        entries = (entry for visit in timeline.visits for entry in visit.entries)
        found = next((entry for entry in entries if entry.id == id), None)
        return say(found.said, timeline.vehicle.vehicle.layout, self.rules) if found else ""

    def _introduced(self, on_file: ClosingOnFile, timeline: Timeline) -> str:
        closing = on_file.closing
        match closing.introduced:
            case Introduced.BY_A_JOB:
                job = self._entry(closing.introduced_by_job, timeline)
                return f"by earlier work: {job}" if job else "by earlier work"
            case Introduced.NOT_BY_A_JOB:
                return "not by earlier work"
            case Introduced.NOT_KNOWN:
                return "not known whether by earlier work"


def cause_at(cause: str, place: str, rules: Rules, layout: Layout) -> str:
    found = rules.causes.get(CauseId(cause))
    name = found.name if found else cause
    known = next((one for one in layout.all_places() if one == place), None)
    where = at_place(known, layout) if known else f", {place}"
    return f"{capital(name)}{where}"


def closed_page(frame: Frame, cases: Sequence[tuple[CaseOnFile, Timeline]], rules: Rules) -> ClosedPage:
    words = EndWords(rules)
    return ClosedPage(
        frame,
        tuple(
            ClosedLine(
                address=f"/cases/{case.id}",
                snapshots=f"/cases/{case.id}/snapshots",
                vehicle=vehicle_words(case),
                complaint=complaint_name(case, rules),
                ended=words.ended(case.closing, timeline),
            )
            for case, timeline in cases
            if case.closing is not None
        ),
    )


def snapshots_page(
    frame: Frame,
    on_file: CaseOnFile,
    *,
    timeline: Timeline,
    snapshots: Sequence[Snapshot],
    spent: Spent,
    rules: Rules,
) -> SnapshotsPage:
    layout = on_file.vehicle.vehicle.layout
    closed = on_file.state is CaseState.CLOSED and on_file.closing is not None
    return SnapshotsPage(
        frame=frame,
        heading=f"{complaint_name(on_file, rules)}: {vehicle_words(on_file)}",
        back=f"/cases/{on_file.id}",
        ended=EndWords(rules).ended(on_file.closing, timeline) if closed and on_file.closing else None,
        spent=spent_in_words(spent),
        reopen=f"/cases/{on_file.id}/reopen" if closed else "",
        version=str(on_file.version),
        snapshots=tuple(_snapshot(one, rules, layout) for one in snapshots),
    )


def _snapshot(one: Snapshot, rules: Rules, layout: Layout) -> SnapshotView:
    minutes = "" if one.minutes is None else f"{write_number(one.minutes)} minutes spent by then"
    share = float(one.board.get("not_in_rules", 0.0))
    return SnapshotView(
        heading=f"{moment(one.at)}: {one.why.value}, {one.by}",
        rules_version=one.rules_version,
        minutes=minutes,
        rows=tuple(_row(row, rules, layout) for row in one.board.get("hypotheses", [])[:ROWS_SHOWN]),
        not_listed=least_in_words(share),
        advice=tuple(_advice(one.board, rules, layout)),
    )


def _row(row: Mapping[str, Any], rules: Rules, layout: Layout) -> KeptRow:
    blame = float(row["to_blame"])
    before = "" if row["epoch"] is None else f", before job {row['epoch']}"
    cause = f"{cause_at(row['cause'], row['place'], rules, layout)}{before}"
    return KeptRow(cause, f"{chance_word(blame)} ({chance_figure(blame)})", str(row["status"]))


def _advice(board: Mapping[str, Any], rules: Rules, layout: Layout) -> Iterator[str]:
    for step in board.get("next", [])[:STEPS_SHOWN]:
        known = {str(place): layout.in_words(place) for place in layout.all_places() if not is_whole(place)}
        places = ", ".join(known[place] for place in step["place"] if place in known)
        where = f", {places}" if places else ""
        yield sentence(f"{test_name(step['test'], rules)}{where} ({step['minutes']:.0f} min)")

"""Builders of plain cases, in the trade's words. All vehicles and shops are invented."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from pathlib import Path

from app.board.board import Board, CauseGroup, Row
from app.evidence.case import (
    Case,
    CodesCleared,
    CodeSeen,
    CodeState,
    DutyDone,
    DutyState,
    Job,
    MonitorState,
    Outcome,
    Part,
    Presence,
    ProofRun,
    Result,
    ScanSeen,
    Source,
    SymptomSeen,
    Vehicle,
    Visit,
)
from app.rules.library import Rules
from app.seed.rule_folder import load_rules
from app.vehicle.layout import Layout, PlaceId

PROJECT = Path(__file__).parents[1]

V6 = Layout(
    banks=((1, 3, 5), (2, 4, 6)),
    firing_order=(1, 2, 3, 4, 5, 6),
    traits={
        "fuel": "petrol",
        "valve clearance": "screw",
        "injection": "port",
        "ignition": "coil per plug",
        "timing drive": "belt",
        "variable timing": "yes",
        "cylinder deactivation": "no",
        "air measurement": "meter",
        "turbo": "no",
        "exhaust gas recirculation": "no",
        "front brakes": "disc",
        "rear brakes": "disc",
        "charging": "regulator",
    },
)
FOUR = replace(V6, banks=((1, 2, 3, 4),), firing_order=(1, 3, 4, 2))


@cache
def real_rules() -> Rules:
    """The supplied rules, as the product loads them."""
    return load_rules(PROJECT / "seed_data" / "rules")


@dataclass(frozen=True)
class Story:
    """A case being told, visit by visit; every step returns a new story."""

    case: Case

    def visit(
        self, day: str | None = None, km: float | None = None, *, here: bool = True, shop: str = "our shop"
    ) -> Story:
        number = len(self.case.visits) + 1
        on = date.fromisoformat(day) if day else None
        visit = Visit(number=number, here=here, shop=shop, day=on, odometer_km=km)
        return Story(replace(self.case, visits=(*self.case.visits, visit)))

    def complains(self, symptom: str, at: str, *, source: Source = Source.SEEN_HERE, is_: str = "present") -> Story:
        seen = SymptomSeen(symptom, PlaceId(at), Presence(is_), source)
        return self._add(symptoms=seen)

    def quiet(self, symptom: str, at: str, *, km: float, after: int) -> Story:
        """Told to have been absent for so many km after a visit, and now present."""
        seen = SymptomSeen(symptom, PlaceId(at), Presence.PRESENT, Source.TOLD, absent_for_km=km, after_visit=after)
        return self._add(symptoms=seen)

    def code(self, *codes: str, state: CodeState = CodeState.CONFIRMED) -> Story:
        story = self
        for code in codes:
            story = story._add(codes=CodeSeen(code, state, Source.MEASURED_HERE))
        return story

    def cleared(self, km_ago: float) -> Story:
        return self._add(cleared=CodesCleared("here", km_ago))

    def result(
        self, test: str, at: str, outcome: str, *, source: Source = Source.MEASURED_HERE, **more: object
    ) -> Story:
        result = Result(test, PlaceId(at), Outcome(outcome), source, **more)
        return self._add(results=result)

    def job(
        self,
        operation: str,
        *at: str,
        source: Source = Source.SEEN_HERE,
        number: str = "",
        duties: dict[str, str] | None = None,
    ) -> Story:
        visit = self.case.visits[-1].number
        done = tuple(
            DutyDone(name, DutyState(state), Source.SEEN_HERE, visit) for name, state in (duties or {}).items()
        )
        parts = (Part("part", number=number),) if number else ()
        return self._add(jobs=Job(operation, tuple(PlaceId(p) for p in at), source, parts, done))

    def run(self, *conditions: str, back: bool = False, **more: object) -> Story:
        """Use after the repair at this visit; without conditions it was driven as usual."""
        usual = not conditions and not back
        return self._add(runs=ProofRun(None, back, Source.SEEN_HERE, tuple(conditions), usual, **more))

    def scan(self, monitors: dict[str, str], *codes: str, cleared: bool | None = True) -> Story:
        """A scan after the repair; codes with their state, such as "P0303 pending"."""
        states = {name: MonitorState(word) for name, word in monitors.items()}
        found = {code: CodeState(state) for code, state in (one.split() for one in codes)}
        return self._add(scans=ScanSeen(None, Source.MEASURED_HERE, states, found, cleared))

    def _add(self, **entry: object) -> Story:
        (kind, value), visit = next(iter(entry.items())), self.case.visits[-1]
        visit = replace(visit, **{kind: (*getattr(visit, kind), value)})
        return Story(replace(self.case, visits=(*self.case.visits[:-1], visit)))


def a_case(complaint: str, at: str, layout: Layout = V6) -> Story:
    return Story(Case(Vehicle(layout, name="grey estate"), complaint, PlaceId(at), ()))


def group(board: Board, cause: str) -> CauseGroup:
    return next(g for g in board.groups if g.cause == cause)


def every_row(board: Board) -> list[Row]:
    return [*(row for g in board.groups for row in g.rows), *board.confirmed, *board.ruled_out]


def row(board: Board, cause: str, place: str) -> Row:
    return next(r for r in every_row(board) if (r.id.cause, r.id.place) == (cause, place))


def leaders(board: Board, count: int) -> list[str]:
    """The causes most to blame, in order."""
    return [g.cause for g in board.groups[:count]]

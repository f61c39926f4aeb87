"""Every component once, in each of its states, with invented content: to look at, and to test by eye and by axe."""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.board.board import Mark, Status
from app.problem import Problem
from app.web.forms.fields import Field, FieldMaker, Problems
from app.web.forms.result_form import Button
from app.web.showing import Frame
from app.web.views.board_causes import (
    BlindView,
    ChanceView,
    GroupView,
    RowView,
    SettledView,
    SpeaksView,
    StatusView,
    chance,
    status_view,
)
from app.web.views.closing_page import EndedView
from app.web.views.entries import EntryView, VisitView
from app.web.views.matrix import MEANINGS, SHORT, STRENGTH, MarkView, glyph
from app.web.views.pick_list import Touch


@dataclass(frozen=True, slots=True)
class ComponentsPage:
    frame: Frame
    line: Field
    wrong_line: Field
    day: Field
    words: Field
    pick: Field
    tiles: Field
    ticks: Field
    buttons: tuple[Button, ...]
    touches: tuple[Touch, ...]
    chances: tuple[ChanceView, ...]
    states: tuple[StatusView, ...]
    marks: tuple[MarkView, ...]
    cause: GroupView
    settled: SettledView
    visit: VisitView
    ended: EndedView


def components_page(frame: Frame) -> ComponentsPage:
    make = FieldMaker("sample", Problems([Problem("wrong", "“0.25” has no unit.", "Add one: mm, in or thou.")]))
    options = [("cyl-1", "cylinder 1"), ("cyl-2", "cylinder 2"), ("cyl-3", "cylinder 3")]
    return ComponentsPage(
        frame=frame,
        line=make.line("line", "Reading", value="0.28 mm", hint="With its unit."),
        wrong_line=replace(make.line("wrong", "Reading", value="0.25"), focused=False),
        day=make.line("day", "Day"),
        words=make.line("words", "Complaint, in the customer’s words", value="It shakes at the lights when warm."),
        pick=make.choice("pick", "Unit", options=[("", "unit?"), ("mm", "mm"), ("in", "in")]),
        tiles=make.choice("tiles", "Where?", options=options, chosen="cyl-2"),
        ticks=make.choice(
            "ticks_", "Under which conditions?", options=[("hot", "hot"), ("idle", "idle")], chosen=["hot"]
        ),
        buttons=(
            Button("abnormal", "leaks", main=True),
            Button("normal", "within limits", main=True),
            Button("uncertain", "not sure"),
        ),
        touches=(Touch("Result of a test", "/components", chosen=True), Touch("Symptom", "/components", note="felt")),
        chances=(chance(0.62, "produces the complaint"), chance(0.04, "is there now")),
        states=tuple(status_view(one) for one in Status),
        marks=tuple(MarkView(glyph(mark), SHORT[mark], MEANINGS[mark]) for mark in Mark if mark in STRENGTH),
        cause=_cause(),
        settled=_settled(),
        visit=_visit(),
        ended=EndedView(
            "Plug well seal leaks, cylinder 4",
            "Look into the plug wells, cylinder 4: oil in the well",
            "not by earlier work",
            "95 min",
            "Well dry after 500 km.",
            ("Undertray: not put back",),
            "Clips are on order; the customer knows.",
            "Closed by A. Sample, 3 Nov 2026, 16:20",
        ),
    )


def _cause() -> GroupView:
    return GroupView(
        id="sample-cause",
        number="1",
        name="Exhaust valve lash too tight",
        why="Heat lengthens the valve; with too little lash it no longer seats once hot.",
        blame=chance(0.58, "produces the complaint"),
        present=chance(0.64, "is there now"),
        status=status_view(Status.RAISED),
        which_place="Which place is not yet known; one reading there tells.",
        cautions=("A burnt valve follows within weeks.",),
        said=("Laid open at visit 1: as possible as before.",),
        several=True,
        unfolded=True,
        rows=(_row("sample-cyl-1", Status.RAISED, 0.31), _row("sample-cyl-3", Status.OPEN, 0.29)),
        moved="moved up, 2 places",
    )


def _settled() -> SettledView:
    row = _row("sample-cyl-2", Status.RULED_OUT, 0.01)
    return SettledView(
        "sample-settled", "Valve burnt", "cylinder 2", row.present, row.status, "newly ruled out", (row,)
    )


def _row(id: str, status: Status, share: float) -> RowView:
    return RowView(
        id=id,
        place="cylinder 1",
        blame=chance(share, "produces the complaint"),
        present=chance(share, "is there now"),
        status=status_view(status),
        speaks_for=(SpeaksView("Misfire counted, cylinder 1 (visit 2)", "odds × 6.2"),),
        speaks_against=(SpeaksView("Idle smooth when cold (visit 2)", "odds ÷ 1.4"),),
        blind=(
            BlindView(
                "Leak-down, cylinder 1, visit 2: within limits",
                "At top dead centre on compression any lash left lets the valve rest closed.",
            ),
        ),
        said=("On paper only: 10 minutes to confirm.",),
    )


def _visit() -> VisitView:
    recorded = "A. Sample, 3 Nov 2026, 14:05"
    stands = EntryView(
        "sample-e1",
        "Result",
        "Leak-down, cylinder 1: within limits (6 %)",
        "measured here",
        recorded,
        "",
        "/components",
        "/components",
        "/components",
        "rough idle",
    )
    struck = replace(
        stands,
        id="sample-e2",
        what="Leak-down, cylinder 2: leaks (40 %)",
        struck="Struck out by A. Sample, 3 Nov 2026, 14:20: wrong cylinder",
        void="",
    )
    return VisitView(
        "sample-visit",
        "Visit 2: our workshop, 3 Nov 2026",
        ("84,200 km", "repair order 1043"),
        "It shakes at the lights when warm.",
        "",
        "/components",
        (stands, struck),
    )

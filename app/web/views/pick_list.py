"""What can be recorded: the likeliest to touch first, the rest of this complaint, and a search over all rules."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar

from app.board.board import Board
from app.rules.library import Family
from app.rules.look_up import find_rule, look_up
from app.rules.operations import Operation
from app.rules.symptoms import Symptom
from app.rules.tests import Test
from app.web.forms.evidence_fields import About
from app.web.forms.fields import Field, FieldMaker
from app.web.forms.job_form import jobs_on_file
from app.web.views.said import say

Named = TypeVar("Named", Test, Symptom, Operation)
SHELVES = {"result": "tests", "symptom": "symptoms", "job": "operations"}
CHOSEN_AS = {"result": "test", "symptom": "symptom", "job": "operation"}
MOST_FOUND = 20


@dataclass(frozen=True, slots=True)
class Touch:
    """Something to touch: it leads to a form with this already chosen."""

    label: str
    address: str
    chosen: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class PickList:
    """`rest`: the others that this complaint has to do with. `find`: searches all rules (None where there is nothing to
    search); `found` and `said` answer it."""

    heading: str
    kind: str
    case: str
    first: tuple[Touch, ...]
    rest: tuple[Touch, ...]
    empty: str
    find: Field | None = None
    found: tuple[Touch, ...] = ()
    said: str = ""


def pick_list(kind: str, around: About, board: Board, *, typed: str = "", job: str = "") -> PickList:
    """What can be recorded of this kind, for this vehicle and complaint; `typed` is looked up in all rules.

    `job`: the job that a defect is likely to have been left by, where that is known before its kind.
    """
    case = f"/cases/{around.case_id}"
    match kind:
        case "result":
            first, rest = _tests(around, board)
            heading, what = "Which test?", "test"
        case "symptom":
            first, rest = _symptoms(around)
            heading, what = "Which symptom?", "symptom"
        case "job":
            first, rest = _operations(around)
            heading, what = "Which job?", "job"
        case "defect":
            return PickList("What kind of defect?", kind, case, _defects(around, job), (), "The rules name no kind.")
        case _:
            return PickList(
                "Of which job?", kind, case, _jobs(around), (), "No job is on file in this case; record it first."
            )
    found = _found(kind, around, typed)
    return PickList(
        heading=heading,
        kind=kind,
        case=case,
        first=first,
        rest=rest,
        empty=f"No {what} of this complaint is listed.",
        find=FieldMaker("pick").line("q", f"Another {what}", value=typed, hint="Part of its name."),
        found=found,
        said="" if found or not typed.strip() else "Nothing is called that. Try fewer or other words.",
    )


def _tests(around: About, board: Board) -> tuple[tuple[Touch, ...], tuple[Touch, ...]]:
    """The board's next tests first."""
    advised = list(dict.fromkeys(step.test for step in board.next))
    family = _family(around).id
    tests = [t for t in around.rules.tests.values() if family in t.families and t.id not in advised]
    return _touches("result", (around.rules.tests[id] for id in advised), around), _touches(
        "result", _named(tests), around
    )


def _symptoms(around: About) -> tuple[tuple[Touch, ...], tuple[Touch, ...]]:
    """Kinds of the complaint first, then what else its family knows."""
    lead = around.rules.lead_of(around.case.complaint)
    ours = [s for s in around.rules.symptoms.values() if lead in around.rules.kinds(s.id)]
    family = [s for s in around.rules.symptoms.values() if s.family == _family(around).id and s not in ours]
    return _touches("symptom", _named(ours), around), _touches("symptom", _named(family), around)


def _operations(around: About) -> tuple[tuple[Touch, ...], tuple[Touch, ...]]:
    causes = set(_family(around).causes)
    ours = [o for o in around.rules.operations.values() if causes & set(o.touches)]
    return _touches("job", _named(ours), around), ()


def _jobs(around: About) -> tuple[Touch, ...]:
    at = f"/cases/{around.case_id}?record=duty&job="
    return tuple(Touch(say(e.said, around.layout, around.rules), f"{at}{e.id}") for e in jobs_on_file(around))


def _defects(around: About, job: str) -> tuple[Touch, ...]:
    """The kinds that this vehicle can have."""
    at, after = f"/cases/{around.case_id}?record=defect&kind=", f"&job={job}" if job else ""
    kinds = [kind for kind in around.rules.defects.values() if around.rules.defect_places(kind, around.layout)]
    return tuple(Touch(kind.name, f"{at}{kind.id}{after}") for kind in kinds)


def _found(kind: str, around: About, typed: str) -> tuple[Touch, ...]:
    """What all rules know by these words, of this kind and for this vehicle."""
    shelf, rules = SHELVES[kind], around.rules
    found = [find_rule(shelf, one.id, rules) for one in look_up(typed, rules, limit=100) if one.shelf == shelf]
    return _touches(kind, (one for one in found[:MOST_FOUND] if isinstance(one, Test | Symptom | Operation)), around)


def _touches(kind: str, some: Iterable[Test | Symptom | Operation], around: About) -> tuple[Touch, ...]:
    at = f"/cases/{around.case_id}?record={kind}&{CHOSEN_AS[kind]}="
    return tuple(
        Touch(one.name, f"{at}{one.id}", note=one.sense.value if isinstance(one, Symptom) else "")
        for one in some
        if (one.can_be_done_at(around.layout) if isinstance(one, Test) else around.layout.places(one.at))
    )


def _family(around: About) -> Family:
    return around.rules.family_of(around.case.complaint)


def _named(some: Iterable[Named]) -> list[Named]:
    return sorted(some, key=lambda one: one.name)

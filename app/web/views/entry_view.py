"""The form that records, ready to show: which kind is chosen, what can be chosen, and the one form that is open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

from app.board.board import Board
from app.rules.library import Rules
from app.rules.operations import Operation
from app.rules.symptoms import Symptom
from app.rules.tests import Test
from app.web.forms.closing_form import CoversEntry
from app.web.forms.code_form import ClearedEntry, CodeEntry
from app.web.forms.evidence_fields import About
from app.web.forms.first_form import FirstEntry
from app.web.forms.job_form import DutyEntry, JobEntry, jobs_on_file
from app.web.forms.result_form import ResultEntry
from app.web.forms.symptom_form import SymptomEntry
from app.web.views.said import say

Named = TypeVar("Named", Test, Symptom, Operation)
KINDS = (
    ("result", "Result of a test"),
    ("symptom", "Symptom"),
    ("code", "Trouble code"),
    ("cleared", "Codes cleared"),
    ("job", "Job and parts"),
    ("duty", "Duty of a job"),
    ("covers", "Off or open now"),
    ("first", "First questions"),
)


@dataclass(frozen=True, slots=True)
class Touch:
    """Something to touch: it leads to a form with this already chosen."""

    label: str
    address: str
    chosen: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class PickList:
    """What can be chosen: the likeliest to touch first, then the rest by name."""

    heading: str
    first: tuple[Touch, ...]
    rest: tuple[Touch, ...]
    empty: str


@dataclass(frozen=True, slots=True)
class OpenForm:
    """The form that is open: at most one of its kinds is there."""

    pick: PickList | None = None
    result: ResultEntry | None = None
    symptom: SymptomEntry | None = None
    code: CodeEntry | None = None
    cleared: ClearedEntry | None = None
    job: JobEntry | None = None
    duty: DutyEntry | None = None
    covers: CoversEntry | None = None
    first: FirstEntry | None = None


@dataclass(frozen=True, slots=True)
class EntryFormView:
    """`saved`: what was just recorded; `problems`: sentences that belong to no field."""

    kinds: tuple[Touch, ...]
    saved: str
    problems: tuple[str, ...]
    action: str
    entry_id: str
    form: OpenForm


def entry_form(
    case_id: str, kind: str, *, form: OpenForm, entry_id: str, saved: str = "", problems: tuple[str, ...] = ()
) -> EntryFormView:
    return EntryFormView(
        kinds=tuple(Touch(label, f"/cases/{case_id}?record={k}", k == kind) for k, label in KINDS),
        saved=saved,
        problems=problems,
        action=f"/cases/{case_id}/{kind}" if kind else "",
        entry_id=entry_id,
        form=form,
    )


def pick_list(kind: str, around: About, board: Board) -> PickList:
    """What can be recorded of this kind, for this vehicle and complaint."""
    match kind:
        case "result":
            return _tests(around, board)
        case "symptom":
            return _symptoms(around)
        case "job":
            return _operations(around)
        case _:
            return _jobs(around)


def _tests(around: About, board: Board) -> PickList:
    """The board's next tests first."""
    at = f"/cases/{around.case_id}?record=result&test="
    advised = list(dict.fromkeys(step.test for step in board.next))
    family = _family(around.rules, around)
    tests = [t for t in around.rules.tests.values() if t.family == family and around.layout.places(t.at)]
    elsewhere = [t for t in around.rules.tests.values() if t.family != family and around.layout.places(t.at)]
    return PickList(
        heading="Which test?",
        first=tuple(Touch(around.rules.tests[id].name, f"{at}{id}") for id in advised),
        rest=tuple(Touch(t.name, f"{at}{t.id}") for t in (*_named(tests), *_named(elsewhere)) if t.id not in advised),
        empty="No test is listed.",
    )


def _symptoms(around: About) -> PickList:
    at = f"/cases/{around.case_id}?record=symptom&symptom="
    family = _family(around.rules, around)
    symptoms = [s for s in around.rules.symptoms.values() if around.layout.places(s.at)]
    ours = _named([s for s in symptoms if s.family == family])
    others = _named([s for s in symptoms if s.family != family])
    first, rest = (tuple(Touch(s.name, f"{at}{s.id}", note=s.sense.value) for s in some) for some in (ours, others))
    return PickList("Which symptom?", first, rest, empty="No symptom is listed.")


def _operations(around: About) -> PickList:
    at = f"/cases/{around.case_id}?record=job&operation="
    family = around.rules.families[around.rules.family_of(around.case.complaint).id]
    causes = {cause.id for cause in around.rules.causes.values() if family.has(cause)}
    operations = [o for o in around.rules.operations.values() if around.layout.places(o.at)]
    ours = _named([o for o in operations if causes & set(o.touches)])
    others = _named([o for o in operations if not causes & set(o.touches)])
    first, rest = (tuple(Touch(o.name, f"{at}{o.id}") for o in some) for some in (ours, others))
    return PickList("Which job?", first, rest, empty="No job is listed.")


def _jobs(around: About) -> PickList:
    at = f"/cases/{around.case_id}?record=duty&job="
    jobs = tuple(Touch(say(e.said, around.layout, around.rules), f"{at}{e.id}") for e in jobs_on_file(around))
    return PickList("Of which job?", jobs, (), empty="No job is on file in this case; record it first.")


def _family(rules: Rules, around: About) -> str:
    return rules.family_of(around.case.complaint).id


def _named(some: list[Named]) -> list[Named]:
    return sorted(some, key=lambda one: one.name)

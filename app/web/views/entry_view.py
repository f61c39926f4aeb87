"""The form that records, ready to show: which kind is chosen, what can be chosen, and the one form that is open."""

from __future__ import annotations

from dataclasses import dataclass

from app.web.forms.closing_form import CoversEntry
from app.web.forms.code_form import ClearedEntry, CodeEntry
from app.web.forms.defect_form import DefectEntry
from app.web.forms.first_form import FirstEntry
from app.web.forms.job_form import DutyEntry, JobEntry
from app.web.forms.result_form import ResultEntry
from app.web.forms.symptom_form import SymptomEntry
from app.web.views.pick_list import PickList, Touch

KINDS = (
    ("result", "Result of a test"),
    ("symptom", "Symptom"),
    ("code", "Trouble code"),
    ("cleared", "Codes cleared"),
    ("job", "Job and parts"),
    ("duty", "Duty of a job"),
    ("defect", "Defect found"),
    ("covers", "Off or open now"),
    ("first", "First questions"),
)


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
    defect: DefectEntry | None = None
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

"""What is asked first of all: whether the complaint was reproduced here, how, and whether the vehicle may be driven."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.history.values import CaseDetails, CaseOnFile, Reproduced
from app.problem import Problem
from app.rules.library import Rules
from app.web.forms.evidence_fields import YES_NO_UNKNOWN, EvidenceSent, one_of
from app.web.forms.fields import NONE, Field, FieldMaker, Problems
from app.web.forms.symptom_form import conditions_field, ticked_conditions
from app.web.views.driving import QUESTIONS

REPRODUCED = (
    (Reproduced.YES.value, "yes, here"),
    (Reproduced.NO.value, "tried, did not show"),
    (Reproduced.NOT_TRIED.value, "not tried yet"),
)


class FirstSent(EvidenceSent):
    """Conditions come as `under_<condition>`, drive questions as `drive_<id>`."""

    reproduced: str = ""
    version: str = ""


@dataclass(frozen=True, slots=True)
class FirstFields:
    reproduced: Field
    conditions: Field
    drive: tuple[Field, ...]


@dataclass(frozen=True, slots=True)
class FirstEntry:
    """`theirs`: what somebody else answered in the meantime ("" when nobody did)."""

    fields: FirstFields
    version: str
    theirs: str


def first_fields(make: FieldMaker, sent: FirstSent, rules: Rules) -> FirstFields:
    answers = sent.extra("drive_")
    return FirstFields(
        reproduced=make.choice("reproduced", "Was it reproduced here?", options=REPRODUCED, chosen=sent.reproduced),
        conditions=conditions_field(make, sent, rules),
        drive=tuple(
            make.choice(f"drive_{id}", question, options=YES_NO_UNKNOWN, chosen=answers.get(id, ""))
            for id, question in QUESTIONS.items()
        ),
    )


def first_entry(
    sent: FirstSent | None, on_file: CaseOnFile, rules: Rules, *, problems: Problems = NONE, theirs: str = ""
) -> FirstEntry:
    """The answers as they stand on file, or as they were just sent."""
    make = FieldMaker("first", problems, focus_on="reproduced")
    shown = sent or _on_file(on_file.details)
    version = sent.version if sent and not theirs else str(on_file.version)
    return FirstEntry(first_fields(make, shown, rules), version, theirs)


def read_first(sent: FirstSent, details: CaseDetails, rules: Rules) -> CaseDetails | Problems:
    """The case's details with these answers."""
    reproduced = one_of(Reproduced, sent.reproduced)
    if reproduced is None:
        return Problems([Problem("reproduced", "It is not said whether it was reproduced.", "Choose one.")])
    return replace(
        details,
        reproduced=reproduced,
        reproduced_conditions=ticked_conditions(sent, rules),
        may_drive=drive_answers(sent),
    )


def drive_answers(sent: FirstSent) -> dict[str, str]:
    answers = sent.extra("drive_")
    return {id: answers[id] for id in QUESTIONS if answers.get(id) in ("yes", "no")}


def in_words(details: CaseDetails) -> str:
    """The answers on file, for whoever was slower."""
    drive = _drive_words(details.may_drive)
    return f"reproduced: {dict(REPRODUCED)[details.reproduced.value]}{drive}"


def _drive_words(answers: Mapping[str, str]) -> str:
    return "".join(f"; {QUESTIONS[id]} {answer}" for id, answer in answers.items() if id in QUESTIONS)


def _on_file(details: CaseDetails) -> FirstSent:
    under = {f"under_{condition}": "yes" for condition in details.reproduced_conditions}
    drive = {f"drive_{id}": answer for id, answer in details.may_drive.items()}
    return FirstSent.model_validate({"reproduced": details.reproduced.value, **under, **drive})

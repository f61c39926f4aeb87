"""Recording a symptom: what, where, present or not, and under which conditions."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from app.board.words import capital
from app.evidence.case import Presence, Source, SymptomSeen
from app.problem import Problem
from app.rules.library import Rules
from app.rules.symptoms import Symptom
from app.rules.words import SymptomId
from app.vehicle.layout import PlaceId
from app.web.forms.evidence_fields import (
    About,
    EvidenceFields,
    EvidenceSent,
    Known,
    evidence_fields,
    one_of,
    place_options,
    read_common,
    read_place,
)
from app.web.forms.fields import NONE, Field, FieldMaker, Problems, Sent
from app.web.forms.result_form import Button
from app.web.views.said import sentence

CONDITIONS_SHOWN = 12
BUTTONS = (
    Button(Presence.PRESENT.value, "present", main=True),
    Button(Presence.ABSENT.value, "looked for, absent", main=True),
    Button(Presence.NOT_REPRODUCED.value, "tried, not reproduced"),
)


class SymptomSent(EvidenceSent):
    """`presence` is the button pressed; conditions come as `under_<condition>`."""

    symptom: str = ""
    place: str = ""
    presence: str = ""


@dataclass(frozen=True, slots=True)
class SymptomEntry:
    symptom: str
    name: str
    may_drive: str
    place: Field | None
    conditions: Field
    common: EvidenceFields
    buttons: tuple[Button, ...]
    problem: str


def symptom_entry(sent: SymptomSent, around: About, *, problems: Problems = NONE) -> SymptomEntry:
    """The form for the symptom chosen."""
    symptom = _symptom(sent, around)
    make = FieldMaker("symptom", problems, focus_on="place")
    options = place_options(around.layout, symptom.at)
    return SymptomEntry(
        symptom=symptom.id,
        name=capital(symptom.name),
        may_drive=sentence(symptom.may_drive or ""),
        place=make.choice("place", "Where?", options=options, chosen=sent.place) if len(options) > 1 else None,
        conditions=conditions_field(make, sent, around.rules),
        common=evidence_fields(make, sent, around=around, usual=Source.SEEN_HERE),
        buttons=BUTTONS,
        problem=problems.at("presence"),
    )


def knows_symptom(sent: SymptomSent, around: About) -> bool:
    return sent.symptom in around.rules.symptoms


def read_symptom(sent: SymptomSent, around: About) -> tuple[SymptomSeen, Known] | Problems:
    """The symptom with its visit, or everything that is wrong."""
    symptom = _symptom(sent, around)
    known, problems = read_common(sent, around)
    place = read_place(sent.place, around.layout, symptom.at)
    presence = one_of(Presence, sent.presence)
    if isinstance(place, Problem):
        problems.append(place)
    if presence is None:
        problems.append(Problem("presence", "It is not said whether it was there.", "Touch one of the answers."))
    if problems or presence is None or isinstance(place, Problem):
        return Problems(problems)
    return SymptomSeen(
        symptom.id,
        PlaceId(place),
        presence,
        known.source,
        conditions=ticked_conditions(sent, around.rules),
        note=known.note,
    ), known


def _symptom(sent: SymptomSent, around: About) -> Symptom:
    return around.rules.symptoms[SymptomId(sent.symptom)]


def all_conditions(rules: Rules) -> tuple[str, ...]:
    """Every condition that a rule names, the most used first: what is ticked is what the rules understand."""
    used = Counter(condition for symptom in rules.symptoms.values() for condition in symptom.conditions)
    return tuple(sorted(used, key=lambda condition: (-used[condition], condition)))


def conditions_field(
    make: FieldMaker, sent: Sent, rules: Rules, label: str = "Under which conditions?", hint: str = ""
) -> Field:
    """Ticks; the rarer conditions are folded away."""
    options = [(condition, condition) for condition in all_conditions(rules)]
    field = make.choice("under_", label, options=options, chosen=sent.ticked("under_"), hint=hint)
    return replace(field, choices=field.choices[:CONDITIONS_SHOWN], further=field.choices[CONDITIONS_SHOWN:])


def ticked_conditions(sent: EvidenceSent, rules: Rules) -> tuple[str, ...]:
    ticked = sent.ticked("under_")
    return tuple(condition for condition in all_conditions(rules) if condition in ticked)

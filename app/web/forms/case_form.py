"""Opening a case: the complaint's symptom and place, whether it was reproduced, whether it may be driven."""

from __future__ import annotations

from dataclasses import dataclass

from app.evidence.case import Presence, Source, SymptomSeen
from app.history.values import CaseDetails, Reproduced, Timeline
from app.problem import Problem
from app.rules.customer_words import suggest
from app.rules.library import Rules
from app.rules.symptoms import Symptom
from app.rules.words import SymptomId
from app.vehicle.layout import Layout, PlaceId
from app.web.forms.evidence_fields import one_of, place_options, read_place
from app.web.forms.fields import LONGEST_TEXT, NONE, Field, FieldMaker, Problems, too_long
from app.web.forms.first_form import FirstFields, FirstSent, drive_answers, first_fields
from app.web.forms.symptom_form import ticked_conditions
from app.web.views.entries import visit_heading

PART_OF_IT = (("", "not about this"), ("there", "yes, the complaint was there"), ("in", "yes, but nothing said of it"))


class CaseSent(FirstSent):
    """Places come as `place_<symptom>`, visits as `visit_<id>`."""

    words: str = ""
    symptom: str = ""


@dataclass(frozen=True, slots=True)
class SuggestionView:
    """A symptom to choose; `places`: where it can be, if there is more than one place."""

    symptom: str
    name: str
    because: str
    chosen: bool
    places: Field | None


@dataclass(frozen=True, slots=True)
class CaseFields:
    words: Field
    suggestions: tuple[SuggestionView, ...]
    nothing_near: bool
    symptom_problem: str
    first: FirstFields
    visits: tuple[Field, ...]


@dataclass(frozen=True, slots=True)
class NewCase:
    """A case to open: `there`: visits at which the complaint was there; `now`: the visit it is opened at."""

    details: CaseDetails
    visits: tuple[str, ...]
    there: tuple[str, ...]
    now: str


def case_fields(sent: CaseSent, timeline: Timeline, *, rules: Rules, problems: Problems = NONE) -> CaseFields:
    make = FieldMaker("case", problems, focus_on="words")
    layout = timeline.vehicle.vehicle.layout
    suggestions = _suggestions(make, sent, rules=rules, layout=layout)
    return CaseFields(
        words=make.line("words", "The complaint in the customer’s words", value=sent.words),
        suggestions=suggestions,
        nothing_near=bool(sent.words.strip()) and not suggestions,
        symptom_problem=problems.at("symptom"),
        first=first_fields(make, sent, rules),
        visits=_visit_fields(make, sent, timeline),
    )


def read_case_form(sent: CaseSent, timeline: Timeline, *, rules: Rules) -> NewCase | Problems:
    """The case to open, or everything that is wrong."""
    problems = [*too_long("words", sent.words, limit=LONGEST_TEXT)]
    layout = timeline.vehicle.vehicle.layout
    symptom = rules.symptoms.get(SymptomId(sent.symptom))
    place: PlaceId | Problem | None = None
    if symptom is None:
        problems.append(
            Problem("symptom", "The complaint is not chosen.", "Type the customer’s words and choose what fits.")
        )
    else:
        place = read_place(sent.extra("place_").get(symptom.id, ""), layout, symptom.at, name=f"place_{symptom.id}")
    if isinstance(place, Problem):
        problems.append(place)
    reproduced = one_of(Reproduced, sent.reproduced)
    if reproduced is None:
        problems.append(Problem("reproduced", "It is not said whether it was reproduced.", "Choose one."))
    visits, there = _visits(sent, timeline, problems=problems)
    if problems or symptom is None or reproduced is None or place is None or isinstance(place, Problem):
        return Problems(problems)
    details = CaseDetails(
        complaint=symptom.id,
        complaint_place=place,
        reproduced=reproduced,
        reproduced_conditions=ticked_conditions(sent, rules),
        may_drive=drive_answers(sent),
    )
    return NewCase(details, visits, there, now=visits[-1])


def complaint_entries(new: NewCase) -> tuple[tuple[str, SymptomSeen], ...]:
    """What opening the case says: the complaint was there, visit by visit; seen here only if reproduced here."""

    def told(symptom: SymptomId, place: PlaceId) -> SymptomSeen:
        return SymptomSeen(symptom, place, Presence.PRESENT, Source.TOLD)

    seen = SymptomSeen(
        new.details.complaint,
        new.details.complaint_place,
        Presence.PRESENT,
        Source.SEEN_HERE if new.details.reproduced is Reproduced.YES else Source.TOLD,
        conditions=new.details.reproduced_conditions,
    )
    earlier = told(new.details.complaint, new.details.complaint_place)
    return tuple((visit, seen if visit == new.now else earlier) for visit in new.there)


def _suggestions(make: FieldMaker, sent: CaseSent, *, rules: Rules, layout: Layout) -> tuple[SuggestionView, ...]:
    near = {s.symptom: s.because_words for s in suggest(sent.words, rules)}
    chosen = rules.symptoms.get(SymptomId(sent.symptom))
    if chosen is not None:
        near.setdefault(chosen.id, "chosen before")
    return tuple(
        _suggestion(make, sent, symptom=rules.symptoms[id], because=why, layout=layout) for id, why in near.items()
    )


def _suggestion(make: FieldMaker, sent: CaseSent, *, symptom: Symptom, because: str, layout: Layout) -> SuggestionView:
    options = place_options(layout, symptom.at)
    name = f"place_{symptom.id}"
    places = make.choice(
        name, "Where?", options=[("", "choose"), *options], chosen=sent.extra("place_").get(symptom.id, "")
    )
    return SuggestionView(
        symptom.id, symptom.name, because, sent.symptom == symptom.id, places if len(options) > 1 else None
    )


def _visit_fields(make: FieldMaker, sent: CaseSent, timeline: Timeline) -> tuple[Field, ...]:
    """Each visit that stands; the newest is about this complaint unless somebody says otherwise."""
    standing = [visit for visit in timeline.visits if visit.struck is None]
    answers = sent.extra("visit_")
    usual = {standing[-1].id: "there"} if standing else {}
    return tuple(
        make.choice(
            f"visit_{v.id}",
            visit_heading(v.number, v.stay),
            options=PART_OF_IT,
            chosen=answers.get(v.id, usual.get(v.id, "")),
            hint=f"“{v.stay.complaint_words}”" if v.stay.complaint_words else "",
        )
        for v in reversed(standing)
    )


def _visits(sent: CaseSent, timeline: Timeline, *, problems: list[Problem]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The ids of the visits about this complaint, and of those at which it was there; at least one of these."""
    answers = sent.extra("visit_")
    standing = [visit.id for visit in timeline.visits if visit.struck is None]
    visits = tuple(id for id in standing if answers.get(id) in ("there", "in"))
    there = tuple(id for id in standing if answers.get(id) == "there")
    if not there:
        problems.append(Problem("visits", "No visit says that the complaint was there.", "Choose at least one visit."))
    return visits, there

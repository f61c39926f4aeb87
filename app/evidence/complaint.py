"""The complaint over the visits: where it was last seen it counts in detail, at every other visit once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.evidence.case import Case
from app.evidence.moments import Moment
from app.evidence.statements import Statement
from app.rules.library import Family, Rules
from app.rules.words import SymptomId
from app.vehicle.layout import PlaceId


@dataclass(frozen=True, slots=True)
class Detail:
    """The complaint, or a kind of it, at a place, on the visit where it was last seen."""

    symptom: SymptomId
    place: PlaceId
    at: Moment
    present: bool
    entry: str


@dataclass(frozen=True, slots=True)
class Once:
    """On another visit (or stretch of road) the complaint was there, or was looked for and was not."""

    at: Moment
    present: bool
    entry: str


@dataclass(frozen=True, slots=True)
class Complaint:
    """What the case is about.

    `symptom`: the lead complaint; a family with several (pull, noise, soft pedal) keeps them apart.
    `details`: the most specific statements where it was last seen; `once`: one for every other moment.
    """

    family: Family
    symptom: SymptomId
    details: tuple[Detail, ...]
    once: tuple[Once, ...]

    def is_about(self, symptom: SymptomId, rules: Rules) -> bool:
        """Whether a symptom is the lead complaint or a kind of it."""
        return self.symptom in rules.kinds(symptom)


def the_complaint(case: Case, said: Iterable[Statement], rules: Rules) -> Complaint:
    """A visit of the case at which nobody spoke of the complaint says nothing about it."""
    family, lead = rules.family_of(case.complaint), rules.lead_of(case.complaint)
    whole = Complaint(family, lead, (), ())
    about = [s for s in said if whole.is_about(s.symptom, rules)]
    present = [s.at for s in about if s.present]
    last = max(present) if present else Moment(case.visits[-1].number, about[0].at.phase) if about else None
    details = [s for s in about if s.at == last]
    found = _most_specific(details, case, rules)
    return Complaint(family, lead, found, _once(about, last, found, rules))


def _most_specific(statements: list[Statement], case: Case, rules: Rules) -> tuple[Detail, ...]:
    """A present kind stands for the present general complaint around it."""
    layout = case.vehicle.layout
    kept: dict[tuple[SymptomId, PlaceId], Detail] = {}
    for s in statements:
        covered = s.present and any(
            other.present and s.symptom in rules.kinds(other.symptom)[1:] and layout.related(s.place, other.place)
            for other in statements
        )
        if not covered:
            kept[s.symptom, s.place] = Detail(s.symptom, s.place, s.at, s.present, s.entry)
    return tuple(kept.values())


def _once(about: list[Statement], last: Moment | None, details: tuple[Detail, ...], rules: Rules) -> tuple[Once, ...]:
    """One finding per other moment: present if any kind was; absent if the complaint, as it was last seen, was not."""
    as_last_seen = {(d.symptom, d.place) for d in details if d.present}
    found: dict[Moment, Once] = {}
    for s in about:
        if s.at == last:
            continue
        general = rules.symptoms[s.symptom].kind_of is None
        looked_for = general or (s.symptom, s.place) in as_last_seen
        if s.present or (looked_for and s.at not in found):
            found[s.at] = Once(s.at, s.present, s.entry)
    return tuple(found[at] for at in sorted(found))

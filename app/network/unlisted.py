"""What nothing listed explains is itself a cause, at every place of every level where the family has causes."""

from __future__ import annotations

from collections.abc import Mapping

from app.evidence.case import Case
from app.evidence.complaint import Complaint
from app.network.lines import Lines
from app.network.links import Acting, complaint_effects, complaint_here
from app.network.noisy_or import Hypothesis, State
from app.rules.causes import Gives
from app.rules.library import Rules
from app.rules.priors import unlisted_levels, unlisted_prior
from app.rules.words import Course, Rated, SymptomId

KIND_OFTEN = 0.5
"""An unlisted fault gives a given kind of the complaint as often as a listed one rated "often"."""


def unlisted(case: Case, complaint: Complaint, lines: Lines, rules: Rules) -> list[Hypothesis]:
    """One two-state hypothesis per place; its prior is u r / (levels x places of the level) (DESIGN section 6)."""
    layout = case.vehicle.layout
    gives, family = _gives(complaint, rules), complaint.family
    always = Acting(lambda _: True, lambda _: False)
    found = []
    for level in unlisted_levels(family, layout, rules):
        prior = unlisted_prior(family, level, layout, rules)
        for place in layout.places(level):
            shown = complaint_effects(complaint_here(place, lines, layout), gives, always, rules.settings)
            found.append(Hypothesis((State(1.0 - prior), State(prior, shown))))
    return found


def _gives(complaint: Complaint, rules: Rules) -> Mapping[SymptomId, Gives]:
    """The lead complaint surely; each kind of it as often as not."""
    gives = {}
    for symptom in rules.symptoms:
        if complaint.is_about(symptom, rules):
            chance = 1.0 if symptom == complaint.symptom else KIND_OFTEN
            gives[symptom] = Gives(symptom, Rated("not listed", chance), Course.AT_ONCE)
    return gives

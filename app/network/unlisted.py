"""What nothing listed explains is itself a cause, at every place of every level where the family has causes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from app.evidence.case import Case
from app.evidence.complaint import Complaint
from app.network.lines import Lines
from app.network.links import Acting, complained_of, complaint_effects, told_of
from app.network.noisy_or import Hypothesis, State
from app.rules.causes import Gives
from app.rules.library import Rules
from app.rules.priors import unlisted_priors
from app.rules.words import Course, Rated, SymptomId

KIND_OFTEN = 0.5
"""An unlisted fault gives a given kind of the complaint as often as a listed one rated "often"."""
ALWAYS_THERE = 0.8
"""Part of the unlisted faults that show at every visit; the rest come and go.

On average they show at 9 of 10 visits, as listed ones do; but which sort it is stays the same over the visits, so a
complaint told often does not speak against them.
"""


def unlisted(case: Case, complaint: Complaint, lines: Lines, rules: Rules) -> tuple[Hypothesis, ...]:
    """One hypothesis per place, absent, constant or coming and going.

    Its prior is u r / (levels x places of the level) (DESIGN section 6).
    """
    layout = case.vehicle.layout
    family, always = complaint.family, Acting(lines.moments())
    constant, comes_and_goes = (
        unlisted_gives(complaint.symptom, course, rules) for course in (Course.AT_ONCE, Course.COMES_AND_GOES)
    )
    every_visit = replace(rules.settings, shows_again=1.0)
    found = []
    for level, prior in unlisted_priors(family, complaint.symptom, layout, rules).items():
        for place in layout.places(level):
            told = told_of(place, lines, layout)
            always_there, at_times = (complained_of(told, gives) for gives in (constant, comes_and_goes))
            found.append(
                Hypothesis(
                    (
                        State(1.0 - prior),
                        State(ALWAYS_THERE * prior, complaint_effects(always_there, always, every_visit)),
                        State((1.0 - ALWAYS_THERE) * prior, complaint_effects(at_times, always, rules.settings)),
                    )
                )
            )
    return tuple(found)


def unlisted_gives(lead: SymptomId, course: Course, rules: Rules) -> Mapping[SymptomId, Gives]:
    """The lead complaint surely; each kind of it as often as not."""
    return {
        symptom: Gives(symptom, Rated("not listed", 1.0 if symptom == lead else KIND_OFTEN), course)
        for symptom in rules.symptoms
        if lead in rules.kinds(symptom)
    }

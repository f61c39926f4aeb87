"""A complaint brings the vehicle in, so its being there does not tell faults that come and go from constant ones."""

from __future__ import annotations

from app.evidence.moments import Moment, Phase
from app.network.lines import SymptomLine
from app.network.links import Acting, Told, complained_of, complaint_effects
from app.network.noisy_or import Effect
from app.rules.causes import Gives
from app.rules.words import Course, Rated, SymptomId
from app.vehicle.layout import VEHICLE
from tests.cases import real_rules

COMPLAINT = SymptomId("battery-flat")
MOMENTS = tuple(Moment(visit, Phase.FOUND) for visit in (1, 2, 3, 4))


def effects(course: Course, *brought: bool) -> tuple[Effect, ...]:
    """Of a fault that gives the complaint half the time, told of at so many visits: there, or looked for in vain."""
    lines = tuple(
        SymptomLine(number, COMPLAINT, VEHICLE, at, there)
        for number, (at, there) in enumerate(zip(MOMENTS, brought, strict=False))
    )
    gives = {COMPLAINT: Gives(COMPLAINT, Rated("often", 0.5), course)}
    complained = complained_of(Told((), lines, {}), gives)
    return complaint_effects(complained, Acting(frozenset(MOMENTS)), real_rules().settings)


def test_however_often_the_complaint_brought_the_vehicle_in_both_kinds_of_fault_explain_it_alike():
    for visits in range(1, 5):
        there = (True,) * visits
        assert effects(Course.COMES_AND_GOES, *there) == effects(Course.AT_ONCE, *there)


def test_looking_for_it_in_vain_tells_them_apart():
    assert effects(Course.COMES_AND_GOES, True, False) != effects(Course.AT_ONCE, True, False)

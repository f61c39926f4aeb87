"""What a drawn case costs by the advice and part by part, and how the saving is told."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from app.advice.costs import Costs
from app.advice.prices import supplied_prices
from app.advice.repairs import RepairHere, repairs_of_row
from app.evidence.case import DutyState, Presence
from app.rules.words import CauseId, FamilyId
from app.simulation.cost import Spent, gone_for_now, in_vain, known_from_the_start, mend, spent, still_there
from app.simulation.draw import draw_case
from app.simulation.faults import Fault
from app.simulation.saved import saved
from app.vehicle.layout import Level
from tests.cases import real_rules

RULES = real_rules()


def drawn(seed: int, family: str = "brake-judder"):
    dice = np.random.default_rng(seed)
    return draw_case(RULES.families[FamilyId(family)], RULES, dice), dice


def test_the_same_seed_costs_the_same_and_both_ways_cost_something():
    one, two = (spent(*(c := drawn(4))[:1], RULES, supplied_prices(RULES), c[1]) for _ in range(2))
    assert one == two
    assert one.advised > 0.0
    assert one.part_by_part > 0.0
    assert one.tests + one.repairs > 0


def repair(operation: str) -> RepairHere:
    one = RULES.operations[operation]
    return RepairHere(one, drawn(4)[0].case.vehicle.layout.places(one.at), (), ())


def test_a_case_is_mended_when_all_that_gives_the_complaint_is_put_right():
    case = drawn(4)[0]
    first = case.keeps[0]
    case = replace(case, keeps=(first,))
    place = case.case.vehicle.layout.places(Level.VEHICLE)[0]
    also = Fault(RULES.causes[CauseId("battery-worn-low-capacity")], place, (True,), ())
    both = replace(case, keeps=(first, also))
    for fix in first.cause.fixed_by:
        assert mend([repair(fix.operation)], case)
        assert not mend([repair(fix.operation)], both)
        assert mend([repair(fix.operation), repair(also.cause.fixed_by[0].operation)], both)
    assert not mend([repair(also.cause.fixed_by[0].operation)], case)


def test_a_destroyed_part_renewed_is_sound_for_a_while_and_its_culprit_is_still_to_be_found():
    case = drawn(4)[0]
    victim = replace(case.keeps[0], destroyed_by=CauseId("battery-worn-low-capacity"))
    place = case.case.vehicle.layout.places(Level.VEHICLE)[0]
    culprit = Fault(RULES.causes[CauseId("battery-worn-low-capacity")], place, (True,), ())
    case = replace(case, keeps=(victim, culprit))
    renewed = [repair(victim.cause.fixed_by[0].operation)]
    assert gone_for_now(renewed, case, RULES)
    assert not mend(renewed, case)
    assert not gone_for_now([repair(culprit.cause.fixed_by[0].operation)], case, RULES)
    assert not gone_for_now(renewed, replace(case, keeps=(victim, replace(culprit, cause=other_giving(case)))), RULES)


def test_what_was_put_right_shows_to_no_later_test_but_a_part_is_destroyed_again_while_its_culprit_is_there():
    case = drawn(4)[0]
    first = case.keeps[0]
    place = case.case.vehicle.layout.places(Level.VEHICLE)[0]
    also = Fault(RULES.causes[CauseId("battery-worn-low-capacity")], place, (True,), ())
    case = replace(case, faults=(first, also), keeps=(first, also))
    renewed = [repair(first.cause.fixed_by[0].operation)]
    assert still_there([], case) == (first, also)
    assert still_there(renewed, case) == (also,)
    victim = replace(first, destroyed_by=also.cause.id)
    both = replace(case, faults=(victim, also), keeps=(victim, also))
    assert still_there(renewed, both) == (victim, also)
    assert still_there([*renewed, repair(also.cause.fixed_by[0].operation)], both) == ()


def test_a_job_of_ours_in_vain_stands_on_the_history_with_its_duties_verified():
    """Repairs of a drawn case are never botched; unsaid, the board would have to reckon with forgotten duties."""
    case = drawn(4)[0].case
    done = next(one for one in RULES.operations.values() if one.duties)
    visits = in_vain(case, repair(done.id), (), later=False).visits
    assert [(duty.duty, duty.state, duty.source.here) for duty in visits[-2].jobs[-1].duties] == [
        (duty.id, DutyState.VERIFIED, True) for duty in done.duties
    ]
    assert [(seen.symptom, seen.presence) for seen in visits[-1].symptoms] == [(case.complaint, Presence.PRESENT)]


def test_one_repair_that_puts_two_faults_right_is_paid_once_by_those_who_know_them():
    """A belt that slips as its tensioner is weak: belt and tensioner are renewed together."""
    case = drawn(4)[0]
    both = [
        Fault(RULES.causes[CauseId(cause)], "engine", (True,), (), destroyed_by=by)
        for cause, by in (("belt-tensioner-weak", None), ("belt-slips", CauseId("belt-tensioner-weak")))
    ]
    costs = Costs(case.case, RULES, supplied_prices(RULES))
    together = {fix.operation for fix in both[0].cause.fixed_by} & {fix.operation for fix in both[1].cause.fixed_by}
    assert together
    money = known_from_the_start(replace(case, faults=tuple(both), keeps=tuple(both)), costs)
    at_engine = replace(case, keeps=tuple(both))
    possible = [
        costs.of_repair(one).money
        for fault in both
        for one in repairs_of_row(fault.cause, fault.place, RULES, case.case.vehicle.layout)
        if mend([one], at_engine)
    ]
    assert money == pytest.approx(min(possible))


def other_giving(case):
    """A cause that gives the complaint of the case itself."""
    known = {fault.cause.id for fault in case.keeps}
    gives = (c for c in RULES.causes.values() if any(g.symptom == case.case.complaint for g in c.gives))
    return next(cause for cause in gives if cause.id not in known)


def test_the_saving_is_that_of_the_sums_with_its_interval_around_it():
    """By hand: 100 + 300 against 200 + 400 is a third less."""
    cases = [Spent(100.0, 200.0, 1, 1, 90.0), Spent(300.0, 400.0, 3, 1, 210.0)]
    one = saved(cases, np.random.default_rng(1))
    assert one.share == pytest.approx(1.0 / 3.0)
    assert (one.advised, one.part_by_part, one.tests, one.repairs) == (200.0, 300.0, 2.0, 1.0)
    assert one.low <= one.share <= one.high
    assert one.possible == pytest.approx(0.5)
    assert (one.low, one.high) == (pytest.approx(0.25), pytest.approx(0.5))

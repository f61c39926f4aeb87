"""Cases drawn from the rules: the same seed draws the same, a fault can make its complaint, advice finds it."""

from __future__ import annotations

import numpy as np
import pytest

from app.evidence.case import Presence
from app.rules.priors import shares
from app.rules.words import CauseId, FamilyId
from app.simulation.deleted import without_cause
from app.simulation.draw import Given, dice_of, draw_case
from app.simulation.figures import Bin, Figures, Tally, leading, weak_causes
from app.simulation.why_missed import why_not_found
from app.simulation.work import worked
from tests.cases import real_rules

NO_EARLIER_WORK = Given(earlier_visits=0)
FAMILIES = ("battery-goes-flat", "brake-judder", "misfire-rough-running")


def drawn(family: str, seed: int):
    return draw_case(real_rules().families[FamilyId(family)], real_rules(), np.random.default_rng(seed))


@pytest.mark.parametrize("family", FAMILIES)
def test_the_same_seed_draws_the_same_case_and_another_seed_another(family):
    assert drawn(family, 3) == drawn(family, 3)
    assert len({drawn(family, seed).behind.cause.id for seed in range(12)}) > 4


@pytest.mark.parametrize("family", FAMILIES)
def test_the_fault_behind_a_complaint_is_there_now_fits_the_vehicle_and_can_make_it(family):
    rules = real_rules()
    for seed in range(40):
        one = drawn(family, seed)
        layout = one.case.vehicle.layout
        assert one.behind.now
        assert one.behind.place in one.behind.cause.can_act_at(layout)
        assert any(one.case.complaint in rules.kinds(gives.symptom) for gives in one.behind.cause.gives)
        assert layout.related(one.behind.place, one.case.complaint_place)
        today = one.case.visits[-1]
        assert today.here
        told = {s.symptom for s in today.symptoms if s.presence is Presence.PRESENT}
        assert one.case.complaint in told


def test_faults_are_drawn_as_often_as_the_rules_say():
    """Of battery cases without earlier work the family's commonest cause stands behind its share (three sigma)."""
    rules, family = real_rules(), real_rules().families[FamilyId("battery-goes-flat")]
    drawn_cases = [draw_case(family, rules, np.random.default_rng(seed), NO_EARLIER_WORK) for seed in range(150)]
    at_home = [one for one in drawn_cases if one.behind.cause.family == family.id]
    shares_said = [shares(family, one.case.vehicle.layout, rules) for one in at_home]
    common = max(shares_said[0], key=shares_said[0].get)
    expected = np.mean([said.get(common, 0.0) / sum(said.values()) for said in shares_said])
    share = np.mean([one.behind.cause.id == common for one in at_home])
    assert len(at_home) > 75
    assert abs(share - expected) < 3 * (expected * (1 - expected) / len(at_home)) ** 0.5


def test_advice_finds_the_true_cause_in_most_cases_and_rules_nothing_true_out():
    """Seeds chosen before anybody saw how they come out; the two families whose cases are worked fastest."""
    figures = Figures()
    for name in ("battery-goes-flat", "brake-judder"):
        family = real_rules().families[FamilyId(name)]
        for seed in (1, 2, 3):
            dice = dice_of(family.id, seed)
            one = draw_case(family, real_rules(), dice)
            figures.add(one, list(worked(one, real_rules(), dice, steps=3)))
    assert figures.first[3].of == 6
    assert figures.first[3].hits >= 5
    assert figures.ruled_out.hits == 0


def test_what_is_deleted_from_the_rules_is_nowhere_on_the_board():
    one = drawn("brake-judder", 1)
    rules = without_cause(real_rules(), one.behind.cause.id)
    for board in worked(one, rules, np.random.default_rng(1), steps=2):
        assert one.behind.cause.id not in leading(board)


def test_an_upper_bound_is_wilsons():
    """Wilson (1927) by hand: 0 of 100 rows leaves at most 3.7 %, 2 of 100 at most 7.0 % (Brown, Cai, DasGupta 2001)."""
    assert Tally(0, 100).at_most == pytest.approx(0.0370, abs=1e-4)
    assert Tally(2, 100).at_most == pytest.approx(0.0700, abs=1e-4)
    assert Tally().at_most == 1.0


def test_calibration_looks_only_at_tenths_with_enough_rows():
    figures = Figures()
    figures.bins[2] = Bin(rows=100, said=25.0, were=20)
    figures.bins[9] = Bin(rows=5, said=4.8, were=0)
    assert figures.worst_gap == pytest.approx(0.05)


def test_a_cause_found_too_seldom_is_named_with_why():
    figures = Figures()
    figures.by_cause[CauseId("coil-failing")] = Tally(1, 4)
    figures.by_cause[CauseId("rust-between-hub-and-disc")] = Tally(4, 4)
    assert list(weak_causes(figures, below=0.7)) == ["coil-failing"]
    assert why_not_found(CauseId("coil-failing"), real_rules())

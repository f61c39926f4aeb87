"""How likely a cause is at a place before anything is known."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.rules.priors import faults_expected, lead_strength, prior_at, priors, shares, unlisted_priors
from app.rules.read import read_rules
from app.rules.words import Rated
from app.vehicle.layout import Layout, Level, level_of
from tests.cases import real_rules
from tests.rules.texts import changed, texts

V6 = Layout(((1, 3, 5), (2, 4, 6)))


@pytest.fixture
def rules():
    return read_rules(texts())[0]


def with_weight(rules, *, coil: float):
    """The small library with another weight of the coil among weights that sum to 3 besides."""
    causes = dict(rules.causes)
    causes["coil-weak"] = replace(causes["coil-weak"], how_common=Rated("made for a test", coil))
    return replace(rules, causes=causes)


def test_the_worked_example_of_the_design_comes_out(rules):
    """DESIGN section 6: coil, share 0.104, six cylinders, strength 0.8: 0.00108 each."""
    weight = 3.0 * 0.104 / (0.95 - 0.104)
    adjusted = with_weight(rules, coil=weight)
    coil = adjusted.causes["coil-weak"]
    assert shares(adjusted.families["misfire"], V6, adjusted)["coil-weak"] == pytest.approx(0.104)
    assert prior_at(coil, Level.CYLINDER, V6, adjusted) == pytest.approx(0.00108, abs=5e-6)
    assert prior_at(coil, Level.CYLINDER, V6, adjusted) == pytest.approx(0.104 * 0.05 / (6 * 0.8))


def test_the_shares_of_a_family_leave_room_for_what_nobody_listed(rules):
    assert sum(shares(rules.families["misfire"], V6, rules).values()) == pytest.approx(0.95)


def test_a_cause_that_does_not_fit_gives_its_share_to_the_others(rules):
    hydraulic = replace(V6, traits={"valve clearance": "hydraulic"})
    screw = replace(V6, traits={"valve clearance": "screw"})
    family = rules.families["misfire"]
    assert "exhaust-lash-too-tight" in shares(family, screw, rules)
    assert "exhaust-lash-too-tight" not in shares(family, hydraulic, rules)
    assert shares(family, hydraulic, rules)["coil-weak"] > shares(family, screw, rules)["coil-weak"]
    assert prior_at(rules.causes["exhaust-lash-too-tight"], Level.CYLINDER, hydraulic, rules) == 0.0


def test_the_strongest_of_the_lead_complaint_and_its_kinds_counts(rules):
    assert lead_strength(rules.causes["exhaust-lash-too-tight"], rules) == 0.8


def test_a_share_is_split_over_levels_and_their_places(rules):
    lash = rules.causes["exhaust-lash-too-tight"]
    share = shares(rules.families["misfire"], V6, rules)[lash.id]
    assert prior_at(lash, Level.CYLINDER, V6, rules) == pytest.approx(share * 0.9 * 0.05 / (6 * 0.8))
    assert prior_at(lash, Level.BANK, V6, rules) == pytest.approx(share * 0.1 * 0.05 / (2 * 0.8))
    assert prior_at(lash, Level.WHEEL, V6, rules) == 0.0


def test_a_cause_that_states_its_prior_has_it_at_every_place():
    given = changed("    how common: rare\n", "    prior: 0.002\n")
    rules = read_rules(given)[0]
    assert rules is not None
    assert prior_at(rules.causes["valve-burnt"], Level.CYLINDER, V6, rules) == 0.002


def test_what_is_not_listed_is_spread_over_levels_and_places(rules):
    family = rules.families["misfire"]
    prior = unlisted_priors(family, family.lead[0], V6, rules)
    assert tuple(prior) == (Level.BANK, Level.CYLINDER)
    assert prior[Level.CYLINDER] == pytest.approx(0.05 * 0.05 / (2 * 6))


def test_a_family_with_several_leads_shares_what_is_not_listed_among_them():
    rules = real_rules()
    family = rules.families["brake-pull-drag-noise-soft-pedal"]
    parts = [unlisted_priors(family, lead, V6, rules)[Level.VEHICLE] for lead in family.lead]
    whole = 0.05 * 0.05 / len(unlisted_priors(family, family.lead[0], V6, rules))
    assert all(0.0 < part < whole for part in parts)
    assert sum(parts) >= whole


def test_the_table_of_priors_says_the_same_place_by_place(rules):
    for name, at in priors(V6, rules).items():
        cause = rules.causes[name]
        assert tuple(at) == cause.can_act_at(V6)
        assert all(at[place] == prior_at(cause, level_of(place), V6, rules) for place in at)


def test_the_faults_a_family_expects_are_the_sum_over_all_its_places(rules):
    by_hand = 0.05 * 0.05
    for cause in rules.causes.values():
        for place in cause.can_act_at(V6):
            level = Level.CYLINDER if place.startswith("cyl") else Level.BANK
            by_hand += prior_at(cause, level, V6, rules)
    assert faults_expected(rules.families["misfire"], V6, rules) == pytest.approx(by_hand)

"""Jobs cut time: the chances of the four histories over one job, as DESIGN section 7 states them."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.evidence.moments import Moment, Phase
from app.evidence.observe import observe
from app.network.build import CaseNetwork, build_network
from app.network.candidates import Candidate, Cut
from app.network.noisy_or import Effect, Group, Hypothesis, Leaf
from app.vehicle.layout import PlaceId
from tests.cases import FOUR, V6, Story, a_case, real_rules

chances = st.floats(0.0, 1.0)


def candidate(prior: float, *cuts: Cut) -> Candidate:
    return Candidate(real_rules().causes["coil-failing"], PlaceId("cyl-2"), prior, cuts)


def job(kappa: float, brings: float, done: float) -> Cut:
    at = Moment(1, Phase.WORK)
    return Cut(at, 1.0 - done * kappa * (1.0 - brings), done * brings, done * kappa, None, None)


@settings(derandomize=True, deadline=None)  # the first example reads the rules
@given(p=chances, kappa=chances, n=chances, rho=chances)
def test_the_four_histories_have_the_stated_chances(p: float, kappa: float, n: float, rho: float) -> None:
    found = dict(candidate(p, job(kappa, n, rho)).histories())
    assert found.get((True, True), 0.0) == pytest.approx(p * ((1 - rho) + rho * (1 - kappa) + rho * kappa * n))
    assert found.get((True, False), 0.0) == pytest.approx(p * rho * kappa * (1 - n))
    assert found.get((False, True), 0.0) == pytest.approx((1 - p) * rho * n)
    assert found.get((False, False), 0.0) == pytest.approx((1 - p) * (1 - rho * n))


@settings(derandomize=True)
@given(p=chances, jobs=st.lists(st.tuples(chances, chances, chances), max_size=4))
def test_histories_over_any_number_of_jobs_are_all_there_is(p: float, jobs: list[tuple[float, float, float]]) -> None:
    assert sum(weight for _, weight in candidate(p, *(job(*one) for one in jobs)).histories()) == pytest.approx(1.0)


def network_of(story: Story) -> CaseNetwork:
    return build_network(story.case, observe(story.case, real_rules()), real_rules())


def bank_misfire() -> Story:
    return a_case("rough-running", "engine", V6).visit("2026-03-01", 91000).code("P0301", "P0303", "P0305")


def hypothesis(network: CaseNetwork, cause: str, place: str) -> Hypothesis:
    number = next(n for n, c in enumerate(network.candidates) if (c.cause.id, c.place) == (cause, place))
    return network.noisy_or.hypotheses[number]


def test_one_fault_of_a_bank_gives_its_cylinders_codes_as_one_draw() -> None:
    network = network_of(bank_misfire())
    codes = {line.finding for line in network.lines.complaint}
    (acting,) = [s for s in hypothesis(network, "cam-timing-off-one-bank", "bank-1").states if s.effects]
    drawn = [
        e
        for e in acting.effects
        if isinstance(e, Group) and {x.finding for x in e.effects if isinstance(x, Leaf)} == codes
    ]
    assert len(drawn) == 1
    assert {leaf.strength for leaf in drawn[0].effects if isinstance(leaf, Leaf)} == {0.9}


def test_a_fault_of_one_cylinder_answers_for_its_own_code_only() -> None:
    network = network_of(bank_misfire())
    own = next(line.finding for line in network.lines.complaint if line.place == "cyl-3")
    others = {line.finding for line in network.lines.complaint} - {own}
    for state in hypothesis(network, "coil-failing", "cyl-3").states:
        leaves = {e.finding for e in state.effects if isinstance(e, Leaf)}
        assert not leaves & others


def test_a_row_of_a_smallest_place_is_the_or_of_all_that_covers_it() -> None:
    network = network_of(bank_misfire())
    row = next(r for r in network.rows if r.cause == "exhaust-lash-too-tight" and r.place == "cyl-3")
    assert {network.candidates[m].place for m in row.members} == {"cyl-3", "bank-1"}
    bank = next(r for r in network.rows if r.cause == "exhaust-lash-too-tight" and r.place == "bank-1")
    assert {network.candidates[m].place for m in bank.members} == {"bank-1"}


def test_an_earlier_epoch_has_a_row_only_where_a_job_renewed_something() -> None:
    story = a_case("rough-running", "engine", FOUR).visit("2026-01-01", 80000).code("P0302")
    story = story.job("renew-coil", "cyl-2").visit("2026-02-01", 80500).code("P0302")
    earlier = {(r.cause, r.place, r.job) for r in network_of(story).rows if r.job is not None}
    assert ("coil-failing", "cyl-2", 1) in earlier
    assert all(place == "cyl-2" for _, place, _ in earlier)


def reaches(effects: Iterable[Effect], finding: int) -> float:
    """The chance that these effects fire the finding."""
    silent = 1.0
    for effect in effects:
        if isinstance(effect, Group):
            silent *= 1.0 - effect.acts * reaches(effect.effects, finding)
        elif effect.finding == finding:
            silent *= 1.0 - effect.strength
    return 1.0 - silent


def test_a_culprit_taken_away_spares_the_part_fitted_with_it() -> None:
    """A broken brick renewed together with the pipe it can block has no part in what blocks the new pipe.

    What it broke off before may still block the pipe behind, which was left in (8 in 100 by the rules).
    """
    story = a_case("catalyst-code", "bank-1", FOUR).visit("2025-06-10", 164000).complains("catalyst-code", "bank-1")
    story = story.job("renew-catalyst", "bank-1").visit("2025-08-10", 166000).complains("catalyst-code", "bank-1")
    network = network_of(story.result("exhaust-back-pressure", "bank-1", "abnormal"))
    pressed = next(t.finding for t in network.lines.tests if t.test.id == "exhaust-back-pressure" and t.result)
    brick = hypothesis(network, "catalyst-substrate-broken", "bank-1")
    chances = sorted(reaches(state.effects, pressed) for state in brick.states if state.effects)
    assert chances[0] < 0.1 < 0.7 < chances[-1]

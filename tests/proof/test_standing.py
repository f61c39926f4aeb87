"""What the use since the repair proves: the worked figures of the issue, conditions, verdicts."""

from __future__ import annotations

from dataclasses import replace
from math import isinf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.evidence.case import Case, Visit
from app.proof.measures import Measure
from app.proof.sentences import needs, proves, verdict
from app.proof.standing import Standing, Verdict, case_at_repair, standing
from tests.cases import a_case, real_rules
from tests.proof.stories import MISFIRE, SHOWN, came_back_twice, hot_at_idle


def of(case: Case, worked: float | None = 0.5) -> Standing:
    return standing(case, real_rules(), worked)


def driven(**run: object) -> Case:
    return came_back_twice().run(**run).case


def test_sixty_silent_km_after_returns_at_10_and_25_leave_fourteen_per_cent_and_the_need_is_about_165():
    """The figures of the issue: (35/95)^2 = 13.6 %, exp(-120/35) = 3.2 %; about 165 km for 3 % at even odds."""
    lead = of(driven(km=60)).lead
    assert (lead.measure, lead.returns, lead.silent) == (Measure.KM, 2, 60)
    assert (lead.stays_silent, lead.plug_in) == (pytest.approx(0.1357, abs=5e-5), pytest.approx(0.0324, abs=5e-5))
    assert lead.still_there == pytest.approx(0.1357 / 1.1357, abs=5e-5)
    assert lead.needed == pytest.approx(164, abs=0.5)
    assert lead.missing == pytest.approx(104, abs=0.5)


def test_the_sentences_name_the_method_and_what_each_figure_means():
    said = " ".join(proves(of(driven(km=60))))
    assert "silent for 60 km with a chance of 14 % under the gamma–Poisson model" in said
    assert "plug-in exponential, which takes the rate as known, would say 3 %" in said
    assert "cured it with a chance of 50 %" in said
    assert "still there and has only stayed silent is 12 %" in said
    assert "164 km without the complaint in all, 104 km more" in " ".join(needs(of(driven(km=60))))


def test_enough_silent_use_proves_it():
    assert of(driven(km=163)).verdict is Verdict.NOT_YET
    assert of(driven(km=165)).verdict is Verdict.PROVEN


def test_a_fault_that_shows_hot_at_idle_is_not_proven_gone_on_a_cold_motorway_run():
    cold = hot_at_idle(came_back_twice().run("cold", "high speed", km=5_000))
    found = of(cold)
    assert (found.verdict, found.lead.silent, found.lead.stays_silent) == (Verdict.NOT_YET, 0, 1)
    assert len(found.not_counted) == 1
    assert any("does not count" in one for one in proves(found))
    assert any("Not tried since the repair: hot, idle" in one for one in needs(found))
    assert of(hot_at_idle(came_back_twice().run("hot", "idle", "slow", km=200))).verdict is Verdict.PROVEN


def test_driving_as_usual_counts_whatever_the_conditions_for_the_waits_were_driven_so_too():
    assert of(hot_at_idle(came_back_twice().run(km=200))).verdict is Verdict.PROVEN


def test_every_way_in_which_it_showed_must_have_been_tried():
    story = hot_at_idle(came_back_twice().run(*SHOWN, km=500))
    first = story.visits[0]
    cold = replace(first, symptoms=(replace(first.symptoms[0], conditions=("cold", "starting")),))
    found = of(replace(story, visits=(cold, *story.visits[1:])))
    assert (found.verdict, found.untried) == (Verdict.NOT_YET, (frozenset({"cold", "starting"}),))


def test_however_good_the_repair_less_than_the_longest_wait_is_no_proof():
    assert of(driven(km=24), worked=0.999).verdict is Verdict.NOT_YET
    assert of(driven(km=25), worked=0.999).verdict is Verdict.PROVEN


def test_a_repair_that_the_board_does_not_believe_in_is_not_proven_by_any_use():
    found = of(driven(km=60), worked=0.0)
    assert isinf(found.lead.needed)
    assert found.lead.still_there == 1
    assert any("No use worth asking for" in one for one in needs(found))


def test_a_return_in_a_run_or_at_a_later_visit_ends_the_proof():
    in_a_run = came_back_twice().run(km=100).run(back=True, km=3)
    later = came_back_twice().run(km=100).visit("2026-04-12", 84_900).complains(*MISFIRE)
    assert of(in_a_run.case).verdict is of(later.case).verdict is Verdict.CAME_BACK
    assert verdict(of(later.case), None) == "It came back"


def test_a_later_visit_without_it_counts_with_the_odometer_and_the_calendar():
    found = of(came_back_twice().run(km=100).visit("2026-04-12", 84_300).complains(*MISFIRE, is_="absent").case)
    assert found.silent == {Measure.KM: 265, Measure.DAYS: 31}


def test_without_a_repair_there_is_nothing_to_prove():
    case = a_case(*MISFIRE).visit("2026-03-02", 84_000).complains(*MISFIRE).case
    assert of(case).verdict is Verdict.NO_REPAIR
    assert needs(of(case)) == ()
    assert case_at_repair(case, real_rules()) is None


def test_where_no_return_is_known_only_a_bound_is_said():
    """Zero-failure demonstration: 300 km show with 95 % confidence a mean above 300 / 2.996 = 100 km."""
    story = a_case(*MISFIRE).visit("2026-03-02", 84_000).complains(*MISFIRE).job("renew-coil", "cyl-3").run(km=300)
    found = of(story.case)
    assert found.verdict is Verdict.NO_WAIT_KNOWN
    assert found.excluded[Measure.KM] == pytest.approx(300 / 2.9957, rel=1e-4)
    assert any("every 100 km on average (zero-failure demonstration)" in one for one in proves(found))
    assert any("takes 300 km without it (3.0 times" in one for one in needs(found))


def test_the_prior_is_asked_of_the_case_as_it_was_after_the_repair():
    story = came_back_twice().visit("2026-04-12", 84_300).complains(*MISFIRE, is_="absent")
    assert [visit.number for visit in case_at_repair(story.case, real_rules()).visits] == [1, 2, 3]


@given(st.floats(0.0, 5_000.0), st.floats(0.0, 1_000.0), st.floats(0.02, 0.98))
def test_more_silent_use_never_proves_less(km, more, worked):
    less_driven, driven_more = of(driven(km=km), worked).lead, of(driven(km=km + more), worked).lead
    assert driven_more.still_there <= less_driven.still_there + 1e-12
    assert driven_more.missing <= less_driven.missing + 1e-9


@given(st.floats(0.0, 5_000.0), st.floats(0.02, 0.98))
def test_what_is_called_proven_leaves_at_most_the_chance_asked_for(km, worked):
    found = of(driven(km=km), worked)
    if found.verdict is Verdict.PROVEN:
        assert found.lead.still_there <= found.at_most + 1e-9


@given(st.lists(st.tuples(st.booleans(), st.floats(0.0, 900.0)), max_size=5), st.permutations(range(5)))
def test_the_order_of_runs_does_not_matter(runs, order):
    story = came_back_twice()
    for hot, km in runs:
        story = story.run("hot" if hot else "cold", km=km)
    case = story.case
    shuffled = [case.visits[-1].runs[n] for n in order if n < len(runs)]
    again = replace(case, visits=(*case.visits[:-1], _with_runs(case.visits[-1], tuple(shuffled))))
    assert of(again).lead.silent == pytest.approx(of(case).lead.silent)


def _with_runs(visit: Visit, runs: tuple) -> Visit:
    return replace(visit, runs=runs)

"""The way back: covers from the inside out, this visit's duties, and what is still open."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.earlier_work.putting_back import opening_order, putting_back
from app.earlier_work.sentences import open_items
from app.evidence.case import DutyDone, DutyState, Source
from tests.cases import a_case, real_rules

JUDDER = "judder-under-braking"


def opened(*covers: str, job: str = "", duties: dict[str, str] | None = None):
    story = a_case(JUDDER, "front-axle").visit("2026-05-01", 84000).complains(JUDDER, "front-axle")
    if job:
        story = story.job(job, "front-axle", duties=duties)
    return replace(story.case, open_covers=covers)


def back(case, *put_back: str):
    return putting_back(case, real_rules(), put_back=set(put_back))


def test_covers_go_back_in_the_reverse_of_the_order_in_which_they_come_off():
    names = [step.cover.id for step in back(opened("wheels-off", "pads-out", "disc-off")).steps]
    assert names == ["disc-off", "pads-out", "wheels-off"]


def test_every_operation_finds_its_own_order_kept():
    order = opening_order(real_rules())
    for operation in real_rules().operations.values():
        wheels = [cover for cover in order if cover in operation.opens]
        assert len(wheels) == len(operation.opens)
    assert sorted(order) == sorted(real_rules().covers)
    discs = real_rules().operations["replace-discs-and-pads"].opens
    assert [cover for cover in order if cover in discs] == list(discs)


@pytest.mark.parametrize(
    ("outer", "inner"),
    [
        ("wheels-off", "disc-off"),
        ("belt-off", "timing-cover-off"),
        ("coolant-drained", "head-off"),
        ("intake-off", "head-off"),
        ("tank-lowered", "tank-open"),
        ("drive-shaft-out", "gearbox-out"),
        ("at-pan-off", "valve-body-off"),
        ("glovebox-out", "dash-out"),
    ],
)
def test_what_lies_outside_comes_off_first(outer, inner):
    """Common practice: what covers another thing is taken off before it."""
    order = opening_order(real_rules())
    assert order.index(outer) < order.index(inner)


def test_a_job_of_this_visit_opens_what_it_needs_until_it_is_ticked():
    case = opened(job="replace-pads-only")
    assert [(step.cover.id, step.done) for step in back(case).steps] == [("pads-out", False), ("wheels-off", False)]
    assert [step.done for step in back(case, "pads-out").steps] == [True, False]
    assert back(case, "pads-out").minutes_left == real_rules().covers["wheels-off"].restore_minutes


def test_what_was_put_back_and_opened_again_is_open():
    case = opened("pads-out", job="replace-pads-only")
    assert [step.done for step in back(case, "pads-out").steps] == [False, False]


def test_a_duty_is_open_until_verified_or_said_not_to_apply():
    case = opened(job="replace-pads-only", duties={"pads-by-number": "verified", "piston-cleaned": "found wrong"})
    items = open_items(back(case, "pads-out", "wheels-off"))
    assert len(items) == len(real_rules().operations["replace-pads-only"].duties) - 1
    assert any("found wrong" in item for item in items)
    assert not any("parts list" in item for item in items)


def test_jobs_of_other_shops_are_no_work_of_this_visit():
    story = a_case(JUDDER, "front-axle").visit("2026-02-01", here=False).job("replace-pads-only", "front-axle")
    case = story.visit("2026-05-01").complains(JUDDER, "front-axle").case
    assert back(case).duties == ()
    assert open_items(back(case)) == ()


def test_minutes_are_those_of_the_build():
    cover = real_rules().covers["wheels-off"]
    assert back(opened("wheels-off")).minutes_left == cover.minutes_on(opened().vehicle.layout)[1]


@given(st.sets(st.sampled_from(sorted(real_rules().covers))), st.sets(st.sampled_from(sorted(real_rules().covers))))
@settings(max_examples=60, deadline=None)
def test_nothing_open_is_ever_left_off_the_list(open_now, put_back):
    found = back(opened(*sorted(open_now)), *put_back)
    assert {step.cover.id for step in found.open_steps} == open_now
    assert {step.cover.id for step in found.steps} == open_now | put_back
    assert found.minutes_left == sum(step.minutes for step in found.open_steps)


def test_a_duty_ticked_later_by_somebody_counts_as_the_last_word():
    case = opened(job="replace-pads-only", duties={"piston-cleaned": "found wrong"})
    job = case.visits[0].jobs[0]
    better = DutyDone("piston-cleaned", DutyState.VERIFIED, Source.SEEN_HERE, 1)
    case = replace(case, visits=(replace(case.visits[0], jobs=(replace(job, duties=(*job.duties, better)),)),))
    assert next(duty for duty in back(case).duties if duty.duty.id == "piston-cleaned").ticked

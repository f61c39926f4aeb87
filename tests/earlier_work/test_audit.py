"""What may be relied on of earlier work: every duty has one standing, and only our own eyes and gauges prove it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.board.build import build_board
from app.earlier_work.audit import PastJob, PastResult, Standing, audit, standing
from app.earlier_work.sentences import counted, how_to_verify, summary, what_follows
from app.evidence.case import DutyDone, DutyState, Job, Outcome, Result, Source
from app.evidence.jobs import what_stands
from tests.cases import a_case, real_rules

DISCS = "replace-discs-and-pads"
JUDDER = "judder-under-braking"


def discs_elsewhere():
    """Discs renewed elsewhere; the vehicle is back with its judder."""
    return (
        a_case(JUDDER, "front-axle")
        .visit("2026-02-01", 80000, here=False, shop="Harbour Garage")
        .complains(JUDDER, "front-axle", source=Source.PAPER)
        .job(DISCS, "front-axle", source=Source.PAPER)
        .visit("2026-05-01", 84000)
        .complains(JUDDER, "front-axle")
    )


def audited(case, *duties: DutyDone, results: tuple[PastResult, ...] = (), later: tuple[PastJob, ...] = ()):
    job = replace(case.visits[0].jobs[0], duties=duties)
    visits = (replace(case.visits[0], jobs=(job,)), *case.visits[1:])
    case = replace(case, visits=visits)
    board = build_board(case, real_rules())
    past = PastJob("j1", job, 1, counts=True)
    return audit((past, *later), results, board=board, rules=real_rules(), layout=case.vehicle.layout)


def done(duty: str, state: DutyState, source: Source = Source.SEEN_HERE, visit: int = 2) -> DutyDone:
    return DutyDone(duty, state, source, visit)


def the_duty(found, name: str):
    return next(duty for duty in found.jobs[-1].duties if duty.duty.id == name)


def test_a_job_known_from_paper_opens_all_its_duties_as_unknown():
    found = audited(discs_elsewhere().case)
    assert found.tally.unknown == len(real_rules().operations[DISCS].duties) == found.tally.asked
    all_of_them = found.tally.asked
    assert counted(found.tally) == f"0 of {all_of_them} proven, 0 found wrong, {all_of_them} not known"
    assert f"{all_of_them} duties to verify" in " ".join(summary(found))


def test_what_is_only_said_by_others_proves_nothing():
    for source in (Source.PAPER, Source.TOLD, Source.TRACES):
        found = audited(discs_elsewhere().case, done("hub-face-bare", DutyState.VERIFIED, source, 1))
        assert the_duty(found, "hub-face-bare").standing is Standing.UNKNOWN


def test_verified_here_is_proven_and_the_board_follows_at_once():
    before = audited(discs_elsewhere().case)
    after = audited(discs_elsewhere().case, done("hub-face-bare", DutyState.VERIFIED))
    assert the_duty(after, "hub-face-bare").standing is Standing.PROVEN
    rust = [the_duty(found, "hub-face-bare").row.probability for found in (before, after)]
    assert rust[1] < 0.5 * rust[0]


def test_found_wrong_confirms_its_cause_and_leaves_open_whether_it_is_to_blame():
    found = audited(discs_elsewhere().case, done("hub-face-bare", DutyState.FOUND_WRONG))
    duty = the_duty(found, "hub-face-bare")
    assert duty.standing is Standing.WRONG
    assert duty.somewhere > 0.95
    assert duty.row.to_blame < duty.row.probability < 0.6, "an axle's duty does not say which wheel"


def test_the_sentence_of_a_duty_names_its_cause_its_chance_and_the_way_to_verify():
    duty = the_duty(audited(discs_elsewhere().case), "hub-face-bare")
    assert what_follows(duty, real_rules()).startswith("Rust, paint or dirt between hub face and disc. Is it there now")
    assert how_to_verify(duty, real_rules()).startswith("By a test: ")
    pedal = the_duty(audited(discs_elsewhere().case), "pedal-pumped")
    assert what_follows(pedal, real_rules()) == "There is no brake at the first stop."
    assert how_to_verify(pedal, real_rules()) == "Pedal firm before the vehicle leaves its place."


def test_a_result_of_the_verifying_test_since_the_job_stands_beside_the_duty():
    runout = Result("disc-runout-dial-gauge", "front-left-wheel", Outcome.NORMAL, Source.MEASURED_HERE)
    rear = replace(runout, place="rear-left-wheel")
    before = PastResult(runout, 1)
    found = audited(discs_elsewhere().case, results=(before, PastResult(runout, 2), PastResult(rear, 2)))
    assert the_duty(found, "hub-face-bare").measured == (PastResult(runout, 2),)


def test_a_job_done_again_says_so_and_stands_below_the_newer_one():
    again = PastJob("j2", Job(DISCS, ("front-axle",), Source.SEEN_HERE), 2, counts=True)
    found = audited(discs_elsewhere().case, later=(again,))
    assert [job.past.id for job in found.jobs] == ["j2", "j1"]
    assert found.jobs[1].again == 2
    assert found.jobs[0].again is None


def test_a_job_the_rules_do_not_know_opens_nothing_and_is_counted_as_such():
    strange = PastJob("j9", Job("polish-ashtray", ("vehicle",), Source.TOLD), 2, counts=True)
    found = audited(discs_elsewhere().case, later=(strange,))
    assert found.jobs[0].duties == ()
    assert "not in the rules" in " ".join(summary(found))


dones = st.lists(
    st.builds(
        DutyDone,
        duty=st.just("hub-face-bare"),
        state=st.sampled_from(DutyState),
        source=st.sampled_from(Source),
        seen_at_visit=st.integers(1, 4),
    ),
    max_size=6,
)


@given(dones)
@settings(max_examples=300, deadline=None)
def test_the_last_word_is_the_latest_of_ours_and_of_others_only_where_we_said_nothing(said):
    job = Job(DISCS, ("front-axle",), Source.PAPER, duties=tuple(said))
    last = what_stands(job, "hub-face-bare")
    ours = [one for one in said if one.source.here]
    heard = ours or said
    assert (last is None) == (not said)
    if last is not None:
        assert last in heard
        assert last.seen_at_visit == max(one.seen_at_visit for one in heard)
    proven = standing(last) is Standing.PROVEN
    assert not proven or any(one.source.here and one.state is DutyState.VERIFIED for one in said)


@given(dones)
@settings(max_examples=10, deadline=None)
def test_every_duty_has_one_standing_and_the_tally_counts_each_once(said):
    found = audited(discs_elsewhere().case, *(replace(one, seen_at_visit=min(one.seen_at_visit, 2)) for one in said))
    tally = found.tally
    assert tally.asked + tally.not_applicable == len(real_rules().operations[DISCS].duties)


@pytest.mark.parametrize("state", DutyState)
def test_a_duty_of_another_job_says_nothing_here(state):
    found = audited(discs_elsewhere().case, done("measured-cold", state))
    assert found.tally.unknown == found.tally.asked

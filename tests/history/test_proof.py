"""Runs and scans after a repair, going under proof, and what a return does to a case."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.evidence.case import Presence, Source, SymptomSeen
from app.history.errors import Changed
from app.history.values import Belief, CaseState, Closing, EntryKind
from app.problem import Refused
from tests.history.workshop import IDA, LASH_SET, NOW, RUN, SCAN, TODAY, Stay, km

COIL = ("coil-failing", "cyl-3")


@pytest.fixture
def repaired(history, filed):
    """The second visit (8 Jan 2025) has the repair; the case is under proof."""
    with history.write(IDA, NOW) as desk:
        desk.record_job(filed.at(2), LASH_SET)
        desk.start_proof(filed.case, 1, belief=Belief(filed.visits[1], *COIL, worked=0.8, note="Set."))
    return filed


def run(history, filed, number=2, **change):
    with history.write(IDA, NOW) as desk:
        return desk.record_run(filed.at(number), replace(RUN, **change), today=TODAY)


def state(history, filed):
    return history.case_on_file(filed.case).state


def test_a_run_and_a_scan_come_back_as_recorded_at_the_visit_of_their_repair(history, repaired):
    entry = run(history, repaired)
    with history.write(IDA, NOW) as desk:
        scan = desk.record_scan(repaired.at(2), SCAN, today=TODAY)
    visit = history.case(repaired.case).visits[1]
    assert visit.runs == (replace(RUN, entry=entry),)
    assert visit.scans == (replace(SCAN, entry=scan),)
    assert history.case(repaired.case).visits[0].runs == ()


def test_going_under_proof_keeps_what_is_believed_and_by_whom(history, repaired):
    on_file = history.case_on_file(repaired.case)
    assert on_file.state is CaseState.UNDER_PROOF
    assert on_file.proof.belief == Belief(repaired.visits[1], *COIL, worked=0.8, note="Set.")
    assert on_file.proof.begun_by == "ida"


def test_a_case_under_proof_is_not_put_there_again_and_not_over_a_change(history, repaired):
    belief = Belief(repaired.visits[1], *COIL)
    with pytest.raises(Refused, match="under proof already"), history.write(IDA, NOW) as desk:
        desk.start_proof(repaired.case, 2, belief=belief)
    with history.write(IDA, NOW) as desk:
        desk.reopen_case(repaired.case, 2, why="by mistake")
    with pytest.raises(Changed), history.write(IDA, NOW) as desk:
        desk.start_proof(repaired.case, 2, belief=belief)
    assert (state(history, repaired), history.case_on_file(repaired.case).proof) == (CaseState.OPEN, None)


def test_silence_leaves_the_case_under_proof_and_it_can_be_closed(history, repaired):
    run(history, repaired)
    assert state(history, repaired) is CaseState.UNDER_PROOF
    with history.write(IDA, NOW) as desk:
        desk.close_case(repaired.case, 2, closing=Closing(*COIL))
    assert state(history, repaired) is CaseState.CLOSED


def test_a_return_under_proof_reopens_the_case_and_says_which_belief_was_wrong(history, repaired):
    entry = run(history, repaired, came_back=True)
    on_file = history.case_on_file(repaired.case)
    assert (on_file.state, on_file.proof) == (CaseState.OPEN, None)
    [back] = history.returns(repaired.case)
    assert (back.entry, back.state, (back.cause, back.place)) == (entry, CaseState.UNDER_PROOF, COIL)


def test_a_return_after_closing_names_the_confirmed_cause_of_the_closing(history, repaired):
    with history.write(IDA, NOW) as desk:
        desk.close_case(repaired.case, 2, closing=Closing("exhaust-lash-too-tight", "cyl-1"))
    run(history, repaired, came_back=True)
    [back] = history.returns(repaired.case)
    assert (back.state, back.cause, back.place) == (CaseState.CLOSED, "exhaust-lash-too-tight", "cyl-1")
    assert history.case_on_file(repaired.case).closing is None


def test_the_complaint_at_a_later_visit_is_a_return_too_and_at_the_repairs_own_visit_it_is_not(history, repaired):
    seen = SymptomSeen("misfire-counted", "cyl-3", Presence.PRESENT, Source.SEEN_HERE)
    with history.write(IDA, NOW) as desk:
        desk.record_symptom(repaired.at(2), seen)
    assert state(history, repaired) is CaseState.UNDER_PROOF
    with history.write(IDA, NOW) as desk:
        stay = Stay(True, day=date(2025, 3, 1), odometer=km(3000))
        later = desk.add_visit(repaired.vehicle, stay, today=TODAY)
        desk.record_symptom(replace(repaired.at(2), visit=later), seen)
    assert state(history, repaired) is CaseState.OPEN
    assert len(history.returns(repaired.case)) == 1


def test_what_came_back_after_an_earlier_repair_is_history(history, repaired):
    run(history, repaired, number=1, day=date(2025, 1, 2), came_back=True)
    assert state(history, repaired) is CaseState.UNDER_PROOF
    assert history.returns(repaired.case) == ()


@pytest.mark.parametrize(
    ("change", "where", "sentence"),
    [
        ({"day": date(2025, 1, 7)}, "day", "before this repair"),
        ({"day": TODAY + timedelta(days=1)}, "day", "future"),
        ({"km": -3.0}, "km", "less than nothing"),
        ({"km": None, "starts": None}, "km", "not said how much"),
    ],
)
def test_an_impossible_run_is_refused_with_a_sentence_and_nothing_stored(history, repaired, change, where, sentence):
    with pytest.raises(Refused) as caught:
        run(history, repaired, **change)
    assert [problem.where for problem in caught.value.problems] == [where]
    assert sentence in caught.value.problems[0].sentence
    assert history.case(repaired.case).visits[1].runs == ()


def test_a_scan_before_the_repair_is_refused(history, repaired):
    with pytest.raises(Refused, match="before this repair"), history.write(IDA, NOW) as desk:
        desk.record_scan(repaired.at(2), replace(SCAN, day=date(2025, 1, 1)), today=TODAY)


def test_a_run_sent_twice_is_stored_once_and_can_be_struck_out(history, repaired):
    for _ in range(2):
        run(history, repaired, entry="a-run")
    assert len(history.case(repaired.case).visits[1].runs) == 1
    with history.write(IDA, NOW) as desk:
        desk.void(EntryKind.RUN, "a-run", seen=1, why="other vehicle")
    assert history.case(repaired.case).visits[1].runs == ()

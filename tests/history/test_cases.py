"""Opening, changing, closing and reopening a case, and the boards kept for it."""

from dataclasses import replace
from datetime import timedelta

import pytest

from app.history.errors import Changed, NotHere
from app.history.values import CaseState, Closing, Introduced, Reproduced, SnapshotWhy
from app.problem import Refused
from tests.history.workshop import IDA, LASH_SET, LEAK_DOWN, NOW, a_case

FOUND = Closing("cam-timing-off-one-bank", "bank-1", minutes=190.0, note="Marks one tooth out.")


def close(history, filed, closing, seen=1):
    with history.write(IDA, NOW) as desk:
        return desk.close_case(filed.case, seen, closing=closing)


def test_a_closed_case_says_what_was_confirmed_and_by_what(history, filed):
    with history.write(IDA, NOW) as desk:
        result = desk.record_result(filed.at(2), LEAK_DOWN)
        job = desk.record_job(filed.at(1), LASH_SET)
    closing = replace(FOUND, deciding_result=result, introduced=Introduced.BY_A_JOB, introduced_by_job=job)
    close(history, filed, closing)
    case = history.case_on_file(filed.case)
    assert (case.state, case.version, case.closing.closing) == (CaseState.CLOSED, 2, closing)


def test_a_case_may_be_closed_without_a_cause(history, filed):
    close(history, filed, Closing(None, None, note="Not reproduced."))
    assert history.case_on_file(filed.case).closing.closing.cause is None


def test_a_cause_needs_its_place(history, filed):
    with pytest.raises(Refused):
        close(history, filed, replace(FOUND, place=None))
    with pytest.raises(NotHere):
        close(history, filed, replace(FOUND, deciding_result="no such result"))
    assert history.case_on_file(filed.case).state is CaseState.OPEN


def test_a_closed_case_is_not_closed_again_but_can_be_reopened(history, filed):
    close(history, filed, FOUND)
    with pytest.raises(Refused):
        close(history, filed, FOUND, seen=2)
    with history.write(IDA, NOW) as desk:
        desk.reopen_case(filed.case, 2, why="came back")
    case = history.case_on_file(filed.case)
    assert (case.state, case.closing) == (CaseState.OPEN, None)
    close(history, filed, FOUND, seen=3)
    assert history.case_on_file(filed.case).closing.closing == FOUND


def test_open_covers_are_guarded_by_the_version_seen(history, filed):
    with history.write(IDA, NOW) as desk:
        desk.set_open_covers(filed.case, 1, covers=("valve-cover-off",))
    assert history.case(filed.case).open_covers == ("valve-cover-off",)
    with pytest.raises(Changed) as caught, history.write(IDA, NOW) as desk:
        desk.set_open_covers(filed.case, 1, covers=())
    assert caught.value.current.details.open_covers == ("valve-cover-off",)


def test_changed_details_come_back(history, filed):
    details = replace(
        history.case_on_file(filed.case).details,
        reproduced=Reproduced.YES,
        reproduced_conditions=("hot", "idle"),
        may_drive={"Is the misfire lamp flashing?": "no"},
    )
    with history.write(IDA, NOW) as desk:
        desk.change_case(filed.case, 1, details=details)
    assert history.case_on_file(filed.case).details == details


def test_recent_cases_come_newest_first_and_by_state(history, filed):
    with history.write(IDA, NOW + timedelta(days=1)) as desk:
        newer = desk.open_case(filed.vehicle, history.case_on_file(filed.case).details)
    close(history, filed, FOUND)
    assert [case.id for case in history.recent_cases(5)] == [newer, filed.case]
    assert [case.id for case in history.recent_cases(1)] == [newer]
    assert [case.id for case in history.recent_cases(5, state=CaseState.CLOSED)] == [filed.case]
    assert [case.id for case in history.cases_of(filed.vehicle)] == [newer, filed.case]


def test_kept_boards_come_back_oldest_first(history, filed):
    other = a_case(history, name="blue van")
    for hours, why in enumerate((SnapshotWhy.RESULT, SnapshotWhy.CLOSING)):
        with history.write(IDA, NOW + timedelta(hours=hours)) as desk:
            desk.snapshot(filed.case, why, rules_version="r1", board={"rows": [{"to blame": 0.7}]}, minutes=12)
    kept = history.snapshots(filed.case)
    assert [snapshot.why for snapshot in kept] == [SnapshotWhy.RESULT, SnapshotWhy.CLOSING]
    assert kept[0].board == {"rows": [{"to blame": 0.7}]}
    assert history.snapshots(other.case) == ()


def test_what_decided_happened_to_this_vehicle(history, filed):
    other = a_case(history, name="blue van")
    with history.write(IDA, NOW) as desk:
        result, job = desk.record_result(other.at(1), LEAK_DOWN), desk.record_job(other.at(1), LASH_SET)
    closing = replace(FOUND, deciding_result=result, introduced=Introduced.BY_A_JOB, introduced_by_job=job)
    with pytest.raises(Refused) as caught:
        close(history, filed, closing)
    assert [problem.where for problem in caught.value.problems] == ["deciding result", "job"]


def test_a_job_is_named_only_where_it_brought_the_cause_in(history, filed):
    with history.write(IDA, NOW) as desk:
        job = desk.record_job(filed.at(1), LASH_SET)
    with pytest.raises(Refused):
        close(history, filed, replace(FOUND, introduced=Introduced.NOT_BY_A_JOB, introduced_by_job=job))
    assert history.case_on_file(filed.case).state is CaseState.OPEN

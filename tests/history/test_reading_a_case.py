"""What goes in through the desk comes back as the same case."""

from dataclasses import replace

import pytest

from app.evidence.case import DutyDone, DutyState, Source, SymptomSeen
from app.history.errors import NotHere
from app.history.values import At
from tests.history.workshop import (
    CLEARED,
    CODE,
    IDA,
    LASH_SET,
    LEAK_DOWN,
    MISFIRE,
    NOW,
    V6,
    a_case,
    a_full_visit,
)


def without_ids(entries):
    return tuple(replace(entry, entry="") for entry in entries)


def test_every_kind_of_entry_comes_back_as_it_was_recorded(history, filed):
    a_full_visit(history, filed, 2)
    visit = history.case(filed.case).visits[1]
    assert without_ids(visit.symptoms) == (MISFIRE,)
    assert without_ids(visit.codes) == (CODE,)
    assert without_ids(visit.cleared) == (CLEARED,)
    assert without_ids(visit.results) == (LEAK_DOWN,)
    [job] = visit.jobs
    assert replace(job, entry="", duties=()) == LASH_SET
    assert without_ids(job.duties) == (DutyDone("measured-cold", DutyState.NOT_CHECKED, Source.PAPER, 2),)


def test_entries_and_visits_carry_their_ids(history, filed):
    a_full_visit(history, filed, 1)
    visit = history.case(filed.case).visits[0]
    entries = (visit, *visit.symptoms, *visit.codes, *visit.cleared, *visit.results, *visit.jobs, *visit.jobs[0].duties)
    assert all(entry.entry for entry in entries)
    assert len({entry.entry for entry in entries}) == len(entries)


def test_the_vehicle_keeps_its_layout_and_traits(history, filed):
    vehicle = history.case(filed.case).vehicle
    assert (vehicle.layout, vehicle.name) == (V6, "grey estate")


def test_a_case_does_not_hear_what_was_said_about_another_complaint(history, filed):
    other = a_case(history, name="blue van")
    with history.write(IDA, NOW) as desk:
        second = desk.open_case(filed.vehicle, replace(history.case_on_file(filed.case).details, complaint="judder"))
        desk.record_result(At(filed.visits[0], second), LEAK_DOWN)
        desk.record_result(At(filed.visits[0]), replace(LEAK_DOWN, note="about the vehicle"))
        desk.record_result(other.at(1), LEAK_DOWN)
    assert [result.note for result in history.case(filed.case).visits[0].results] == ["about the vehicle"]
    assert [result.note for result in history.case(second).visits[0].results] == [
        "air heard nowhere",
        "about the vehicle",
    ]


def test_recording_for_a_case_joins_the_visit_to_it_once(history, filed):
    with history.write(IDA, NOW) as desk:
        second = desk.open_case(filed.vehicle, history.case_on_file(filed.case).details)
        for _ in range(2):
            desk.record_symptom(At(filed.visits[1], second), MISFIRE)
    assert history.case_on_file(second).visits == (filed.visits[1],)


def test_a_symptom_can_refer_to_an_earlier_visit(history, filed):
    smooth = SymptomSeen("rough", "engine", MISFIRE.presence, Source.TOLD, absent_for_km=5000.0, after_visit=1)
    with history.write(IDA, NOW) as desk:
        desk.record_symptom(filed.at(2), smooth)
    assert without_ids(history.case(filed.case).visits[1].symptoms) == (smooth,)


def test_duties_seen_later_belong_to_the_job_they_are_about(history, filed):
    with history.write(IDA, NOW) as desk:
        job = desk.record_job(filed.at(1), LASH_SET)
        desk.record_duty(filed.at(2), job, DutyDone("measured-cold", DutyState.FOUND_WRONG, Source.SEEN_HERE, 2))
    [duty] = history.case(filed.case).visits[0].jobs[0].duties
    assert (duty.state, duty.seen_at_visit) == (DutyState.FOUND_WRONG, 2)


def test_duties_given_with_a_job_are_filed_at_the_visit_they_were_seen_at(history, filed):
    found = DutyDone("measured-cold", DutyState.FOUND_WRONG, Source.SEEN_HERE, 2)
    with history.write(IDA, NOW) as desk:
        desk.record_job(filed.at(1), replace(LASH_SET, duties=(found,)))
    assert without_ids(history.case(filed.case).visits[0].jobs[0].duties) == (found,)
    second = history.timeline(filed.vehicle).visits[1]
    assert [entry.said.state for entry in second.entries] == [DutyState.FOUND_WRONG]


def test_a_case_of_another_site_is_not_here(history, filed):
    elsewhere = replace(history, site="other bay")
    with pytest.raises(NotHere):
        elsewhere.case(filed.case)
    assert elsewhere.find("grey") == ()


def test_minutes_and_costs_add_up_over_the_visits(history, filed):
    a_full_visit(history, filed, 2)
    spent = history.spent(filed.case)
    assert (spent.minutes, spent.minutes_known, spent.visits) == (173.0, False, 2)
    assert history.case(filed.case).visits[1].minutes == 173.0

"""An entry struck out stays readable and no longer counts."""

from dataclasses import replace
from datetime import timedelta

import pytest

from app.history.errors import Changed, NotHere
from app.history.ids import new_id
from app.history.values import EntryKind, Person, Role
from app.problem import Refused
from tests.history.workshop import IDA, LEAK_DOWN, NOW, a_full_visit

EVIDENCE = [kind for kind in EntryKind if kind is not EntryKind.VISIT]


def entries(history, filed, kind):
    visit = history.timeline(filed.vehicle).visits[0]
    return [entry for entry in visit.entries if entry.kind is kind]


def all_said(case):
    visit = case.visits[0]
    duties = [duty for job in visit.jobs for duty in job.duties]
    return [*visit.symptoms, *visit.codes, *visit.cleared, *visit.results, *visit.jobs, *duties]


@pytest.mark.parametrize("kind", EVIDENCE)
def test_a_struck_out_entry_leaves_the_case_and_stays_on_the_timeline(history, filed, kind):
    a_full_visit(history, filed, 1)
    [entry] = entries(history, filed, kind)
    with history.write(IDA, NOW + timedelta(hours=1)) as desk:
        desk.void(kind, entry.id, seen=entry.version, why="wrong vehicle")
    assert entry.id not in [said.entry for said in all_said(history.case(filed.case))]
    [left] = entries(history, filed, kind)
    assert left.said.entry == entry.id
    assert (left.struck.why, left.struck.at, left.version) == ("wrong vehicle", NOW + timedelta(hours=1), 2)


def test_who_struck_it_out_is_named(history, filed):
    a_full_visit(history, filed, 1)
    with history.write(IDA, NOW) as desk:
        tom = Person(desk.add_person("Tom Reed", Role.TECHNICIAN), "Tom Reed", Role.TECHNICIAN)
    [entry] = entries(history, filed, EntryKind.RESULT)
    with history.write(tom, NOW) as desk:
        desk.void(EntryKind.RESULT, entry.id, seen=1, why="other cylinder")
    assert history.entry(EntryKind.RESULT, entry.id).struck.by == "Tom Reed"


def test_the_second_to_strike_it_out_is_told_what_it_is_now(history, filed):
    a_full_visit(history, filed, 1)
    [entry] = entries(history, filed, EntryKind.RESULT)
    with history.write(IDA, NOW) as desk:
        desk.void(EntryKind.RESULT, entry.id, seen=1, why="first")
    for seen in (1, 2):
        with pytest.raises(Changed) as caught, history.write(IDA, NOW) as desk:
            desk.void(EntryKind.RESULT, entry.id, seen=seen, why="second")
        assert (caught.value.current.struck.why, caught.value.current.version) == ("first", 2)


def test_striking_out_needs_a_reason(history, filed):
    a_full_visit(history, filed, 1)
    [entry] = entries(history, filed, EntryKind.CODE)
    with pytest.raises(Refused) as caught, history.write(IDA, NOW) as desk:
        desk.void(EntryKind.CODE, entry.id, seen=1, why="  ")
    assert [problem.where for problem in caught.value.problems] == ["why"]
    assert len(history.case(filed.case).visits[0].codes) == 1


def test_what_is_not_here_cannot_be_struck_out(history, filed):
    with pytest.raises(NotHere), history.write(IDA, NOW) as desk:
        desk.void(EntryKind.JOB, "no such job", seen=1, why="gone")


def test_an_entry_sent_twice_is_recorded_once(history, filed):
    sent = replace(LEAK_DOWN, entry=new_id(NOW))
    for _ in range(2):
        with history.write(IDA, NOW) as desk:
            assert desk.record_result(filed.at(1), sent) == sent.entry
    assert history.case(filed.case).visits[0].results == (sent,)

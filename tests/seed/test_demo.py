"""The demo workshop as it is shipped: it loads against the shipped rules, and says what its files say."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from app.evidence.case_file import read_case_file
from app.history.engine import open_history
from app.history.migrate import migrate
from app.history.values import CaseState, Introduced, Role
from app.problem import Refused
from app.seed.demo import DEMO, load_demo
from app.seed.rule_folder import load_rules
from app.settings import PROJECT

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def rules():
    return load_rules(PROJECT / "seed_data" / "rules")


def new_history(folder):
    migrate(f"sqlite:///{folder}/history.db")
    return open_history(f"sqlite:///{folder}/history.db", "bay")


@pytest.fixture(scope="module")
def demo(rules, tmp_path_factory):
    history = new_history(tmp_path_factory.mktemp("demo"))
    load_demo(history, rules, NOW)
    yield history
    history.engine.dispose()


@pytest.fixture
def empty(tmp_path):
    history = new_history(tmp_path)
    yield history
    history.engine.dispose()


def as_written(case):
    """The case without the ids of its entries, duties in the order of their names."""
    return replace(case, visits=tuple(_bare_visit(visit) for visit in case.visits))


def _bare_visit(visit):
    kinds = {kind: _bare(getattr(visit, kind)) for kind in ("symptoms", "codes", "cleared", "results", "defects")}
    jobs = tuple(replace(job, duties=tuple(sorted(_bare(job.duties), key=str))) for job in _bare(visit.jobs))
    return replace(visit, **kinds, jobs=jobs, entry="")


def _bare(entries):
    return tuple(replace(entry, entry="") for entry in entries)


def test_every_case_comes_out_of_the_history_as_its_file_says(demo, rules):
    cases = demo.recent_cases(100)
    for on_file in cases:
        name = on_file.vehicle.vehicle.name.replace(" ", "-") + ".yaml"
        meant, problems = read_case_file((DEMO / name).read_text(encoding="utf-8"), name, rules)
        assert problems == ()
        assert as_written(demo.case(on_file.id)) == as_written(meant)
    assert len(cases) == len(list(DEMO.glob("*.yaml"))) - 1


def test_all_three_families_are_there_open_and_closed(demo, rules):
    stories = {(rules.family_of(case.details.complaint).id, case.state) for case in demo.recent_cases(100)}
    assert stories == {
        (family, state)
        for family in ("misfire-rough-running", "brake-judder", "battery-goes-flat")
        for state in (CaseState.OPEN, CaseState.CLOSED)
    }


def test_what_was_confirmed_can_act_where_it_was_confirmed(demo, rules):
    closed = [case for case in demo.recent_cases(100) if case.closing]
    for case in closed:
        closing = case.closing.closing
        assert closing.place in rules.causes[closing.cause].can_act_at(case.vehicle.vehicle.layout)
        results = [result for visit in demo.case(case.id).visits for result in visit.results]
        [decided] = [result for result in results if result.entry == closing.deciding_result]
        assert closing.cause in [shows.cause for shows in rules.tests[decided.test].shows]
        assert decided.source.here
        assert decided.outcome == "abnormal"
    assert {case.closing.closing.introduced for case in closed} == {Introduced.BY_A_JOB, Introduced.NOT_BY_A_JOB}


def test_the_bank_story_ends_with_something_else_than_tight_lash(demo):
    [found] = demo.find("grey estate")
    [case] = demo.cases_of(found.id)
    visits = demo.case(case.id).visits
    earlier = [job.operation for visit in visits if not visit.here for job in visit.jobs]
    assert len(case.vehicle.vehicle.layout.banks) == 2
    assert "adjust-valve-lash" in earlier
    assert case.closing.closing.cause != "exhaust-lash-too-tight"
    assert [r.outcome for v in visits for r in v.results if r.test == "valve-lash-exhaust"] == ["normal"] * 3


def test_the_workshop_has_people_of_every_role_and_customers_who_own_vehicles(demo):
    assert {person.role for person in demo.people()} == set(Role)
    assert all(case.vehicle.customer for case in demo.recent_cases(100))


def test_what_was_done_is_stamped_with_the_day_it_was_done_here(demo):
    [found] = demo.find("red estate")
    timeline = demo.timeline(found.id)
    first_here = timeline.visits[1]
    assert first_here.recorded_at.date() == first_here.stay.day == timeline.visits[0].recorded_at.date()
    assert first_here.recorded_by == "Tam Okeru"
    assert first_here.stay.order_number == "R-1033"


def test_a_vehicle_is_found_by_a_repair_order_of_another_shop(demo):
    assert [found.name for found in demo.find("ML-582")] == ["grey estate"]


def test_the_demo_is_loaded_once(demo, rules):
    before = demo.recent_cases(100)
    with pytest.raises(Refused, match="There is a history already"):
        load_demo(demo, rules, NOW)
    assert demo.recent_cases(100) == before


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        ("grey-estate.yaml", "renew-coil", "renew-kettle", "renew-kettle"),
        ("grey-estate.yaml", "A. Hartwell", "Nobody", "Nobody"),
        ("workshop.yaml", "cause: drum-out-of-round", "cause: bad-luck", "bad-luck"),
        ("workshop.yaml", "worked by: Ida Lorne", "worked by: Someone", "Someone"),
        ("workshop.yaml", "test: hub-contact-look", "test: leak-down", "no result of leak-down"),
        ("workshop.yaml", "operation: add-accessory", "operation: jump-start", "no such job"),
    ],
)
def test_a_wrong_file_is_refused_and_nothing_is_filed(empty, rules, tmp_path, file, old, new, said):
    folder = shutil.copytree(DEMO, tmp_path / "demo")
    text = (folder / file).read_text(encoding="utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(Refused, match=said):
        load_demo(empty, rules, NOW, folder)
    assert empty.is_new()

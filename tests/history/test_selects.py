"""Reads cost a fixed number of selects, and every one of them stays on its site."""

import shutil
from contextlib import contextmanager

import pytest
from sqlalchemy import event

from app.history.engine import open_history
from app.history.values import CaseState, Stay
from tests.history.workshop import IDA, NOW, TODAY, a_case, a_full_visit


@contextmanager
def statements(history):
    seen: list[str] = []

    def note(_connection, _cursor, statement, *_rest):
        seen.append(statement)

    event.listen(history.engine, "before_cursor_execute", note)
    try:
        yield seen
    finally:
        event.remove(history.engine, "before_cursor_execute", note)


READS = {
    "case": lambda history, filed: history.case(filed.case),
    "timeline": lambda history, filed: history.timeline(filed.vehicle),
    "case on file": lambda history, filed: history.case_on_file(filed.case),
    "spent": lambda history, filed: history.spent(filed.case),
    "cases of": lambda history, filed: history.cases_of(filed.vehicle),
    "recent": lambda history, _filed: history.recent_cases(50, state=CaseState.OPEN),
    "find": lambda history, _filed: history.find("grey estate"),
    "vehicle": lambda history, filed: history.vehicle(filed.vehicle),
    "returns": lambda history, filed: history.returns(filed.case),
    "snapshots": lambda history, filed: history.snapshots(filed.case),
}


@pytest.fixture(scope="module")
def both(template, tmp_path_factory):
    """A history with a case over one visit and a case over forty, each visit with an entry of every kind."""
    path = shutil.copy(template, tmp_path_factory.mktemp("both") / "history.db")
    history = open_history(f"sqlite:///{path}", "bay")
    short, long = a_case(history, visits=1), a_case(history, visits=40)
    for filed in (short, long):
        for number in range(1, len(filed.visits) + 1):
            a_full_visit(history, filed, number)
    yield history, short, long
    history.engine.dispose()


@pytest.mark.parametrize("read", READS.values(), ids=READS.keys())
def test_forty_visits_cost_as_many_selects_as_one(both, read):
    history, short, long = both
    with statements(history) as for_one:
        read(history, short)
    with statements(history) as for_forty:
        read(history, long)
    assert len(for_one) == len(for_forty) <= 21


@pytest.mark.parametrize("read", READS.values(), ids=READS.keys())
def test_every_select_names_the_site(history, filed, read):
    with statements(history) as seen:
        read(history, filed)
    selects = [statement for statement in seen if statement.lower().startswith("select")]
    assert selects
    assert all("site_id =" in statement for statement in selects)


def test_every_statement_of_a_write_names_the_site(history, filed):
    with statements(history) as seen:
        a_full_visit(history, filed, 1)
        [entry, *_] = history.timeline(filed.vehicle).visits[0].entries
        with history.write(IDA, NOW) as desk:
            desk.void(entry.kind, entry.id, seen=1, why="wrong vehicle")
            desk.set_open_covers(filed.case, 1, covers=())
            desk.add_visit(filed.vehicle, Stay(True), today=TODAY)
    touching = [statement for statement in seen if statement.lower().startswith(("select", "update", "delete"))]
    assert {statement.split()[0] for statement in touching} == {"SELECT", "UPDATE"}
    assert [statement for statement in touching if "site_id =" not in statement] == []


def test_a_write_leaves_its_trail(history, filed):
    with history.engine.connect() as connection:
        rows = connection.exec_driver_sql("select who, what, entry_id from trail").all()
    assert {who for who, _, _ in rows} == {IDA.id}
    assert [what for _, what, entry in rows if entry in (filed.vehicle, filed.case, *filed.visits)] == [
        "added a vehicle",
        "added a visit",
        "added a visit",
        "opened a case",
    ]

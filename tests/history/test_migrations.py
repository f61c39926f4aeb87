"""The tables as migrations make them are the tables the program means; old databases come up with all they hold."""

import re
import sqlite3
from pathlib import Path

import pytest
from alembic import command

from app.history.engine import open_engine, open_history
from app.history.errors import NewerThanProgram, Unreadable
from app.history.migrate import PRAGMAS, config_for, migrate
from app.history.tables.stamped import Stamped
from app.history.values import Belief, CaseState
from tests.history.workshop import IDA, NOW

DUMPS = Path(__file__).parents[1] / "data" / "history_dumps"
FIRST = {
    "vehicles": 2,
    "visits": 4,
    "symptoms": 2,
    "codes": 1,
    "codes_cleared": 1,
    "results": 2,
    "jobs": 1,
    "parts": 2,
    "duties": 2,
    "cases": 2,
    "case_visits": 4,
    "snapshots": 1,
    "closings": 1,
    "people": 1,
}
COUNTS = {"0001": FIRST}
COUNTS["0002"] = FIRST | {"defects": 1, "put_back": 1}
COUNTS["0003"] = COUNTS["0002"] | {"proof_runs": 2, "scans": 1, "proofs": 1, "returns": 1}
COUNTS["0004"] = COUNTS["0003"] | {"figures": 2}
NEWEST = max(COUNTS)


def test_migrations_and_models_say_the_same(template):
    engine = open_engine(f"sqlite:///{template}", PRAGMAS)
    with engine.begin() as connection:
        command.check(config_for(connection))
    engine.dispose()


def test_migrations_and_models_have_the_same_checks(template):
    """Alembic compares columns, indexes and keys, but not checks."""
    with sqlite3.connect(template) as made:
        in_database = {
            name: set(re.findall(r"CONSTRAINT (ck_\w+) CHECK \((.*?)\),?\s*\n", sql + "\n"))
            for name, sql in made.execute("select name, sql from sqlite_master where type = 'table'")
        }
    made.close()
    for name, table in Stamped.metadata.tables.items():
        meant = {(check.name, str(check.sqltext)) for check in table.constraints if hasattr(check, "sqltext")}
        assert in_database[name] == meant


def test_every_constraint_has_a_name(template):
    for table in Stamped.metadata.tables.values():
        assert all(constraint.name for constraint in table.constraints)
        assert all(index.name for index in table.indexes)


def restored(dump, tmp_path):
    path = tmp_path / "old.db"
    with sqlite3.connect(path) as connection:
        connection.executescript(dump.read_text(encoding="utf-8"))
    connection.close()
    return path


@pytest.mark.parametrize("revision", COUNTS)
def test_an_old_database_comes_up_with_all_it_holds(revision, tmp_path):
    path = restored(DUMPS / f"{revision}.sql", tmp_path)
    migrate(f"sqlite:///{path}")
    with sqlite3.connect(path) as connection:
        counts = {name: connection.execute(f"select count(*) from {name}").fetchone()[0] for name in COUNTS[revision]}
        assert connection.execute("pragma foreign_key_check").fetchall() == []
    connection.close()
    assert counts == COUNTS[revision]


@pytest.mark.parametrize("revision", COUNTS)
def test_an_old_database_still_says_the_same(revision, tmp_path):
    path = restored(DUMPS / f"{revision}.sql", tmp_path)
    migrate(f"sqlite:///{path}")
    history = open_history(f"sqlite:///{path}", "bay")
    [found] = history.find("R-2041")
    [case] = history.cases_of(found.id)
    [result] = history.case(case.id).visits[1].results
    assert (found.plate, found.customer) == ("KX-41 QP", "Marlo Vett")
    assert (result.reading.typed, result.reading.value, result.reading.unit) == ("19,5 %", 19.5, "%")
    history.engine.dispose()


@pytest.mark.parametrize("revision", COUNTS)
def test_a_database_with_rows_that_belong_to_nothing_is_refused(revision, tmp_path):
    path = restored(DUMPS / f"{revision}.sql", tmp_path)
    with sqlite3.connect(path) as connection:
        connection.execute("update symptoms set visit_id = 'no such visit'")
    connection.close()
    with pytest.raises(Unreadable, match="rows of symptoms"):
        migrate(f"sqlite:///{path}")


def test_a_case_of_an_old_database_can_go_under_proof(tmp_path):
    path = restored(DUMPS / "0001.sql", tmp_path)
    migrate(f"sqlite:///{path}")
    history = open_history(f"sqlite:///{path}", "bay")
    [found] = history.find("R-2042")
    [case] = history.cases_of(found.id)
    with history.write(IDA, NOW) as desk:
        desk.start_proof(case.id, case.version, belief=Belief(case.visits[-1], None, None))
    assert history.case_on_file(case.id).state is CaseState.UNDER_PROOF
    history.engine.dispose()


def test_every_revision_has_a_dump():
    revisions = {
        path.name.split("_")[0] for path in (Path(__file__).parents[2] / "migrations" / "versions").glob("0*.py")
    }
    assert revisions == {path.stem for path in DUMPS.glob("*.sql")} == set(COUNTS)


def test_a_database_newer_than_the_program_is_left_alone(template, tmp_path):
    path = tmp_path / "newer.db"
    path.write_bytes(template.read_bytes())
    with sqlite3.connect(path) as connection:
        connection.execute("update alembic_version set version_num = '9999'")
    connection.close()
    before = path.read_bytes()
    with pytest.raises(NewerThanProgram, match="newer Proofbay"):
        migrate(f"sqlite:///{path}")
    assert path.read_bytes() == before


def test_migrating_twice_changes_nothing(template, tmp_path):
    path = tmp_path / "again.db"
    path.write_bytes(template.read_bytes())
    migrate(f"sqlite:///{path}")
    with sqlite3.connect(path) as connection:
        assert connection.execute("select version_num from alembic_version").fetchall() == [(NEWEST,)]
    connection.close()


def test_the_folder_is_made(tmp_path):
    migrate(f"sqlite:///{tmp_path}/new/folder/history.db")
    assert (tmp_path / "new" / "folder" / "history.db").exists()

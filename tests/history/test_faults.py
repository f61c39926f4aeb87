"""What the database refuses is said in our words, and nothing half is left behind."""

import pytest
from sqlalchemy.exc import IntegrityError

from app.history.engine import open_history
from app.history.errors import Busy, NoRoom, Unreadable
from app.history.migrate import migrate
from app.history.values import PROGRAM
from tests.history.workshop import IDA, MISFIRE, NOW


def test_a_full_disk_stores_nothing_and_works_again_afterwards(history, filed):
    with history.engine.connect() as connection:
        pages = connection.exec_driver_sql("pragma page_count").scalar()
        connection.exec_driver_sql(f"pragma max_page_count={pages}")

    def record_too_much():
        with history.write(IDA, NOW) as desk:
            for _ in range(2000):
                desk.record_symptom(filed.at(1), MISFIRE)

    with pytest.raises(NoRoom):
        record_too_much()
    assert history.case(filed.case).visits[0].symptoms == ()
    history.engine.dispose()
    with history.write(IDA, NOW) as desk:
        desk.record_symptom(filed.at(1), MISFIRE)
    assert len(history.case(filed.case).visits[0].symptoms) == 1


def test_a_file_that_is_no_database_is_said_to_be_none(tmp_path):
    path = tmp_path / "history.db"
    path.write_bytes(b"this is not a database, " * 100)
    with pytest.raises(Unreadable, match="not a database"):
        open_history(f"sqlite:///{path}", "bay").people()
    with pytest.raises(Unreadable, match="not a database"):
        migrate(f"sqlite:///{path}")


def test_a_writer_who_waits_too_long_is_told_so(history):
    with history.engine.execution_options(write=True).begin() as holder:
        holder.exec_driver_sql("select 1")
        hasty = open_history(str(history.engine.url), "bay")
        with hasty.engine.connect() as connection:
            connection.exec_driver_sql("pragma busy_timeout=1")
        with pytest.raises(Busy), hasty.write(PROGRAM, NOW) as desk:
            desk.add_customer("Zoe Marsh")
        hasty.engine.dispose()


WRONG = [
    "update symptoms set presence = 'perhaps'",
    "update symptoms set source = 'hearsay'",
    "update visits set odometer_km = -1",
    "update visits set odometer_unit = ''",
    "update cases set state = 'forgotten'",
    "update case_visits set visit_id = 'no such visit'",
    "delete from vehicles",
    "update visits set vehicle_id = null",
]


@pytest.mark.parametrize("statement", WRONG)
def test_the_database_itself_refuses_what_cannot_be(history, filed, statement):
    with history.write(IDA, NOW) as desk:
        desk.record_symptom(filed.at(1), MISFIRE)
    with pytest.raises(IntegrityError), history.engine.begin() as connection:
        connection.exec_driver_sql(statement)


def test_connections_are_opened_with_the_pragmas_that_keep_data(history):
    with history.engine.connect() as connection:
        asked = {
            name: connection.exec_driver_sql(f"pragma {name}").scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
        }
    assert asked == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "busy_timeout": 5000}

"""Several people at once lose nothing (with the driver's own transactions 947 of 1,000 additions were lost)."""

from concurrent.futures import ThreadPoolExecutor

from app.history.errors import Changed
from app.history.values import Stay
from tests.history.workshop import IDA, MISFIRE, NOW, a_vehicle

WRITERS = 8
TIMES = 12


def test_read_and_add_from_eight_threads_loses_none(history, filed):
    def add_covers(writer):
        """Read the covers, add one, write them; when someone was faster, read again."""
        for number in range(TIMES):
            while not _added(history, filed.case, f"cover-{writer}-{number}"):
                pass

    with ThreadPoolExecutor(WRITERS) as pool:
        list(pool.map(add_covers, range(WRITERS)))
    assert len(history.case(filed.case).open_covers) == WRITERS * TIMES
    assert history.case_on_file(filed.case).version == WRITERS * TIMES + 1


def _added(history, case_id, cover):
    seen = history.case_on_file(case_id)
    try:
        with history.write(IDA, NOW) as desk:
            desk.set_open_covers(case_id, seen.version, covers=(*seen.details.open_covers, cover))
    except Changed:
        return False
    return True


def test_visits_added_at_once_take_places_of_their_own(history):
    """Each looks up the last place and takes the next one: a writer must hold the lock before it reads."""
    vehicle = a_vehicle(history)

    def add(number):
        with history.write(IDA, NOW) as desk:
            desk.add_visit(vehicle, Stay(False, f"shop {number}"), today=NOW.date())

    with ThreadPoolExecutor(WRITERS) as pool:
        list(pool.map(add, range(40)))
    with history.engine.connect() as connection:
        places = connection.exec_driver_sql("select position from visits order by position").scalars().all()
    assert places == list(range(40))


def test_evidence_from_eight_threads_is_all_kept(history, filed):
    def record(_number):
        with history.write(IDA, NOW) as desk:
            desk.record_symptom(filed.at(1), MISFIRE)

    with ThreadPoolExecutor(WRITERS) as pool:
        list(pool.map(record, range(60)))
    assert len(history.case(filed.case).visits[0].symptoms) == 60

"""Writes tests/data/history_dumps/<revision>.sql: a database of the newest revision with something in every table.

Run once when a revision is released: .venv/bin/python -m tests.history.make_dump 0001
"""

from __future__ import annotations

import sqlite3
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

from app.evidence.case import DutyDone, DutyState, Source, Vehicle
from app.history.desk import Desk
from app.history.engine import open_history
from app.history.figures import Figure, FigureKind
from app.history.migrate import migrate
from app.history.values import Belief, CaseDetails, Closing, EntryKind, Introduced, Role, SnapshotWhy, Stay
from tests.history.workshop import (
    CLEARED,
    CODE,
    IDA,
    LASH_SET,
    LEAK_DOWN,
    MISFIRE,
    NOW,
    OIL_IN_WELL,
    RUN,
    SCAN,
    TODAY,
    V6,
    Filed,
    km,
)

DUMPS = Path(__file__).parents[1] / "data" / "history_dumps"


def fill(url: str) -> None:
    """Two vehicles, two cases, one entry or two of every kind; one struck out, one case closed."""
    history = open_history(url, "bay")
    with history.write(IDA, NOW) as desk:
        desk.add_person("Ida Lorne", Role.TECHNICIAN, entry_id="ida")
        filed = [desk_case(desk, "grey estate", "KX-41 QP"), desk_case(desk, "blue van", "KX-42 RT")]
        at = filed[0].at(2)
        desk.record_symptom(at, MISFIRE)
        desk.record_symptom(at, replace(MISFIRE, absent_for_km=5000.0, after_visit=1))
        desk.record_code(at, CODE)
        desk.record_cleared(at, CLEARED, source=Source.TOLD)
        result = desk.record_result(at, LEAK_DOWN, minutes=23)
        job = desk.record_job(filed[0].at(1), LASH_SET, minutes=150)
        desk.record_duty(filed[0].at(1), job, DutyDone("measured-cold", DutyState.NOT_CHECKED, Source.PAPER, 1))
        desk.record_duty(at, job, DutyDone("measured-cold", DutyState.FOUND_WRONG, Source.SEEN_HERE, 2))
        desk.record_defect(at, OIL_IN_WELL, job_id=job)
        desk.set_open_covers(filed[0].case, 1, covers=["plugs-out"])
        desk.put_back(filed[0].case, 2, cover="plugs-out")
        wrong = desk.record_result(filed[1].at(1), LEAK_DOWN)
        desk.snapshot(filed[0].case, SnapshotWhy.CLOSING, rules_version="r1", board={"rows": []}, minutes=40)
        closing = Closing("exhaust-lash-too-tight", "cyl-3", result, Introduced.BY_A_JOB, job, 190.0, "Set again.")
        left = replace(closing, left_open=("valve cover off",), left_open_why="taken away as it stands")
        desk.close_case(filed[0].case, 3, closing=left)
        figure = desk.set_figure(Figure(FigureKind.LABOUR_RATE, 90.0, "90"), seen="")
        desk.set_figure(Figure(FigureKind.LABOUR_RATE, 95.0, "95"), seen=figure)
        desk.set_family(filed[0].vehicle, seen=1, family="big estate")
        desk.void(EntryKind.RESULT, wrong, seen=1, why="other vehicle")
        desk.record_run(filed[0].at(2), RUN, today=TODAY)
        desk.record_scan(filed[0].at(2), SCAN, today=TODAY)
        at = filed[1].at(2)
        desk.start_proof(filed[1].case, 1, belief=Belief(at.visit, "coil-failing", "cyl-3", 0.8, "Coil renewed."))
        desk.record_run(at, replace(RUN, came_back=True, km=12.0), today=TODAY)
    history.engine.dispose()


def desk_case(desk: Desk, name: str, plate: str) -> Filed:
    vehicle = desk.add_vehicle(Vehicle(V6, name, plate), desk.add_customer("Marlo Vett", "555 0101"))
    stays = (
        Stay(False, "Weir Garage", "W-7", date(2026, 3, 1), odometer=km(81000), cost="410.00"),
        Stay(True, "", f"R-20{plate[3:5]}", date(2026, 5, 1), odometer=km(82000), complaint_words="shakes when hot"),
    )
    visits = tuple(desk.add_visit(vehicle, stay, today=TODAY) for stay in stays)
    return Filed(vehicle, desk.open_case(vehicle, CaseDetails("misfire-counted", "engine"), visits=visits), visits)


def statements(connection: sqlite3.Connection) -> Iterator[str]:
    """The schema, then the rows; the full-text index fills itself by its triggers."""
    made = connection.execute("select name, sql from sqlite_master where sql is not null").fetchall()
    kept = [(name, sql) for name, sql in made if not name.startswith("vehicle_words_text_")]
    yield from (f"{sql};" for _, sql in kept)
    for name, sql in kept:
        if sql.startswith("CREATE TABLE"):
            columns = [column[1] for column in connection.execute(f"pragma table_info({name})")]
            literal = " || ', ' || ".join(f'quote("{column}")' for column in columns)
            for (row,) in connection.execute(f"select {literal} from {name}"):
                yield f"INSERT INTO {name} ({', '.join(columns)}) VALUES ({row});"


def main(revision: str) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "history.db"
        migrate(f"sqlite:///{path}")
        fill(f"sqlite:///{path}")
        connection = sqlite3.connect(path)
        text = "\n".join(["BEGIN;", *statements(connection), "COMMIT;", ""])
        connection.close()
    DUMPS.mkdir(parents=True, exist_ok=True)
    (DUMPS / f"{revision}.sql").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1])

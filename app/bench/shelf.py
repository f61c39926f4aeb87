"""A history of its own in a folder that goes away, so that a board can be timed from the rows on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from app.evidence.case import Case
from app.history.engine import open_history
from app.history.history import History
from app.history.migrate import migrate
from app.history.values import PROGRAM, At, CaseDetails
from app.seed.demo import Filed, file_visit, stay_of

NOW = datetime(2030, 1, 1, 9, 0, tzinfo=UTC)
"""Later than any day of a drawn case."""


@dataclass(frozen=True, slots=True)
class Shelf:
    """Cases are filed here as the desk files them."""

    history: History

    def file(self, case: Case) -> str:
        """The id of the case, filed with all that was said at its visits."""
        with self.history.write(PROGRAM, NOW) as desk:
            vehicle = desk.add_vehicle(case.vehicle, desk.add_customer("Customer"))
            case_id = desk.open_case(vehicle, _details(case))
            filed = Filed({}, {})
            for visit in case.visits:
                at = At(desk.add_visit(vehicle, stay_of(visit), today=NOW.date()), case_id)
                file_visit(desk, at, case, visit=visit, filed=filed)
        return case_id


@contextmanager
def a_shelf() -> Iterator[Shelf]:
    """Empty, never the history of an installation."""
    with TemporaryDirectory() as folder:
        url = f"sqlite:///{Path(folder) / 'bench.db'}"
        migrate(url)
        history = open_history(url, "bench")
        try:
            yield Shelf(history)
        finally:
            history.engine.dispose()


def _details(case: Case) -> CaseDetails:
    return CaseDetails(case.complaint, case.complaint_place, open_covers=case.open_covers)

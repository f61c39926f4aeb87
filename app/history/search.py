"""Finding a vehicle by what someone has at hand: plate, VIN, name, customer, repair-order number.

Exact and first letters come from ordinary indexes (0.01 ms); letters in the middle from the full-text index of letter
triples, which needs three of them, and whose hits are put in order here (ordering by its own rank costs 20 times more).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import ColumnElement, RowMapping, SQLColumnExpression, func, text
from sqlmodel import Session, col, select

from app.history.plate import plate_key
from app.history.tables.vehicles import CustomerRow, VehicleRow
from app.history.tables.visits import CaseRow, VisitRow
from app.history.values import CaseState, FoundVehicle

BEYOND = "\U0010ffff"
"""Sorts after every letter: the end of a range of words with the same beginning."""

TRIPLE = 3
MOST_HITS = 50
LONGEST = 100


@dataclass(frozen=True, slots=True)
class Hit:
    """`rank`: 0 the whole plate or number, 1 its beginning, 2 in the middle."""

    vehicle: str
    rank: int
    matched: str


def find_vehicles(session: Session, site: str, text: str, *, limit: int) -> tuple[FoundVehicle, ...]:
    """Best match first: whole, then beginning, then middle; nothing for an empty search."""
    wanted = _tidied(text)
    if not wanted:
        return ()
    best: dict[str, Hit] = {}
    for hit in _hits(session, site, wanted, limit):
        if hit.vehicle not in best or hit.rank < best[hit.vehicle].rank:
            best[hit.vehicle] = hit
    ordered = sorted(best.values(), key=lambda hit: hit.rank)[:limit]
    return _described(session, site, ordered)


def _tidied(text: str) -> str:
    """One line of printable text with single blanks; nobody has more than a few words at hand."""
    return " ".join("".join(letter if letter.isprintable() else " " for letter in text[:LONGEST]).split())


def _hits(session: Session, site: str, wanted: str, limit: int) -> Iterator[Hit]:
    key = plate_key(wanted)
    if key:
        yield from _by_vehicle(session, site, column="plate_key", key=key, matched="plate", limit=limit)
        yield from _by_vehicle(session, site, column="vin", key=key, matched="VIN", limit=limit)
    yield from _by_order(session, site, wanted, limit)
    yield from _by_customer(session, site, wanted, limit)
    yield from _by_letters(session, site, wanted)


def _begins(column: SQLColumnExpression[str], beginning: str) -> ColumnElement[bool]:
    return (column >= beginning) & (column < beginning + BEYOND)


def _by_vehicle(session: Session, site: str, *, column: str, key: str, matched: str, limit: int) -> Iterator[Hit]:
    found_in = col(getattr(VehicleRow, column))
    query = select(VehicleRow.id, found_in).where(col(VehicleRow.site_id) == site, _begins(found_in, key))
    for vehicle, whole in session.exec(query.order_by(found_in).limit(limit)):
        yield Hit(vehicle, 0 if whole == key else 1, matched)


def _by_order(session: Session, site: str, wanted: str, limit: int) -> Iterator[Hit]:
    number = col(VisitRow.order_number)
    query = select(VisitRow.vehicle_id, number).where(
        col(VisitRow.site_id) == site, _begins(number, wanted), col(VisitRow.voided_at).is_(None)
    )
    for vehicle, whole in session.exec(query.order_by(number).limit(limit)):
        yield Hit(vehicle, 0 if whole == wanted else 1, "repair order")


def _by_customer(session: Session, site: str, wanted: str, limit: int) -> Iterator[Hit]:
    name = col(CustomerRow.name_key)
    query = (
        select(VehicleRow.id, name)
        .join(
            CustomerRow,
            (col(CustomerRow.site_id) == col(VehicleRow.site_id))
            & (col(CustomerRow.id) == col(VehicleRow.customer_id)),
        )
        .where(col(CustomerRow.site_id) == site, _begins(name, wanted.casefold()))
    )
    for vehicle, whole in session.exec(query.order_by(name).limit(limit)):
        yield Hit(vehicle, 0 if whole == wanted.casefold() else 1, "customer")


LETTERS = text(
    "select w.vehicle_id, w.plate, w.vin, w.name, w.customer, w.orders"
    " from vehicle_words_text t join vehicle_words w on w.number = t.rowid"
    " where vehicle_words_text match :wanted and w.site_id = :site limit :most"
)
COLUMNS = {"plate": "plate", "vin": "VIN", "name": "name", "customer": "customer", "orders": "repair order"}


def _by_letters(session: Session, site: str, wanted: str) -> Iterator[Hit]:
    words = [word for word in wanted.split() if len(word) >= TRIPLE]
    key = plate_key(wanted)
    either = [" AND ".join(map(quoted, words))] if words else []
    if len(key) >= TRIPLE:
        either.append(quoted(key))
    if not either:
        return
    match = " OR ".join(f"({one})" for one in either)
    rows = session.execute(LETTERS, {"wanted": match, "site": site, "most": MOST_HITS}).mappings()
    for row in rows:
        yield Hit(row["vehicle_id"], 2, _where_found(row, [*words, key]))


def quoted(word: str) -> str:
    """A word as full-text search takes it literally, whatever signs it holds."""
    return '"' + word.replace('"', '""') + '"'


def _where_found(row: RowMapping, words: Sequence[str]) -> str:
    """The first column that holds one of the words, in words."""
    folded = [word.casefold() for word in words if word]
    holds = (said for column, said in COLUMNS.items() if any(word in row[column].casefold() for word in folded))
    return next(holds, "name")


def _described(session: Session, site: str, hits: Sequence[Hit]) -> tuple[FoundVehicle, ...]:
    ids = [hit.vehicle for hit in hits]
    query = (
        select(VehicleRow, CustomerRow)
        .outerjoin(
            CustomerRow,
            (col(CustomerRow.site_id) == col(VehicleRow.site_id))
            & (col(CustomerRow.id) == col(VehicleRow.customer_id)),
        )
        .where(col(VehicleRow.site_id) == site, col(VehicleRow.id).in_(ids))
    )
    rows = {vehicle.id: (vehicle, customer) for vehicle, customer in session.exec(query)}
    visits, open_cases = _visits(session, site, ids), _open_cases(session, site, ids)
    return tuple(
        _found(
            hit,
            *rows[hit.vehicle],
            visits=visits.get(hit.vehicle, (0, None)),
            open_cases=open_cases.get(hit.vehicle, 0),
        )
        for hit in hits
    )


def _found(
    hit: Hit, vehicle: VehicleRow, customer: CustomerRow | None, *, visits: tuple[int, date | None], open_cases: int
) -> FoundVehicle:
    return FoundVehicle(
        id=vehicle.id,
        name=vehicle.name,
        plate=vehicle.plate,
        vin=vehicle.vin,
        customer="" if customer is None else customer.name,
        matched=hit.matched,
        visits=visits[0],
        last_day=visits[1],
        open_cases=open_cases,
    )


def _visits(session: Session, site: str, vehicles: Sequence[str]) -> dict[str, tuple[int, date | None]]:
    query = (
        select(VisitRow.vehicle_id, func.count(), func.max(VisitRow.day))
        .where(col(VisitRow.site_id) == site, col(VisitRow.vehicle_id).in_(vehicles), col(VisitRow.voided_at).is_(None))
        .group_by(col(VisitRow.vehicle_id))
    )
    return {vehicle: (number, last) for vehicle, number, last in session.exec(query)}


def _open_cases(session: Session, site: str, vehicles: Sequence[str]) -> dict[str, int]:
    query = (
        select(CaseRow.vehicle_id, func.count())
        .where(
            col(CaseRow.site_id) == site,
            col(CaseRow.vehicle_id).in_(vehicles),
            col(CaseRow.state) != CaseState.CLOSED.value,
        )
        .group_by(col(CaseRow.vehicle_id))
    )
    return dict(session.exec(query).all())

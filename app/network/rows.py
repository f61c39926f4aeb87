"""Rows: a cause at a smallest place is the OR of the hypotheses that cover it; the head is the OR of all."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.network.candidates import Candidate
from app.rules.words import CauseId, Effect
from app.vehicle.layout import Layout, PlaceId


@dataclass(frozen=True, slots=True)
class RowMembers:
    """A row and the candidates (indices) that make it hold in one epoch of each.

    `place` None: the head, this cause anywhere. `job`: None for now, else the number of the job that ended the epoch.
    `epochs`: for each member, the epoch in which it has to be there.
    """

    cause: CauseId
    place: PlaceId | None
    job: int | None
    members: tuple[int, ...]
    epochs: tuple[int, ...]


def rows_of(candidates: Sequence[Candidate], layout: Layout) -> tuple[RowMembers, ...]:
    """All rows about now, then the earlier epochs that a job ended by renewing something."""
    by_cause: dict[CauseId, list[int]] = {}
    for number, candidate in enumerate(candidates):
        by_cause.setdefault(candidate.cause.id, []).append(number)
    now = [row for numbers in by_cause.values() for row in _rows_now(numbers, candidates, layout)]
    earlier = [row for numbers in by_cause.values() for row in _earlier(numbers, candidates, layout)]
    return (*now, *earlier)


def _rows_now(numbers: Sequence[int], candidates: Sequence[Candidate], layout: Layout) -> Iterable[RowMembers]:
    cause = candidates[numbers[0]].cause.id
    yield _row(cause, None, None, numbers, candidates)
    for number in numbers:
        yield _row(cause, candidates[number].place, None, _covering(number, numbers, candidates, layout), candidates)


def _row(
    cause: CauseId, place: PlaceId | None, job: int | None, members: Sequence[int], candidates: Sequence[Candidate]
) -> RowMembers:
    return RowMembers(cause, place, job, tuple(members), tuple(candidates[m].now for m in members))


def _covering(number: int, numbers: Sequence[int], candidates: Sequence[Candidate], layout: Layout) -> tuple[int, ...]:
    """A smallest place holds by any hypothesis that covers it; a larger place only by its own."""
    place = candidates[number].place
    lies_above_another = any(n != number and layout.covers(place, candidates[n].place) for n in numbers)
    if lies_above_another:
        return (number,)
    return tuple(n for n in numbers if layout.covers(candidates[n].place, place))


def _earlier(numbers: Sequence[int], candidates: Sequence[Candidate], layout: Layout) -> Iterable[RowMembers]:
    """ "The old coil": the epoch before a job that renewed the part, at the places that the job names."""
    for number in numbers:
        candidate = candidates[number]
        for epoch, cut in enumerate(candidate.cuts):
            if cut.job is None or cut.effect is not Effect.RENEWS or candidate.place not in cut.job.job.places:
                continue
            yield RowMembers(candidate.cause.id, candidate.place, cut.job.number, (number,), (epoch,))

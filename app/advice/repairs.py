"""The repairs worth thinking of: the operations that put the leading rows right, at the places where they are done."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from app.evidence.case import Case, Job, Source
from app.evidence.jobs import known_jobs, works_on
from app.evidence.moments import Moment, Phase, early_after
from app.network.build import CaseNetwork
from app.network.candidates import Candidate
from app.rules.causes import Cause
from app.rules.library import Rules
from app.rules.operations import Operation
from app.rules.words import CauseId, Effect
from app.vehicle.layout import Layout, PlaceId, level_of

MOST_REPAIRS = 24
PUTS_RIGHT = (Effect.RENEWS, Effect.SETS)


@dataclass(frozen=True, slots=True)
class RepairHere:
    """An operation at its places, with the parts that its rules name and the leading causes that it puts right.

    `again`: it was just done, in vain, and the part it renewed has been destroyed once more.
    """

    operation: Operation
    places: tuple[PlaceId, ...]
    parts: tuple[str, ...]
    causes: tuple[CauseId, ...]
    again: bool = False

    @property
    def id(self) -> str:
        return f"{self.operation.id}@{'+'.join(self.places)}"

    def puts_right(self, candidate: Candidate, layout: Layout) -> bool:
        """Whether it puts this cause right at its place."""
        fixes = fixed_by(self.operation, candidate.cause)
        return fixes and works_on(Job(self.operation.id, self.places, Source.SEEN_HERE), candidate.place, layout)


def fixed_by(operation: Operation, cause: Cause) -> bool:
    named = any(fix.operation == operation.id for fix in cause.fixed_by)
    return named or operation.touches.get(cause.id) in PUTS_RIGHT


def repairs_for(
    rows: Iterable[int], destroyed: Collection[int], network: CaseNetwork, case: Case, rules: Rules
) -> tuple[RepairHere, ...]:
    """The repairs of these rows about places, in their order, each once; the first few.

    Not what was just done here in vain: whether it was done right is looked at, not done again. Only what something
    else has `destroyed` has to be done again, once that has been put right.
    """
    layout, just_done = case.vehicle.layout, _just_done(case, rules)
    found: dict[str, RepairHere] = {}
    for number in rows:
        row = network.rows[number]
        if row.place is None:
            continue
        for repair in repairs_of_row(rules.causes[row.cause], row.place, rules, layout):
            if any(job.operation == repair.operation.id and set(repair.places) <= set(job.places) for job in just_done):
                if number not in destroyed:
                    continue
                repair = replace(repair, again=True)
            known = found.get(repair.id)
            found[repair.id] = _both(known, repair) if known else repair
        if len(found) >= MOST_REPAIRS:
            break
    return tuple(found.values())[:MOST_REPAIRS]


def _just_done(case: Case, rules: Rules) -> Sequence[Job]:
    """Our own jobs that the vehicle has hardly been driven since."""
    now = Moment(case.visits[-1].number, Phase.FOUND)
    return [
        numbered.job
        for numbered in known_jobs(case, rules)
        if numbered.visit.here
        and numbered.at < now
        and early_after(numbered.at, case, rules.settings.wears_in_over_km)(now)
    ]


def repairs_of_row(cause: Cause, place: PlaceId, rules: Rules, layout: Layout) -> Iterator[RepairHere]:
    """What the rules name as putting this cause right, at the places where it is done."""
    for fix in cause.fixed_by:
        operation = rules.operations[fix.operation]
        places = _done_at(operation, place, layout)
        if places:
            yield RepairHere(operation, places, fix.parts, (cause.id,))


def _done_at(operation: Operation, place: PlaceId, layout: Layout) -> tuple[PlaceId, ...]:
    """The operation's place that covers this one, or all of its places inside it."""
    if level_of(place) == operation.at:
        return (place,)
    covering = [one for one in layout.places(operation.at) if layout.covers(one, place)]
    return tuple(covering) or tuple(one for one in layout.places(operation.at) if layout.covers(place, one))


def _both(one: RepairHere, other: RepairHere) -> RepairHere:
    parts = tuple(dict.fromkeys((*one.parts, *other.parts)))
    causes = tuple(dict.fromkeys((*one.causes, *other.causes)))
    return RepairHere(one.operation, one.places, parts, causes, one.again or other.again)


def faults_of(repairs: Sequence[RepairHere], network: CaseNetwork, layout: Layout) -> dict[int, frozenset[str]]:
    """Each candidate that some of the repairs put right -> those repairs; candidates with the same are one fault."""
    found = {}
    for number, candidate in enumerate(network.candidates):
        cured_by = frozenset(repair.id for repair in repairs if repair.puts_right(candidate, layout))
        if cured_by:
            found[number] = cured_by
    return found

"""What the faults of a drawn vehicle have destroyed: parts near them, renewed in vain until the culprit is found."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from numpy.random import Generator

from app.evidence.case import Case
from app.evidence.jobs import Touch, touches
from app.network.damage import after_silence
from app.rules.causes import Damages
from app.rules.library import Rules
from app.rules.priors import priors
from app.rules.words import Effect
from app.simulation.faults import Fault, near_victims


def destroyed(faults: Iterable[Fault], case: Case, rules: Rules, dice: Generator) -> Iterator[Fault]:
    """A fault for each part that one of these has destroyed at any time; what they destroy destroys nothing more."""
    for culprit in faults:
        for damages in culprit.cause.damages:
            for place in near_victims(damages.victim, culprit.place, case.vehicle.layout, rules):
                victim, prior = rules.causes[damages.victim], priors(case.vehicle.layout, rules)[damages.victim][place]
                touched = touches(victim, place, case, rules, prior=prior)
                there = tuple(_dead(damages, culprit, touched, case, dice))
                if any(there):
                    jobs = tuple(touch.job.visit.number for touch in touched)
                    yield Fault(victim, place, there, jobs, culprit.cause.id)


def _dead(damages: Damages, culprit: Fault, touched: Sequence[Touch], case: Case, dice: Generator) -> Iterator[bool]:
    """Whether the part is dead before the first job that touches it and after each: one draw for the life of a part."""
    since, until = _span(culprit)
    dead = False
    for number in range(len(touched) + 1):
        renewal = touched[number - 1] if number and touched[number - 1].effect is Effect.RENEWS else None
        if number == 0 or renewal is not None:
            fitted = renewal.job.visit.number if renewal else 0
            taken_out = renewal.done * renewal.removes if renewal else 1.0
            ends = _next_renewal(touched, number)
            draw = damages.how.chance * taken_out * (after_silence(damages, fitted, case) if renewal else 1.0)
            overlaps = (ends is None or ends > since) and (until is None or fitted < until)
            dead = (dead and dice.random() >= taken_out) or (overlaps and dice.random() < draw)
        yield dead


def _next_renewal(touched: Sequence[Touch], after: int) -> int | None:
    """The visit at which the part fitted then was taken out again; None: it is still in."""
    return next((touch.job.visit.number for touch in touched[after:] if touch.effect is Effect.RENEWS), None)


def _span(fault: Fault) -> tuple[int, int | None]:
    """The visits between which a fault was there: 0 from before the first, None up to now."""
    first = fault.there.index(True)
    last = max(number for number, there in enumerate(fault.there) if there)
    since = 0 if first == 0 else fault.jobs[first - 1]
    return since, None if last == len(fault.jobs) else fault.jobs[last]

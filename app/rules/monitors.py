"""Monitors: how the vehicle watches itself, which codes each stands behind, and what the states of a code mean."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.vehicle.layout import ENGINE, Layout


@dataclass(frozen=True, slots=True)
class CodeRange:
    """Codes from `first` to `last`, both included: P0300 to P0316."""

    first: str
    last: str

    def holds(self, code: str) -> bool:
        """Codes sort by letter and hexadecimal digits as they are written."""
        return self.first <= code[:5] <= self.last


@dataclass(frozen=True, slots=True)
class Monitor:
    """One monitor whose readiness the vehicle reports.

    `continuous`: it works all the while its conditions are met, and may be reported complete at once. `the_rest`: it
    also watches every powertrain code that no other monitor watches. `runs`: what lets it run, in one sentence.
    """

    id: str
    name: str
    continuous: bool
    watches: tuple[CodeRange, ...]
    the_rest: bool
    fits: Mapping[str, tuple[str, ...]]
    runs: str
    source: str

    def fits_on(self, layout: Layout) -> bool:
        """Whether a vehicle of this build can have it; what is not known of the build speaks against nothing."""
        known = {trait: layout.trait(trait, ENGINE) for trait in self.fits}
        return all(known[trait] is None or known[trait] in values for trait, values in self.fits.items())


@dataclass(frozen=True, slots=True)
class CodeStateRule:
    """What a state of a trouble code means, and when it goes away, with the regulation or standard that says so."""

    means: str
    goes: str
    source: str


def watcher_of(code: str, monitors: Iterable[Monitor]) -> Monitor | None:
    """The monitor behind a code; None where none of these watches it (body, chassis, network)."""
    known = tuple(monitors)
    named = next((one for one in known if any(codes.holds(code) for codes in one.watches)), None)
    if named is not None or not code.startswith("P"):
        return named
    return next((one for one in known if one.the_rest), None)

"""Operations, their duties, and the covers that tests and operations share."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.rules.words import CauseId, CoverId, DutyId, Effect, OperationId, TestId
from app.vehicle.layout import ENGINE, Layout, Level


@dataclass(frozen=True, slots=True)
class Duty:
    """What an operation obliges the mechanic to do as well.

    `brings`: the cause a forgotten duty can bring in (None: `consequence` says what else follows).
    `verify_by_test`: the test that verifies it; `verify_how` is the sentence when no test does.
    """

    id: DutyId
    text: str
    brings: CauseId | None
    consequence: str
    verify_by_test: TestId | None
    verify_how: str


@dataclass(frozen=True, slots=True)
class Operation:
    """A piece of work from the catalogue, done at places of level `at`. Minutes do not include teardown."""

    id: OperationId
    name: str
    at: Level
    minutes: float
    opens: tuple[CoverId, ...]
    touches: Mapping[CauseId, Effect]
    duties: tuple[Duty, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OnBuild:
    """How long a cover takes on vehicles built so: trait -> the value it must have."""

    build: Mapping[str, str]
    reach_minutes: float
    restore_minutes: float


@dataclass(frozen=True, slots=True)
class Cover:
    """A teardown state: something off or open, with minutes to reach and to restore.

    The minutes hold on a vehicle whose build is none of `on`, or is not known. `putting_back`: what must be minded when
    it goes on again.
    """

    id: CoverId
    name: str
    reach_minutes: float
    restore_minutes: float
    on: tuple[OnBuild, ...] = ()
    putting_back: tuple[str, ...] = ()

    def minutes_on(self, layout: Layout) -> tuple[float, float]:
        """Minutes to reach and to restore on this vehicle."""
        for other in self.on:
            if all(layout.trait(name, ENGINE) == value for name, value in other.build.items()):
                return other.reach_minutes, other.restore_minutes
        return self.reach_minutes, self.restore_minutes

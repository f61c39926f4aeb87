"""Operations, their duties, and the covers that tests and operations share."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.rules.words import CauseId, CoverId, DutyId, Effect, OperationId, TestId
from app.vehicle.layout import Level


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
class Cover:
    """A teardown state: something off or open, with minutes to reach and to restore."""

    id: CoverId
    name: str
    reach_minutes: float
    restore_minutes: float

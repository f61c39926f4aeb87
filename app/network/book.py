"""The findings of a case, numbered: which number stands for which statement, result or test to come."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from app.evidence.belief import Belief
from app.network.noisy_or import Finding, Report, Soft
from app.rules.words import TestId
from app.vehicle.layout import PlaceId


@dataclass(slots=True)
class FindingBook:
    """Collects findings while a network is built; `papers` maps a paper's visit to its findings."""

    findings: list[Finding] = field(default_factory=list)
    entries: dict[int, str] = field(default_factory=dict)
    papers: dict[int, list[int]] = field(default_factory=dict)
    to_come: dict[tuple[TestId, PlaceId], int] = field(default_factory=dict)

    def reported(self, said: Belief, *, leak: float, entry: str) -> int:
        """A finding somebody spoke of."""
        number = self._add(Finding(leak, _report(said)))
        self.entries[number] = entry
        if said.paper is not None:
            self.papers.setdefault(said.paper, []).append(number)
        return number

    def to_be_tested(self, test: TestId, place: PlaceId, *, leak: float) -> int:
        """A test that could be done next at a place."""
        number = self._add(Finding(leak))
        self.to_come[test, place] = number
        return number

    def take_over_leak(self, finding: int) -> None:
        """Something else now stands for this finding's false alarms."""
        self.findings[finding] = replace(self.findings[finding], leak=0.0)

    def _add(self, finding: Finding) -> int:
        self.findings.append(finding)
        return len(self.findings) - 1


def _report(said: Belief) -> Report | Soft:
    if said.hard:
        return Report.PRESENT if said.says_present else Report.ABSENT
    return Soft(present=said.present, absent=said.absent)

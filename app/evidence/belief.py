"""How far each source is believed: a hard report, a soft one, or part of a paper that is true or made up as a whole."""

from __future__ import annotations

from dataclasses import dataclass

from app.evidence.case import Source
from app.rules.library import Settings

DOCUMENTS_AT_MOST = 3
"""More papers than this are taken as single statements: each paper doubles the work (ENGINE: paper switch)."""


@dataclass(frozen=True, slots=True)
class Belief:
    """What is said of a finding. Hard when both weights are 0 or 1; `paper`: the visit whose paper says it."""

    present: float
    absent: float
    paper: int | None = None

    @property
    def hard(self) -> bool:
        return {self.present, self.absent} == {0.0, 1.0}

    @property
    def says_present(self) -> bool:
        return self.present > self.absent


def belief(*, present: bool, source: Source, visit: int, settings: Settings) -> Belief:
    """How a statement from this source weighs; a paper's statements stay hard, inside the paper's switch."""
    if source.here:
        return Belief(float(present), float(not present))
    if source is Source.PAPER:
        return Belief(float(present), float(not present), paper=visit)
    return single_statement(present=present, reliability=settings.reliability[source.value], settings=settings)


def single_statement(*, present: bool, reliability: float, settings: Settings) -> Belief:
    """One statement of reliability rho, otherwise made up with chance c of "normal": DESIGN section 7."""
    doubt = 1.0 - reliability
    normal = settings.normal_if_invented
    if present:
        return Belief(reliability + doubt * (1.0 - normal), doubt * (1.0 - normal))
    return Belief(doubt * normal, reliability + doubt * normal)

"""What exact inference answers: plain numbers, each with its complement summed by itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from app.beliefs.absorb import Absorbed
from app.beliefs.left_out import NOTHING, LeftOut

Numbers = NDArray[np.float64]
Indices = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Masses:
    """Joint chances, given the evidence, of an event (on/off) and a test finding (present/absent).

    The four are summed separately, so that ratios keep their digits near 0 and 1.
    """

    on_present: float
    on_absent: float
    off_present: float
    off_absent: float

    @property
    def lr_plus(self) -> float | None:
        """P(present | on) / P(present | off); None when it is not defined."""
        return _ratio_of_ratios(self.on_present, self.on_absent, self.off_present, self.off_absent)

    @property
    def lr_minus(self) -> float | None:
        """P(absent | on) / P(absent | off); None when it is not defined."""
        return _ratio_of_ratios(self.on_absent, self.on_present, self.off_absent, self.off_present)


def _ratio_of_ratios(on_this: float, on_other: float, off_this: float, off_other: float) -> float | None:
    on, off = on_this + on_other, off_this + off_other
    if on <= 0.0 or off <= 0.0 or off_this <= 0.0:
        return None
    return (on_this / on) / (off_this / off)


@dataclass(frozen=True, slots=True)
class Chance:
    """A chance and its complement, each summed by itself."""

    yes: float
    no: float


@dataclass(frozen=True, slots=True)
class Retest:
    """What the network says when a set of reports is left out of the evidence.

    `events`: per event relevant to a finding of the set, its chance without the set. `masses`: per (finding of the
    set, event).
    `predicted`: per finding of the set, the chance that it would be present, without the set.
    """

    events: Mapping[int, Chance]
    predicted: Mapping[int, Chance]
    masses: Mapping[tuple[int, int], Masses]


@dataclass(frozen=True, slots=True)
class Information:
    """Joint information of a test (or of readings taken until the first abnormal one) about all hypotheses.

    Exact: I(test; states of all hypotheses that can make it present). `exact` is False where those were too many and
    the informations about each of them were summed instead; 0 bits where even that was left out.
    """

    bits: float
    exact: bool


@dataclass(frozen=True, slots=True)
class Beliefs:
    """Posteriors of a network and the answers to its questions.

    `states[h]` has shape (number of states of h,), where asked for; `log_evidence` is natural. `without`: per question
    of that name, event to chance. `not_asked` counts what was not computed because it would have taken too many
    products. A test left out is missing, a retest or `without` left out is empty. `set_aside`:
    findings whose reports were not used, because even the posteriors would have taken too long with them. `absorbed`:
    the network without these, cut down to what the reports and questions touch, for the next call.
    """

    log_evidence: float
    states: tuple[Numbers, ...]
    events: tuple[Chance, ...]
    documents: tuple[float, ...]
    tests: Mapping[int, Chance]
    masses: Mapping[tuple[int, int], Masses]
    retests: tuple[Retest, ...]
    blamed: tuple[Chance, ...]
    informing: tuple[Information, ...]
    without: tuple[Mapping[int, Chance], ...] = ()
    not_asked: LeftOut = NOTHING
    set_aside: frozenset[int] = frozenset()
    absorbed: Absorbed | None = field(default=None, repr=False, compare=False)

    @property
    def left_out(self) -> str | None:
        """What was left out, in words; None: nothing."""
        return self.not_asked.in_words()


@dataclass(frozen=True, slots=True)
class Contradiction:
    """The reports cannot all be true: no state of the hypotheses gives them a chance above zero.

    `findings`: a smallest set of reported findings that cannot hold together (removing any one of them frees the rest).
    """

    findings: tuple[int, ...]

"""The bare numbers of a network: findings, hypotheses with states, leaves and groups.

Nothing here knows a vehicle or a rule. A finding is absent with chance (1 - leak) times the product of
(1 - strength) over the live leaves of what holds (noisy-OR with leak, Henrion 1989). A leaf hangs in a
state directly or inside groups that are live with a chance of their own, drawn once each.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum


class Report(Enum):
    """What was said about a finding, when it was said outright."""

    PRESENT = "present"
    ABSENT = "absent"


@dataclass(frozen=True, slots=True)
class Soft:
    """An uncertain report: likelihood weights of the finding being present and absent, not normalised."""

    present: float
    absent: float


@dataclass(frozen=True, slots=True)
class Finding:
    """`report` None: not looked at."""

    leak: float
    report: Report | Soft | None = None


@dataclass(frozen=True, slots=True)
class Leaf:
    """When live, makes `finding` (an index) present with chance `strength`."""

    finding: int
    strength: float


@dataclass(frozen=True, slots=True)
class Group:
    """One switch: with chance `acts` everything inside is live, otherwise nothing inside is.

    `turns_on` names the events (indices into NoisyOr.events) that count as holding while this group is live:
    a culprit's damage acting counts for the victim's row.
    """

    acts: float
    effects: tuple[Effect, ...]
    turns_on: tuple[int, ...] = ()


Effect = Leaf | Group


@dataclass(frozen=True, slots=True)
class State:
    """One way a hypothesis can be; `weight` is its chance before evidence, not necessarily normalised."""

    weight: float
    effects: tuple[Effect, ...] = ()


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """Exactly one of its states holds; hypotheses are independent before evidence."""

    states: tuple[State, ...]


@dataclass(frozen=True, slots=True)
class Event:
    """Holds if any listed (hypothesis, state) holds, or a live group says it turns this event on."""

    any_of: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Document:
    """A paper that is either true or made up as a whole.

    Made up: each report on it is absent with chance `normal_if_invented`, else present, whatever holds.
    `findings` are the findings it reports, all with a hard report.
    """

    reliability: float
    normal_if_invented: float
    findings: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class NoisyOr:
    """A whole network with its evidence."""

    findings: tuple[Finding, ...]
    hypotheses: tuple[Hypothesis, ...]
    documents: tuple[Document, ...] = ()
    events: tuple[Event, ...] = ()


@dataclass(frozen=True, slots=True)
class Without:
    """A set of reported findings to leave out of the evidence, and the events asked about then; None: all events."""

    findings: tuple[int, ...]
    events: tuple[int, ...] | None = None


@dataclass(frozen=True, slots=True)
class Questions:
    """What is asked of a network beside the posteriors of all states and events.

    `tests`: findings without a report; asked: predictive chance, and per event the four joint masses.
    `retests`: sets of reported findings; asked for each: the same masses for each finding of the set with
        the reports of the whole set left out of the evidence, and the events' chances without the set.
    `relevant`: per finding index, the events for which the masses are wanted; None: all events for all tests.
    `complaint`: findings that stand for the complaint (all reported present).
    `blamed`: sets of hypotheses; asked for each: P(at least one live leaf of the set fires on the complaint),
        and P(none does).
    `informing`: tests (sets of findings taken one after another until the first abnormal one) whose joint
        information about all hypotheses is asked for.
    `without`: sets of reports to leave out, where only the events' chances are wanted (cheaper than a retest).
    `events`: the events whose chances under the evidence as reported are wanted, answered in this order; None: all.
    `states`: whether the posterior of every state of every hypothesis is wanted.
    """

    tests: tuple[int, ...] = ()
    retests: tuple[tuple[int, ...], ...] = ()
    relevant: dict[int, tuple[int, ...]] | None = None
    complaint: tuple[int, ...] = ()
    blamed: tuple[tuple[int, ...], ...] = field(default=())
    informing: tuple[tuple[int, ...], ...] = ()
    without: tuple[Without, ...] = ()
    events: tuple[int, ...] | None = None
    states: bool = True

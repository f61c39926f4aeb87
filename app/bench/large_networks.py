"""Random networks as large as a case's and larger, from a seed; how many findings hang together is chosen."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from app.beliefs.absorb import absorb
from app.beliefs.asking import asked_findings
from app.beliefs.components import trees
from app.network.noisy_or import Event, Finding, Hypothesis, Leaf, NoisyOr, Questions, Report, State

STRENGTHS = (0.05, 0.95)
PRIORS = (0.001, 0.02)
LEAKS = (0.0001, 0.01)
TINY = 1e-32


@dataclass(frozen=True, slots=True)
class Size:
    """`reach`: how many positive findings lie within one's reach, itself included (all of them: everything hangs
    together). The smaller it is, the fewer must be kept in mind at a time. `parents`: fewest and most hypotheses that
    can make one finding.
    """

    hypotheses: int = 300
    tests: int = 200
    positives: int = 12
    negatives: int = 30
    reach: float = 5.0
    parents: tuple[int, int] = (4, 16)

    def __str__(self) -> str:
        return f"{self.hypotheses} hypotheses, {self.tests} tests, {self.positives} positives"


def large(seed: int, size: Size) -> NoisyOr:
    """Plain hypotheses with direct leaves, in a row; a finding's parents lie near its own place in the row.

    The positives come first among the findings, then the negatives, then the tests (without a report).
    """
    dice = Random(seed)
    leaves: list[list[Leaf]] = [[] for _ in range(size.hypotheses)]
    reports = [Report.PRESENT] * size.positives + [Report.ABSENT] * size.negatives + [None] * size.tests
    for finding, report in enumerate(reports):
        middle = (finding + 0.5) / size.positives if report is Report.PRESENT else dice.random()
        near = _near(middle, size)
        for h in dice.sample(near, min(dice.randint(*size.parents), len(near))):
            leaves[h].append(Leaf(finding, round(dice.uniform(*STRENGTHS), 3)))
    priors = [round(dice.uniform(*PRIORS), 5) for _ in leaves]
    return NoisyOr(
        tuple(Finding(round(dice.uniform(*LEAKS), 5), report) for report in reports),
        tuple(Hypothesis((State(1.0 - p), State(p, tuple(some)))) for p, some in zip(priors, leaves, strict=True)),
        events=tuple(Event(((h, 1),)) for h in range(size.hypotheses)),
    )


def _near(middle: float, size: Size) -> range:
    """The hypotheses within reach of a place in the row, from 0 to 1."""
    half = size.reach / size.positives / 2.0
    first, last = round((middle - half) * size.hypotheses), round((middle + half) * size.hypotheses)
    return range(max(first, 0), max(min(last, size.hypotheses), max(first, 0) + 1))


def rare(seed: int, pairs: int) -> NoisyOr:
    """Positives that nothing makes likely, two hypotheses each, and one test; each makes the reports rarer.

    Neighbours share a hypothesis, so that all hang together.
    """
    dice = Random(seed)
    leaves: list[list[Leaf]] = [[] for _ in range(pairs + 1)]
    for finding in range(pairs):
        for h in (finding, finding + 1):
            leaves[h].append(Leaf(finding, round(dice.uniform(*STRENGTHS), 3)))
        leaves[dice.randrange(pairs + 1)].append(Leaf(pairs, round(dice.uniform(*STRENGTHS), 3)))
    priors = [dice.uniform(0.1, 1.0) * TINY for _ in leaves]
    findings = [Finding(dice.uniform(0.1, 1.0) * TINY, Report.PRESENT) for _ in range(pairs)]
    return NoisyOr(
        (*findings, Finding(0.01)),
        tuple(Hypothesis((State(1.0 - p), State(p, tuple(some)))) for p, some in zip(priors, leaves, strict=True)),
        events=tuple(Event(((h, 1),)) for h in range(pairs + 1)),
    )


def parents_of(network: NoisyOr) -> list[dict[int, float]]:
    """Per finding: hypothesis -> strength, of a network of plain hypotheses with direct leaves."""
    found: list[dict[int, float]] = [{} for _ in network.findings]
    for h, hypothesis in enumerate(network.hypotheses):
        for leaf in hypothesis.states[1].effects:
            assert isinstance(leaf, Leaf)
            found[leaf.finding][h] = 1.0 - (1.0 - found[leaf.finding].get(h, 0.0)) * (1.0 - leaf.strength)
    return found


def posteriors_only() -> Questions:
    """Nothing beside the posterior of every hypothesis."""
    return Questions(events=())


def whole_board(network: NoisyOr) -> Questions:
    """The posteriors, and of every test: its chance, its ratios for all that can make it, and its information."""
    parents = parents_of(network)
    tests = tuple(f for f, finding in enumerate(network.findings) if finding.report is None)
    return Questions(
        tests, relevant={f: tuple(parents[f]) for f in tests}, informing=tuple((t,) for t in tests), events=()
    )


def width(network: NoisyOr, questions: Questions) -> int:
    """The most positive findings that are kept in mind at a time (tests asked about are not kept)."""
    absorbed = absorb(network, asked_findings(questions), frozenset(questions.complaint))
    return max((len(scope) for tree in trees(absorbed) for scope in tree.scopes), default=0)

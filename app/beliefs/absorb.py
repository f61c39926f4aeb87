"""What each report becomes: a factor on state weights, a factor of one hypothesis alone, a constant, or a bit.

An absent finding multiplies the weight of each state by the chance that none of its leaves fires; a report whose
leaves all hang directly in the states of one hypothesis is a likelihood ratio on those states. Only what ties
hypotheses together, or hangs behind a switch, needs a bit of the forward pass.
"""

from __future__ import annotations

from collections.abc import Set
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from app.beliefs.live import LiveEffects, LiveHypothesis, live_hypothesis
from app.network.noisy_or import NoisyOr, Report, Soft

if TYPE_CHECKING:
    from app.beliefs.sprigs import Sprig


@dataclass(frozen=True, slots=True)
class Absorbed:
    """A network ready for passes.

    `weigh[f]`: likelihood weights (absent, present) of each reported finding. `parents[f]`: the hypotheses that can
    make it present. Reported findings are split into `absent`, `bits`, those in `alone` (by their only hypothesis) and
    `settled` (nobody can make them present).

    `sprigs`: the states of a hypothesis laid out, filled in by the first pass that needs them.
    """

    hypotheses: tuple[LiveHypothesis, ...]
    leaks: tuple[float, ...]
    weigh: dict[int, tuple[float, float]]
    parents: dict[int, tuple[int, ...]]
    absent: frozenset[int]
    bits: frozenset[int]
    alone: dict[int, tuple[int, ...]]
    settled: frozenset[int]
    sprigs: dict[int, Sprig] = field(default_factory=dict, compare=False)

    @property
    def fired_bit(self) -> int:
        """A bit that is no finding: it stands for the test assumed present, whichever that is in a context."""
        return len(self.leaks)

    def seen_by(self, hypothesis: int) -> frozenset[int]:
        """Every finding it can make present, and those that only it speaks of."""
        findings = self.hypotheses[hypothesis].findings
        return findings.union(self.alone[hypothesis]) if hypothesis in self.alone else findings


def absorb(network: NoisyOr, asked: Set[int], complaint: Set[int]) -> Absorbed:
    """Cut the network down to what reports and questions touch, and give each report its part."""
    weigh = {f: report_weights(x.report) for f, x in enumerate(network.findings) if x.report is not None}
    wanted, known = weigh.keys() | asked | complaint, dict[int, LiveEffects]()
    hypotheses = tuple(live_hypothesis(h, wanted, known) for h in network.hypotheses)
    parents = _parents(hypotheses)
    absent = frozenset(f for f in weigh if network.findings[f].report is Report.ABSENT)
    settled = frozenset(f for f in weigh.keys() - absent if f not in parents)
    grouped = {f for hypothesis in hypotheses for f in hypothesis.grouped()}
    ties = weigh.keys() - absent - settled
    local = {f: parents[f][0] for f in ties if len(parents[f]) == 1 and f not in grouped and f not in complaint}
    alone: dict[int, tuple[int, ...]] = {}
    for finding, owner in sorted(local.items()):
        alone[owner] = (*alone.get(owner, ()), finding)
    leaks = tuple(finding.leak for finding in network.findings)
    return Absorbed(hypotheses, leaks, weigh, parents, absent, frozenset(ties - local.keys()), alone, settled)


def report_weights(report: Report | Soft | None) -> tuple[float, float]:
    """Likelihood of the report if the finding is absent, and if it is present."""
    match report:
        case Soft():
            return report.absent, report.present
        case Report.PRESENT:
            return 0.0, 1.0
        case Report.ABSENT:
            return 1.0, 0.0
        case None:
            return 1.0, 1.0


def _parents(hypotheses: tuple[LiveHypothesis, ...]) -> dict[int, tuple[int, ...]]:
    found: dict[int, list[int]] = {}
    for index, hypothesis in enumerate(hypotheses):
        for finding in sorted(hypothesis.findings):
            found.setdefault(finding, []).append(index)
    return {finding: tuple(indices) for finding, indices in found.items()}

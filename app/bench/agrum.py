"""pyAgrum used as well as it can be on a network of plain hypotheses with direct leaves and hard reports.

Absent findings are taken into the priors by hand; only positives and the hypotheses that can make them are in its
network; a normal test is soft evidence on the hypotheses that can make it abnormal; barren nodes are left out and only
what is relevant is combined; one thread; the network is built before the clock runs. Two ways of writing a positive:
its own noisy-OR table (`addNoisyORNet` has our meaning), or a chain of small tables by hand, one for each parent.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import ModuleType
from typing import Any

from app.bench.large_networks import parents_of
from app.bench.peers import Untyped
from app.network.noisy_or import NoisyOr, Report

ONLY_RELEVANT, NO_BARREN = 2, 1
"""Its numbers for "only tensors d-connected to what is asked" and "without barren nodes"."""
LARGEST_CLIQUE = 22
"""Variables: a table of 4 million numbers, above which it is not asked."""


@dataclass(frozen=True, slots=True)
class Tested:
    """P(test normal | reports), and per hypothesis in its network P(hypothesis | reports, test normal)."""

    normal: float
    posteriors: Mapping[int, float]


class Agrum:
    """One network, ready to be asked again and again."""

    def __init__(self, gum: ModuleType, network: NoisyOr, *, chains: bool) -> None:
        gum.setNumberOfThreads(1)
        self.gum, self.network, self.parents = gum, network, parents_of(network)
        reports = [finding.report for finding in network.findings]
        self.positives = [f for f, report in enumerate(reports) if report is Report.PRESENT]
        self.priors = [self._prior(h, reports) for h in range(len(network.hypotheses))]
        self.inside = sorted({h for f in self.positives for h in self.parents[f]})
        self.net = gum.BayesNet()
        for h in self.inside:
            self._binary(f"h{h}")
        for f in self.positives:
            (self._chain if chains else self._own_noisy_or)(f)
        for h in self.inside:
            self.net.cpt(f"h{h}").fillWith([1.0 - self.priors[h], self.priors[h]])

    def _prior(self, h: int, reports: list[Any]) -> float:
        off, on = (state.weight for state in self.network.hypotheses[h].states)
        for f, report in enumerate(reports):
            if report is Report.ABSENT:
                on *= 1.0 - self.parents[f].get(h, 0.0)
        return on / (off + on)

    def _binary(self, name: str) -> None:
        self.net.add(self.gum.LabelizedVariable(name, "", 2))

    def _own_noisy_or(self, f: int) -> None:
        self.net.addNoisyORNet(self.gum.LabelizedVariable(f"f{f}", "", 2), self.network.findings[f].leak)
        for h, strength in self.parents[f].items():
            self.net.addWeightedArc(f"h{h}", f"f{f}", strength)

    def _chain(self, f: int) -> None:
        """f0 = leak or first parent fires, f1 = f0 or second parent fires, …; the last is the finding."""
        before, leak = "", self.network.findings[f].leak
        last = len(self.parents[f]) - 1
        for number, (h, strength) in enumerate(self.parents[f].items()):
            name = f"f{f}" if number == last else f"f{f}-{number}"
            self._binary(name)
            self.net.addArc(f"h{h}", name)
            if before:
                self.net.addArc(before, name)
            for on in (0, 1):
                quiet = 1.0 - strength * on
                if before:
                    self.net.cpt(name)[{f"h{h}": on, before: 0}] = [quiet, 1.0 - quiet]
                    self.net.cpt(name)[{f"h{h}": on, before: 1}] = [0.0, 1.0]
                else:
                    self.net.cpt(name)[{f"h{h}": on}] = [(1.0 - leak) * quiet, 1.0 - (1.0 - leak) * quiet]
            before = name

    def clique(self) -> int:
        """The most variables that it has to hold in one table."""
        tree = self.gum.JunctionTreeGenerator().junctionTree(self.net)
        return max((len(tree.clique(node)) for node in tree.nodes()), default=0)

    def posteriors(self) -> dict[int, float]:
        """Of every hypothesis, those that no positive speaks of by hand."""
        asked = self._asked(self.inside, {})
        found = {h: float(asked.posterior(f"h{h}")[1]) for h in self.inside}
        return {h: found.get(h, prior) for h, prior in enumerate(self.priors)}

    def evidence(self) -> float:
        """P(positives | negatives)."""
        return float(self._asked([], {}).evidenceProbability())

    def tested(self, test: int, evidence: float) -> Tested:
        """The test assumed normal; `evidence`: P(positives | negatives), asked once for all tests."""
        tied = [h for h in self.parents[test] if h in set(self.inside)]
        normal = 1.0 - self.network.findings[test].leak
        for h in self.parents[test].keys() - set(tied):
            normal *= 1.0 - self.priors[h] * self.parents[test][h]
        if not tied:
            return Tested(normal, {})
        asked = self._asked(tied, {h: 1.0 - self.parents[test][h] for h in tied})
        chance = float(asked.evidenceProbability()) / evidence
        return Tested(normal * chance, {h: float(asked.posterior(f"h{h}")[1]) for h in tied})

    def _asked(self, targets: Iterable[int], stays: Mapping[int, float]) -> Untyped:
        asked = self.gum.LazyPropagation(self.net)
        asked.setRelevantTensorsFinderType(ONLY_RELEVANT)
        asked.setFindBarrenNodesType(NO_BARREN)
        hard: dict[str, Any] = {f"f{f}": 1 for f in self.positives}
        asked.setEvidence({**hard, **{f"h{h}": [1.0, stay] for h, stay in stays.items()}})
        asked.setTargets({f"h{h}" for h in targets})
        asked.makeInference()
        return asked

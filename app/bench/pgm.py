"""pgmpy's variable elimination on a small network: it has no noisy-OR for inference, so full tables are written out."""

from __future__ import annotations

import warnings
from collections.abc import Mapping
from itertools import product
from math import prod
from types import ModuleType

from app.bench.large_networks import parents_of
from app.bench.peers import Untyped
from app.network.noisy_or import NoisyOr, Report


class Pgm:
    """One network of plain hypotheses, ready to be asked again and again."""

    def __init__(self, pgmpy: ModuleType, network: NoisyOr) -> None:
        parents = parents_of(network)
        shown = [f for f, finding in enumerate(network.findings) if finding.report is not None]
        table = pgmpy.factors.discrete.TabularCPD
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            net = pgmpy.models.DiscreteBayesianNetwork([(f"h{h}", f"f{f}") for f in shown for h in parents[f]])
            net.add_nodes_from([f"h{h}" for h in range(len(network.hypotheses))])
            net.add_nodes_from([f"f{f}" for f in shown])
            for h, hypothesis in enumerate(network.hypotheses):
                net.add_cpds(table(f"h{h}", 2, [[state.weight] for state in hypothesis.states]))
            for f in shown:
                net.add_cpds(_full_table(table, f, network.findings[f].leak, parents[f]))
            self.asked = pgmpy.inference.VariableElimination(net)
        self.evidence = {f"f{f}": int(network.findings[f].report is Report.PRESENT) for f in shown}
        self.hypotheses = range(len(network.hypotheses))

    def posteriors(self) -> dict[int, float]:
        """Of every hypothesis, one query each."""
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return {h: self._posterior(f"h{h}") for h in self.hypotheses}

    def _posterior(self, name: str) -> float:
        return float(self.asked.query([name], evidence=self.evidence, show_progress=False).values[1])


def _full_table(table: Untyped, f: int, leak: float, parents: Mapping[int, float]) -> Untyped:
    settings = product((0, 1), repeat=len(parents))
    absent = [(1.0 - leak) * prod(1.0 - q * on for q, on in zip(parents.values(), s, strict=True)) for s in settings]
    rows = [absent, [1.0 - chance for chance in absent]]
    return table(f"f{f}", 2, rows, evidence=[f"h{h}" for h in parents], evidence_card=[2] * len(parents))

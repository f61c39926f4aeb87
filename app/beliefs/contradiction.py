"""Reports that cannot all be true: which few of them clash."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from app.beliefs.absorb import absorb
from app.beliefs.beliefs import Contradiction
from app.beliefs.plan import Plan
from app.beliefs.solve import solve
from app.network.noisy_or import NoisyOr

NOBODY: frozenset[int] = frozenset()


def contradiction(network: NoisyOr) -> Contradiction:
    """Leave out one report after another; those without which the rest could be true are the ones that clash."""
    clashing: list[int] = []
    for finding, _ in reversed([(f, x) for f, x in enumerate(network.findings) if x.report is not None]):
        without = _without(network, finding)
        if possible(without):
            clashing.append(finding)
        else:
            network = without
    return Contradiction(tuple(sorted(clashing)))


def possible(network: NoisyOr) -> bool:
    """Whether the reports have a chance above zero."""
    solved = solve(Plan(), network, absorb(network, NOBODY, NOBODY), NOBODY)
    return bool(np.isfinite(solved.log_evidence[0]))


def _without(network: NoisyOr, finding: int) -> NoisyOr:
    findings = list(network.findings)
    findings[finding] = replace(findings[finding], report=None)
    documents = tuple(
        replace(document, findings=tuple(f for f in document.findings if f != finding))
        for document in network.documents
    )
    return replace(network, findings=tuple(findings), documents=documents)

"""Reports that cannot all be true: which few of them clash."""

from __future__ import annotations

import numpy as np

from app.beliefs.absorb import absorb
from app.beliefs.beliefs import Contradiction
from app.beliefs.components import trees
from app.beliefs.narrow import leaving_out
from app.beliefs.plan import Plan
from app.beliefs.solve import Layout, solve
from app.network.noisy_or import NoisyOr

NOBODY: frozenset[int] = frozenset()


def contradiction(network: NoisyOr) -> Contradiction:
    """Leave out one report after another; those without which the rest could be true are the ones that clash."""
    clashing: list[int] = []
    for finding, _ in reversed([(f, x) for f, x in enumerate(network.findings) if x.report is not None]):
        rest = leaving_out(network, (finding,))
        if possible(rest):
            clashing.append(finding)
        else:
            network = rest
    return Contradiction(tuple(sorted(clashing)))


def possible(network: NoisyOr) -> bool:
    """Whether the reports have a chance above zero."""
    absorbed = absorb(network, NOBODY, NOBODY)
    solved = solve(Layout(Plan(), network, absorbed, trees(absorbed)), NOBODY)
    return bool(np.isfinite(solved.log_evidence[0]))

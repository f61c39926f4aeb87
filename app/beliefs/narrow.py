"""The last resort: where even the posteriors would not fit, reports are set aside one by one, and that is said."""

from __future__ import annotations

from dataclasses import replace

from app.beliefs.absorb import Absorbed, absorb
from app.beliefs.components import trees
from app.network.noisy_or import NoisyOr

MOST_WORK = 5e7
"""Products for one context: about a tenth of a second."""
MOST_ENTRIES = 1 << 23
"""Numbers held for one context: 64 MB."""


def narrowed(network: NoisyOr, asked: frozenset[int], complaint: frozenset[int]) -> tuple[NoisyOr, Absorbed, int]:
    """The network with as few reports set aside as it takes, absorbed, and how many those were."""
    absorbed = absorb(network, asked, complaint)
    count = 0
    while too_much(absorbed) > 1.0:
        candidates = sorted(absorbed.bits - complaint) or sorted(absorbed.bits)
        finding = min(candidates, key=lambda f: too_much(absorb(without(network, f), asked, complaint)))
        network = without(network, finding)
        absorbed = absorb(network, asked, complaint)
        count += 1
    return network, absorbed, count


def too_much(absorbed: Absorbed) -> float:
    """The work and the room of one context, against the most there may be of each."""
    parts = trees(absorbed)
    return max(sum(tree.work for tree in parts) / MOST_WORK, sum(tree.entries for tree in parts) / MOST_ENTRIES)


def without(network: NoisyOr, finding: int) -> NoisyOr:
    """The network as if nothing had been reported on the finding."""
    findings = list(network.findings)
    findings[finding] = replace(findings[finding], report=None)
    documents = tuple(
        replace(document, findings=tuple(f for f in document.findings if f != finding))
        for document in network.documents
    )
    return replace(network, findings=tuple(findings), documents=documents)


def in_words(count: int) -> str | None:
    """How many reports were set aside, in one sentence; None: none."""
    if count == 0:
        return None
    reports = "1 report was" if count == 1 else f"{count} reports were"
    return f"{reports} set aside, because too many findings hang together to be worked out at once."

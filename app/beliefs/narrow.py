"""The last resort: where even the posteriors would not fit, reports are set aside one by one, and that is said."""

from __future__ import annotations

from dataclasses import replace

from app.beliefs.absorb import Absorbed, absorb
from app.beliefs.components import bits_of, components
from app.beliefs.order import frontier, greedy_order
from app.network.noisy_or import NoisyOr

MOST_ENTRIES = 1 << 23
"""Vector entries kept in one pass: 64 MB."""


def narrowed(network: NoisyOr, asked: frozenset[int], complaint: frozenset[int]) -> tuple[NoisyOr, Absorbed, int]:
    """The network with as few reports set aside as it takes, absorbed, and how many those were."""
    absorbed = absorb(network, asked, complaint)
    count = 0
    while entries(absorbed) > MOST_ENTRIES:
        candidates = sorted(absorbed.bits - complaint) or sorted(absorbed.bits)
        finding = min(candidates, key=lambda f: entries(absorb(without(network, f), asked, complaint)))
        network = without(network, finding)
        absorbed = absorb(network, asked, complaint)
        count += 1
    return network, absorbed, count


def entries(absorbed: Absorbed) -> int:
    """Vector entries over all steps of a pass, in the greedy order."""
    total = 0
    for part in components(absorbed):
        bits = bits_of(absorbed, part)
        total += sum(1 << step.width for step in frontier(greedy_order(part, bits), bits))
    return total


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

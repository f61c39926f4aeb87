"""The last resort: where even what is never left out would not fit, reports are set aside, and that is said."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace

from app.beliefs.absorb import Absorbed
from app.network.noisy_or import NoisyOr

MOST_WORK = 5e7
"""Products for one context."""
MOST_ENTRIES = 1 << 23
"""Numbers held for one context: 64 MB."""

Scopes = Mapping[int, int]
"""Sets of bits that hypotheses can explain, as masks, each with how many hypotheses that are."""


def to_set_aside(absorbed: Absorbed, complaint: frozenset[int], most: float) -> frozenset[int]:
    """As few reports as it takes for one context to need at most so many products; of the complaint's own the last."""
    bits = sorted(absorbed.bits)
    left = {bit: 1 << at for at, bit in enumerate(bits)}
    scopes = _scopes(absorbed, left)
    aside: set[int] = set()
    while left and _too_much(scopes, most) > 1.0:
        candidates = sorted(left.keys() - complaint) or sorted(left)
        finding = min(candidates, key=lambda bit: _too_much(_without(scopes, left[bit]), most))
        scopes = _without(scopes, left.pop(finding))
        aside.add(finding)
    return frozenset(aside)


def effort(absorbed: Absorbed) -> float:
    """Products for one context."""
    return _effort(_scopes(absorbed, {bit: 1 << at for at, bit in enumerate(sorted(absorbed.bits))}))[0]


def _too_much(scopes: Scopes, most: float) -> float:
    """The work and the room of one context, against the most there may be of each."""
    work, entries = _effort(scopes)
    return max(work / min(most, MOST_WORK), entries / MOST_ENTRIES)


def _scopes(absorbed: Absorbed, masks: Mapping[int, int]) -> Scopes:
    return Counter(sum(masks[f] for f in h.findings & masks.keys()) for h in absorbed.hypotheses)


def _without(scopes: Scopes, mask: int) -> Scopes:
    found: Counter[int] = Counter()
    for scope, count in scopes.items():
        found[scope & ~mask] += count
    return found


def _effort(scopes: Scopes) -> tuple[float, float]:
    """Products, and numbers held, when hypotheses are put together as trees are grown (`tree.py`)."""
    work = sum(float((count - 1) * 3 ** scope.bit_count()) for scope, count in scopes.items())
    entries = sum(float(2 * count << scope.bit_count()) for scope, count in scopes.items())
    loose = _closed(list(scopes))
    while tied_by := [bit for bit in range(max(loose, default=0).bit_length()) if any(m >> bit & 1 for m in loose)]:
        groups = ([mask for mask in loose if mask >> bit & 1] for bit in tied_by)
        tied = min(groups, key=lambda masks: (_all_of(masks).bit_count(), len(masks)))
        loose = [mask for mask in loose if mask not in tied]
        tied.sort(key=int.bit_count, reverse=True)
        while len(tied) > 1:
            one, other = tied.pop(), tied.pop()
            work += float(3 ** (one & other).bit_count() << (one ^ other).bit_count())
            entries += float(2 << (one | other).bit_count())
            tied.append(one | other)
        loose = _closed([*loose, *tied])
    return work + entries, entries


def _closed(masks: Iterable[int]) -> list[int]:
    """Without the bits that only one of them has."""
    masks = list(masks)
    seen = shared = 0
    for mask in masks:
        shared |= seen & mask
        seen |= mask
    return [mask & shared for mask in masks if mask & shared]


def _all_of(masks: Iterable[int]) -> int:
    every = 0
    for mask in masks:
        every |= mask
    return every


def leaving_out(network: NoisyOr, unreported: Iterable[int]) -> NoisyOr:
    """The network as if nothing had been reported on these findings."""
    gone = frozenset(unreported)
    if not gone:
        return network
    findings = tuple(replace(x, report=None) if f in gone else x for f, x in enumerate(network.findings))
    documents = tuple(
        replace(document, findings=tuple(f for f in document.findings if f not in gone))
        for document in network.documents
    )
    return replace(network, findings=findings, documents=documents)

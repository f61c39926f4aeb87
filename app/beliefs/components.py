"""Hypotheses that share no bit are independent given the evidence: the network falls into parts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from app.beliefs.absorb import Absorbed
from app.beliefs.tree import Tree, grow


def components(absorbed: Absorbed) -> list[tuple[int, ...]]:
    """Hypotheses tied through shared bits, the largest part first; all that stand alone are one last part."""
    above = list(range(len(absorbed.hypotheses)))
    for finding in sorted(absorbed.bits):
        parents = absorbed.parents[finding]
        for other in parents[1:]:
            above[_top(above, other)] = _top(above, parents[0])
    parts: dict[int, list[int]] = {}
    for index in range(len(above)):
        parts.setdefault(_top(above, index), []).append(index)
    tied = sorted((tuple(part) for part in parts.values() if len(part) > 1), key=len, reverse=True)
    alone = tuple(part[0] for part in parts.values() if len(part) == 1)
    return [*tied, alone] if alone else tied


def bits_of(absorbed: Absorbed, hypotheses: Sequence[int]) -> dict[int, frozenset[int]]:
    """Per hypothesis the bits it can fire on."""
    return {h: frozenset(absorbed.hypotheses[h].findings & absorbed.bits) for h in hypotheses}


def trees(absorbed: Absorbed, company: Iterable[frozenset[int]] = ()) -> list[Tree]:
    """The tree of each part; `company`: sets of hypotheses that are asked about together."""
    together = list(company)
    return [grow(bits_of(absorbed, part), together) for part in components(absorbed)]


def _top(above: list[int], index: int) -> int:
    while above[index] != index:
        above[index] = above[above[index]]
        index = above[index]
    return index

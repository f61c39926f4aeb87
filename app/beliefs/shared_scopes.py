"""Hypotheses over few bits kept over a few more, as far as that is cheap: fewer, longer arrays are worked on faster."""

from __future__ import annotations

from collections.abc import Collection, Mapping

A_SHELF = 1 << 13
"""So many products take as long as a shelf of its own does in small arrays (both measured on real boards)."""
A_PART = 1 << 17
"""And so many as all the shelves of a part."""

Scope = frozenset[int]


def widened(bits: Mapping[int, Scope]) -> dict[int, Scope]:
    """The bits over which each hypothesis is kept, given those it can explain: they, or more.

    All are kept over all bits where that is cheap; else hypotheses alike move to the smallest larger set that others
    are kept over. So no set comes up that would tie together more than is tied already.
    """
    every: Scope = frozenset[int]().union(*bits.values())
    if len(bits) * 3 ** len(every) <= A_PART:
        return dict.fromkeys(bits, every)
    alike: dict[Scope, list[int]] = {}
    for hypothesis, own in bits.items():
        alike.setdefault(own, []).append(hypothesis)
    for scope in sorted(alike, key=_by_size):
        wider = _next_wider(scope, alike)
        if wider is not None and len(alike[scope]) * (3 ** len(wider) - 3 ** len(scope)) <= A_SHELF:
            alike[wider].extend(alike.pop(scope))
    return {hypothesis: scope for scope, hypotheses in alike.items() for hypothesis in hypotheses}


def _next_wider(scope: Scope, scopes: Collection[Scope]) -> Scope | None:
    return min((other for other in scopes if scope < other), key=_by_size, default=None)


def _by_size(scope: Scope) -> tuple[int, list[int]]:
    return len(scope), sorted(scope)

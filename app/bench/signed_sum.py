"""Exact posteriors and ratios by the signed sum over subsets of the positive findings, with many digits.

Heckerman's Quickscore (1989): P(positives, negatives) = sum over S of (-1)^|S| P(S and the negatives all absent), where
the hypotheses fall apart. In float64 it cancels (ENGINE.md); here it is summed with so many decimal digits that what
cancels does not matter. It shares nothing with the engine but the types, neither its order nor its passes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from app.bench.large_networks import parents_of
from app.network.noisy_or import NoisyOr, Report

DIGITS = 60
"""Enough for a chance of the reports above 1e-40; say more for rarer ones."""

Many = NDArray[np.object_]
"""One Decimal for each subset of the positives."""


@dataclass(frozen=True, slots=True)
class Joint:
    """Chances, given the reports, of a test (absent, present) and a hypothesis (off, on), and the ratios they give."""

    off_absent: Decimal
    off_present: Decimal
    on_absent: Decimal
    on_present: Decimal

    @property
    def lr_plus(self) -> float:
        on, off = self.on_absent + self.on_present, self.off_absent + self.off_present
        return float((self.on_present / on) / (self.off_present / off))

    @property
    def lr_minus(self) -> float:
        on, off = self.on_absent + self.on_present, self.off_absent + self.off_present
        return float((self.on_absent / on) / (self.off_absent / off))


class SignedSum:
    """A network of plain hypotheses with direct leaves and hard reports. Ask it within `localcontext(prec=DIGITS)`."""

    def __init__(self, network: NoisyOr) -> None:
        self.network = network
        self.parents = parents_of(network)
        reports = [finding.report for finding in network.findings]
        self.positives = [f for f, report in enumerate(reports) if report is Report.PRESENT]
        self.negatives = [f for f, report in enumerate(reports) if report is Report.ABSENT]
        self.odds = [self._odds(h) for h in range(len(network.hypotheses))]

    def _odds(self, h: int) -> tuple[Decimal, Decimal]:
        """Weights of off and on with the absent findings taken in."""
        off, on = (Decimal(state.weight) for state in self.network.hypotheses[h].states)
        for f in self.negatives:
            on *= self._stays(f, h)
        return off, on

    def _stays(self, f: int, h: int) -> Decimal:
        return 1 - Decimal(self.parents[f].get(h, 0.0))

    def _on(self, h: int) -> Many:
        """Per subset: the weight of on, with all of the subset staying absent."""
        found: Many = np.array([self.odds[h][1]], dtype=object)
        for f in self.positives:
            found = np.concatenate([found, found * self._stays(f, h) if h in self.parents[f] else found])
        return found

    @cached_property
    def _tied(self) -> Mapping[int, Many]:
        """Of each hypothesis that a positive speaks of: `_on`."""
        return {h: self._on(h) for h in sorted({h for f in self.positives for h in self.parents[f]})}

    @cached_property
    def _terms(self) -> Many:
        """The signed terms; hypotheses that no positive speaks of are left out (they multiply everything alike)."""
        terms: Many = np.array([Decimal(1)], dtype=object)
        for f in self.positives:
            terms = np.concatenate([terms, terms * (Decimal(self.network.findings[f].leak) - 1)])
        for h, on in self._tied.items():
            terms = terms * (on + self.odds[h][0])
        return terms

    @cached_property
    def _whole(self) -> Decimal:
        return Decimal(self._terms.sum())

    def evidence(self) -> Decimal:
        """P(all reports)."""
        total = self._whole
        for f in self.negatives:
            total *= 1 - Decimal(self.network.findings[f].leak)
        for h, (off, on) in enumerate(self.odds):
            total *= 1 if h in self._tied else off + on
        return total

    def posterior(self, h: int) -> float:
        """P(hypothesis | reports)."""
        return float(self._share(h).sum() / self._whole)

    def _share(self, h: int) -> Many:
        """The terms with the hypothesis on."""
        off, on = self.odds[h]
        if h not in self._tied:
            alone: Many = self._terms * (on / (off + on))
            return alone
        shared: Many = self._terms * self._tied[h] / (self._tied[h] + off)
        return shared

    def joints(self, test: int) -> Iterator[tuple[int, Joint]]:
        """Of every hypothesis that can make the test present."""
        quiet = self._quiet(test)
        calm = self._terms * quiet
        silent = Decimal(calm.sum())
        for h in self.parents[test]:
            on = Decimal(self._share(h).sum())
            on_absent = Decimal(self._quiet_on(h, test, calm).sum())
            off_absent = silent - on_absent
            masses = (off_absent, self._whole - on - off_absent, on_absent, on - on_absent)
            yield h, Joint(*(mass / self._whole for mass in masses))

    def _quiet(self, test: int) -> Many:
        """Per subset: P(the test absent), each parent as likely as the subset leaves it."""
        quiet: Many = np.full(1 << len(self.positives), 1 - Decimal(self.network.findings[test].leak), dtype=object)
        for h in self.parents[test]:
            off, on = self.odds[h][0], self._tied.get(h, self.odds[h][1])
            quiet = quiet * ((off + on * self._stays(test, h)) / (off + on))
        return quiet

    def _quiet_on(self, h: int, test: int, calm: Many) -> Many:
        off, on = self.odds[h][0], self._tied.get(h, self.odds[h][1])
        kept = on * self._stays(test, h)
        found: Many = calm * (kept / (off + kept))
        return found

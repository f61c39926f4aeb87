"""Answers by visiting every combination of states and switches; shares nothing with the engine but the types.

Every number is a sum of products of non-negative numbers, with "present" carried beside "absent", so the answers keep
their digits. All combinations lie in one array, so the networks must be small.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from app.network.noisy_or import Effect, Group, Leaf, NoisyOr, Report, Soft

Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]
NOBODY: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Branch:
    """One state with one setting of its switches: chance, live leaves as (finding, strength), events turned on."""

    state: int
    chance: float
    leaves: tuple[tuple[int, float], ...]
    turned: frozenset[int]


Setting = tuple[float, tuple[tuple[int, float], ...], frozenset[int]]


def settings(effects: Sequence[Effect]) -> Iterator[Setting]:
    """Each setting of the switches: its chance, the leaves live then, the events turned on."""
    options: list[list[Setting]] = []
    for effect in effects:
        match effect:
            case Leaf(finding, strength):
                options.append([(1.0, ((finding, strength),), NOBODY)])
            case Group(acts, inside, turns_on):
                live = [(acts * c, leaves, on | frozenset(turns_on)) for c, leaves, on in settings(inside)]
                options.append([*live, (1.0 - acts, (), NOBODY)])
    for picked in product(*options):
        chance: float = 1.0
        leaves: tuple[tuple[int, float], ...] = ()
        turned: frozenset[int] = NOBODY
        for c, some, on in picked:
            chance, leaves, turned = chance * c, leaves + some, turned | on
        yield chance, leaves, turned


class Visited:
    """All combinations of a network, each asked how likely it makes what is reported."""

    def __init__(self, network: NoisyOr) -> None:
        self.network = network
        self.branches = [
            [
                Branch(s, state.weight * chance, leaves, turned)
                for s, state in enumerate(hypothesis.states)
                for chance, leaves, turned in settings(state.effects)
                if state.weight * chance > 0.0
            ]
            for hypothesis in network.hypotheses
        ]
        counts = [len(branches) for branches in self.branches]
        self.picked = np.indices(counts).reshape(len(counts), -1)
        self.chances: Numbers = np.ones(self.picked.shape[1])
        for h, branches in enumerate(self.branches):
            self.chances = self.chances * np.array([branch.chance for branch in branches])[self.picked[h]]
        self.quiet, self.fired = self.silence()
        self._weights: dict[tuple[frozenset[int], int | None], Numbers] = {}

    def silence(self, without: Iterable[int] = (), only: Iterable[int] | None = None) -> tuple[Numbers, Numbers]:
        """(findings, combinations): P(absent) and P(present), not counting the leaves of `without`.

        `only`: counting the leaves of these alone, and no leak.
        """
        leaks = np.array([finding.leak if only is None else 0.0 for finding in self.network.findings])
        fired = np.repeat(leaks[:, None], len(self.chances), axis=1)
        quiet = 1.0 - fired
        counted = set(range(len(self.branches)) if only is None else only) - set(without)
        for h in sorted(counted):
            fires, stays = self._of_branches(h)
            for f in np.flatnonzero(fires.any(axis=1)):
                here = self.picked[h]
                fired[f] = fired[f] + quiet[f] * fires[f][here]
                quiet[f] = quiet[f] * stays[f][here]
        return quiet, fired

    def _of_branches(self, h: int) -> tuple[Numbers, Numbers]:
        """(findings, branches): P(the live leaves of each branch fire on a finding), and that they do not."""
        fires = np.zeros((len(self.network.findings), len(self.branches[h])))
        stays = np.ones_like(fires)
        for b, branch in enumerate(self.branches[h]):
            for f, strength in branch.leaves:
                fires[f, b] += stays[f, b] * strength
                stays[f, b] *= 1.0 - strength
        return fires, stays

    def says(self, finding: int) -> Numbers:
        """(combinations,): how likely each makes the report on the finding."""
        match self.network.findings[finding].report:
            case Report.PRESENT:
                said: Numbers = self.fired[finding]
            case Report.ABSENT:
                said = self.quiet[finding]
            case Soft(present, absent):
                said = present * self.fired[finding] + absent * self.quiet[finding]
            case None:
                said = np.ones_like(self.chances)
        return said

    def weight(self, removed: frozenset[int] = NOBODY, only_true: int | None = None) -> Numbers:
        """P(combination and the reports outside `removed`); with a document's index, jointly with its being true."""
        key = (removed, only_true)
        if key not in self._weights:
            self._weights[key] = self._weight(removed, only_true)
        return self._weights[key]

    def _weight(self, removed: frozenset[int], only_true: int | None) -> Numbers:
        total = self.chances.copy()
        on_paper = {f for document in self.network.documents for f in document.findings}
        for finding in range(len(self.network.findings)):
            if finding not in on_paper and finding not in removed:
                total *= self.says(finding)
        for d, document in enumerate(self.network.documents):
            true = np.full_like(total, document.reliability)
            made_up = 1.0 - document.reliability
            for finding in set(document.findings) - removed:
                true *= self.says(finding)
                normal = self.network.findings[finding].report is Report.ABSENT
                made_up *= document.normal_if_invented if normal else 1.0 - document.normal_if_invented
            total *= true if d == only_true else true + made_up
        return total

    def holds(self, event: int) -> Flags:
        """(combinations,): whether the event holds in each."""
        listed = self.network.events[event].any_of
        found = np.zeros(len(self.chances), dtype=np.bool_)
        for h, branches in enumerate(self.branches):
            on = [(h, branch.state) in listed or event in branch.turned for branch in branches]
            found |= np.array(on, dtype=np.bool_)[self.picked[h]]
        return found

    def in_state(self, h: int, state: int) -> Flags:
        """(combinations,): whether the hypothesis is in this state in each."""
        inside: Flags = np.array([branch.state == state for branch in self.branches[h]])[self.picked[h]]
        return inside

    def chance(
        self,
        removed: frozenset[int] = NOBODY,
        *,
        event: int | None = None,
        not_event: int | None = None,
        state: tuple[int, int] | None = None,
        test: int | None = None,
        present: bool = False,
        true: int | None = None,
    ) -> float:
        """Unnormalised chance of the reports outside `removed` together with whatever else is named."""
        weight = self.weight(removed, true)
        if event is not None:
            weight = weight * self.holds(event)
        if not_event is not None:
            weight = weight * ~self.holds(not_event)
        if state is not None:
            weight = weight * self.in_state(*state)
        if test is not None:
            weight = weight * (self.fired if present else self.quiet)[test]
        return float(weight.sum())

    def nobody_fires(self, blamed: frozenset[int], complaint: Sequence[int]) -> float:
        """Chance of the reports with no live leaf of the blamed firing on the complaint (which stands on no paper)."""
        weight = self.weight(frozenset(complaint)).copy()
        silent, _ = self.silence(only=blamed)
        _, others = self.silence(without=blamed)
        for finding in complaint:
            weight *= silent[finding] * others[finding]
        return float(weight.sum())

    def bits(self, test: int, parents: Sequence[int], quiet: Sequence[int] = ()) -> tuple[float, float]:
        """I(test; states of these hypotheses | reports and the findings in `quiet` absent), and P(test absent)."""
        weight = self.weight().copy()
        for finding in quiet:
            weight *= self.quiet[finding]
        table: dict[tuple[int, ...], Numbers] = {}
        chances = np.stack([weight * self.quiet[test], weight * self.fired[test]], axis=1) / weight.sum()
        states = [np.array([branch.state for branch in self.branches[h]])[self.picked[h]] for h in parents]
        keys = np.stack(states, axis=1) if states else np.zeros((len(weight), 0), dtype=np.int64)
        for key in np.unique(keys, axis=0):
            table[tuple(key)] = chances[(keys == key).all(axis=1)].sum(axis=0)
        sides: Numbers = chances.sum(axis=0)
        bits = sum(
            float(joint * np.log2(joint / (row.sum() * side)))
            for row in table.values()
            for joint, side in zip(row, sides, strict=True)
            if joint > 0.0
        )
        return bits, float(sides[0])

"""Answers by visiting every combination of states and switches; shares nothing with the engine but the types."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from math import log2

from app.network.noisy_or import Effect, Group, Leaf, NoisyOr, Report, Soft


@dataclass(frozen=True)
class Branch:
    """One state with one setting of its switches: chance, live leaves as (finding, strength), events turned on."""

    state: int
    chance: float
    leaves: tuple[tuple[int, float], ...]
    turned: frozenset[int]


@dataclass(frozen=True)
class Combination:
    """One branch of every hypothesis."""

    branches: tuple[Branch, ...]
    chance: float


def settings(effects: tuple[Effect, ...]) -> Iterator[tuple[float, tuple, frozenset]]:
    options = []
    for effect in effects:
        match effect:
            case Leaf(finding, strength):
                options.append([(1.0, ((finding, strength),), frozenset())])
            case Group(acts, inside, turns_on):
                live = [(acts * c, leaves, on | frozenset(turns_on)) for c, leaves, on in settings(inside)]
                options.append([*live, (1.0 - acts, (), frozenset())])
    for picked in product(*options):
        chance, leaves, turned = 1.0, (), frozenset()
        for c, some, on in picked:
            chance, leaves, turned = chance * c, leaves + some, turned | on
        yield chance, leaves, turned


class Visited:
    """All combinations of a network, each asked how likely it makes what is reported."""

    def __init__(self, network: NoisyOr) -> None:
        self.network = network
        branches = [
            [
                Branch(s, state.weight * chance, leaves, turned)
                for s, state in enumerate(hypothesis.states)
                for chance, leaves, turned in settings(state.effects)
                if state.weight * chance > 0.0
            ]
            for hypothesis in network.hypotheses
        ]
        self.combinations = []
        for picked in product(*branches):
            chance = 1.0
            for branch in picked:
                chance *= branch.chance
            self.combinations.append(Combination(picked, chance))

    def absent(self, combination: Combination, finding: int, without=frozenset()) -> float:
        """P(absent), not counting the leaves of the hypotheses in `without`."""
        chance = 1.0 - self.network.findings[finding].leak
        for h, branch in enumerate(combination.branches):
            if h not in without:
                for at, strength in branch.leaves:
                    if at == finding:
                        chance *= 1.0 - strength
        return chance

    def says(self, combination: Combination, finding: int) -> float:
        absent = self.absent(combination, finding)
        match self.network.findings[finding].report:
            case Report.PRESENT:
                return 1.0 - absent
            case Report.ABSENT:
                return absent
            case Soft(present, if_absent):
                return present * (1.0 - absent) + if_absent * absent
        return 1.0

    def weight(self, combination: Combination, removed=frozenset(), only_true: int | None = None) -> float:
        """P(combination and the reports outside `removed`); with a document's index, jointly with its being true."""
        total = combination.chance
        on_paper = {f for document in self.network.documents for f in document.findings}
        for finding in range(len(self.network.findings)):
            if finding not in on_paper and finding not in removed:
                total *= self.says(combination, finding)
        for d, document in enumerate(self.network.documents):
            true, made_up = document.reliability, 1.0 - document.reliability
            for finding in document.findings:
                if finding not in removed:
                    true *= self.says(combination, finding)
                    normal = self.network.findings[finding].report is Report.ABSENT
                    made_up *= document.normal_if_invented if normal else 1.0 - document.normal_if_invented
            total *= true if d == only_true else true + made_up
        return total

    def holds(self, combination: Combination, event: int) -> bool:
        listed = self.network.events[event].any_of
        return any(
            (h, branch.state) in listed or event in branch.turned for h, branch in enumerate(combination.branches)
        )

    def chance(self, removed=frozenset(), event=None, state=None, test=None, present=False, true=None) -> float:
        """Unnormalised chance of the reports outside `removed` together with whatever else is named."""
        total = 0.0
        for combination in self.combinations:
            if event is not None and not self.holds(combination, event):
                continue
            if state is not None and combination.branches[state[0]].state != state[1]:
                continue
            weight = self.weight(combination, removed, true)
            if test is not None:
                absent = self.absent(combination, test)
                weight *= 1.0 - absent if present else absent
            total += weight
        return total

    def nobody_fires(self, blamed: frozenset[int], complaint: tuple[int, ...]) -> float:
        """Chance of the reports with no live leaf of the blamed firing on the complaint (which stands on no paper)."""
        total = 0.0
        for combination in self.combinations:
            weight = self.weight(combination, frozenset(complaint))
            for finding in complaint:
                for h in blamed:
                    for at, strength in combination.branches[h].leaves:
                        weight *= 1.0 - strength if at == finding else 1.0
                weight *= 1.0 - self.absent(combination, finding, blamed)
            total += weight
        return total

    def bits(self, test: int, parents: list[int], quiet: tuple[int, ...] = ()) -> tuple[float, float]:
        """I(test; states of these hypotheses | reports and the findings in `quiet` absent), and P(test absent)."""
        table: dict[tuple[int, ...], list[float]] = {}
        for combination in self.combinations:
            weight = self.weight(combination)
            for finding in quiet:
                weight *= self.absent(combination, finding)
            absent = self.absent(combination, test)
            row = table.setdefault(tuple(combination.branches[h].state for h in parents), [0.0, 0.0])
            row[0] += weight * absent
            row[1] += weight * (1.0 - absent)
        whole = sum(map(sum, table.values()))
        sides = [sum(row[k] for row in table.values()) / whole for k in (0, 1)]
        bits = 0.0
        for row in table.values():
            for k in (0, 1):
                if row[k] > 0.0:
                    joint = row[k] / whole
                    bits += joint * log2(joint / (sum(row) / whole * sides[k]))
        return bits, sides[0]

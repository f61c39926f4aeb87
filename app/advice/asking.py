"""The network of a case, asked what would keep the complaint: which groups of faults fire on it, whatever a test shows.

A leaf on the complaint becomes a switch that turns events on: event A holds when something outside the set A of
faults, still there now, fires on the complaint. Off, it is P(the complaint is gone once A is put right), exactly, and
joined with the outcome of a test without asking again. Readings taken one after another until the first abnormal one
become one finding for each beginning of the row: absent when all of it is normal.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from app.advice.table import Numbers
from app.beliefs.beliefs import Beliefs, Contradiction
from app.beliefs.infer import infer
from app.network.noisy_or import Effect, Event, Finding, Group, Hypothesis, Leaf, NoisyOr, Questions, State

Faults = frozenset[int]
"""Numbers of faults: groups of hypotheses that the same repairs put right."""


@dataclass(frozen=True, slots=True)
class Complaint:
    """What fires on the complaint, and what it then takes to be rid of it.

    `findings`: those that stand for the complaint. `fault_of`: hypothesis -> its fault (missing: no repair puts it
    right). `there`: hypothesis -> its states in which it is there now (missing: all). `victims`: event that a damage
    turns on -> the hypotheses of its row; what all rows of one damage have in common is the part destroyed.
    `together`: faults of which one can destroy the part of the other.
    """

    network: NoisyOr
    findings: frozenset[int]
    fault_of: Mapping[int, int]
    there: Mapping[int, frozenset[int]]
    victims: Mapping[int, frozenset[int]]
    together: frozenset[Faults] = frozenset()


Rows = Sequence[Sequence[int]]
"""Tests to come: each a row of findings read one after another."""


def gone(complaint: Complaint, sets: Sequence[Faults], rows: Rows = ()) -> tuple[Numbers, list[Numbers | None]] | None:
    """P(the complaint is gone once the set is put right), (sets,); and for each row the same together with its outcome.

    The outcomes of a row: all normal, then the first abnormal one at each of its findings, (outcomes, sets); with an
    empty last column for P(the outcome); None for a row that would have taken too long. None at all: the reports cannot
    all be true, or the question was too large.
    """
    asked = _Asked(complaint, sets, rows)
    beliefs = infer(asked.network, asked.questions)
    if isinstance(beliefs, Contradiction) or beliefs.set_aside:
        return None
    now = np.array([beliefs.events[number].no for number in range(len(sets))])
    return now, [_outcomes(beliefs, row, len(sets)) for row in asked.beginnings]


def _outcomes(beliefs: Beliefs, row: Sequence[int], sets: int) -> Numbers | None:
    """All normal; then normal up to the one before less normal up to this one. None where one was left out."""
    if any(finding not in beliefs.tests for finding in row):
        return None
    normal = [[beliefs.events[n].no for n in range(sets)] + [1.0]]
    for finding in row:
        normal.append(
            [beliefs.masses[finding, n].off_absent for n in range(sets)] + [beliefs.tests[finding].no],
        )
    chances = np.array(normal)
    first_abnormal = np.maximum(chances[:-1] - chances[1:], 0.0)
    joint: Numbers = np.vstack([chances[-1:], first_abnormal])
    return joint


class _Asked:
    """The network rewritten, and the questions put to it. `beginnings`: per row its findings in the new network."""

    def __init__(self, complaint: Complaint, sets: Sequence[Faults], rows: Rows) -> None:
        self._complaint, self._sets = complaint, sets
        old = complaint.network
        kept = [n for n, finding in enumerate(old.findings) if finding.report is not None]
        self._places: dict[int, list[int]] = {n: [place] for place, n in enumerate(kept)}
        findings = [old.findings[n] for n in kept]
        self.beginnings = [self._beginnings(row, findings) for row in rows]
        self.network = NoisyOr(
            findings=tuple(findings),
            hypotheses=tuple(self._hypothesis(n, h) for n, h in enumerate(old.hypotheses)),
            documents=tuple(replace(d, findings=tuple(self._places[f][0] for f in d.findings)) for d in old.documents),
            events=tuple(Event(()) for _ in sets),
        )
        tests = tuple(sorted({finding for row in self.beginnings for finding in row}))
        everything = tuple(range(len(sets)))
        self.questions = Questions(tests=tests, relevant=dict.fromkeys(tests, everything))

    def _beginnings(self, row: Sequence[int], findings: list[Finding]) -> list[int]:
        """One finding for each beginning of the row; what shows to a reading shows to every beginning that holds it."""
        normal, numbers = 1.0, []
        for at, finding in enumerate(row):
            normal *= 1.0 - self._complaint.network.findings[finding].leak
            findings.append(Finding(1.0 - normal))
            numbers.append(len(findings) - 1)
            for earlier in row[: at + 1]:
                self._places.setdefault(earlier, []).append(numbers[-1])
        return numbers

    def _hypothesis(self, number: int, hypothesis: Hypothesis) -> Hypothesis:
        there = self._complaint.there.get(number)
        states = (
            State(state.weight, self._effects(state.effects, (number,) if there is None or n in there else None))
            for n, state in enumerate(hypothesis.states)
        )
        return Hypothesis(tuple(states))

    def _effects(self, effects: Iterable[Effect], keeps: Collection[int] | None) -> tuple[Effect, ...]:
        """`keeps`: what has to be put right for it; None: it is no longer there, and keeps nothing up."""
        return tuple(new for effect in effects for new in self._effect(effect, keeps))

    def _effect(self, effect: Effect, keeps: Collection[int] | None) -> Iterable[Effect]:
        if isinstance(effect, Group):
            inside = self._effects(effect.effects, self._with_victims(effect, keeps))
            if inside:
                yield Group(effect.acts, inside)
            return
        for place in self._places.get(effect.finding, ()):
            leaf = Leaf(place, effect.strength)
            yield self._switch(leaf, keeps) if effect.finding in self._complaint.findings else leaf

    def _with_victims(self, group: Group, keeps: Collection[int] | None) -> Collection[int] | None:
        """Inside a damage the destroyed part has to be renewed as well; it stays destroyed when its culprit is gone."""
        rows = [self._complaint.victims[event] for event in group.turns_on if event in self._complaint.victims]
        return (*(keeps or ()), *frozenset.intersection(*rows)) if rows else keeps

    def _switch(self, leaf: Leaf, keeps: Collection[int] | None) -> Effect:
        """The leaf as a switch that turns on every event whose set does not put all of this right."""
        if keeps is None:
            return leaf
        faults = {self._complaint.fault_of.get(number) for number in keeps}
        on = tuple(number for number, put_right in enumerate(self._sets) if not faults <= put_right)
        return Group(leaf.strength, (Leaf(leaf.finding, 1.0),), turns_on=on)

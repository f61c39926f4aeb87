"""Effects on two vectors at once: where the trigger is still off, and where it is on."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass

import numpy as np

from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Indices
from app.beliefs.effects import Effects, Switch, explained, fire_bit, fire_probe, multiplied, spread, thrown

Sides = tuple[Numbers, Numbers | None]
"""Off, and on; None: nowhere on."""


@dataclass(frozen=True, slots=True)
class Splitter:
    """Which vector columns belong to which event (-1: none), and which of them blame leaves on the complaint."""

    position: Mapping[int, int]
    source: Indices
    events: Indices
    blames: Numbers
    complaint: Set[int]
    asked: Set[int]

    def concerns(self, switch: Switch) -> bool:
        """Whether something in there can turn one of the triggers on."""
        return not (self.asked.isdisjoint(switch.events) and self.complaint.isdisjoint(switch.reaches))


def splitter(
    position: Mapping[int, int], source: Indices, events: Indices, blames: Numbers, complaint: Set[int]
) -> Splitter:
    """The complaint counts only if a column blames."""
    counts = complaint if blames.any() else frozenset()
    return Splitter(position, source, events, blames, counts, frozenset(events.tolist()) - {-1})


def concerned(effects: Effects, by: Splitter) -> bool:
    """Whether anything here can turn one of the triggers on."""
    bits = any(finding in by.complaint for finding, _, _ in effects.bits)
    return bits or any(by.concerns(switch) for switch in effects.switches)


def split(effects: Effects, vector: Numbers, by: Splitter) -> Sides:
    """Bits, switches and probe, moving from off to on what turns the trigger on. The vector is written to.

    What cannot turn it on comes first, while there is one vector only; the order does not matter.
    """
    off: Numbers = vector
    on: Numbers | None = None
    innocent = tuple(leaf for leaf in effects.bits if leaf[0] not in by.complaint)
    off = explained(off, innocent, (by.position, fire_bit))
    for switch in effects.switches:
        if not by.concerns(switch):
            off = thrown(off, switch, (by.position, fire_bit), by.source)
    for finding, fires, quiet in effects.bits:
        if finding in by.complaint:
            on = _blamed_bit(off, on, by.position[finding], (fires, quiet), by.blames)
    for switch in effects.switches:
        if by.concerns(switch):
            off, on = _split_switch(switch, off, on, by)
    if effects.probe is not None:
        fire_probe(off, effects.probe, by.source)
        if on is not None:
            fire_probe(on, effects.probe, by.source)
    return off, on


def _blamed_bit(off: Numbers, on: Numbers | None, position: int, leaf: tuple[float, float], blames: Numbers) -> Numbers:
    """A firing leaf counts also where the finding was explained before; a quiet one leaves all as it was."""
    fires, quiet = leaf
    on = np.zeros_like(off) if on is None else multiplied(fire_bit(((fires, quiet),)), on, position)
    still = off.reshape(off.shape[0] >> position + 1, 2, 1 << position, *off.shape[1:])
    turned = on.reshape(on.shape[0] >> position + 1, 2, 1 << position, *on.shape[1:])
    fired = fires * (still[:, 0] + still[:, 1])
    turned[:, 1] += fired * blames
    still[:, 1] *= quiet
    still[:, 1] += fired * (1.0 - blames)
    still[:, 0] *= quiet
    return on


def _split_switch(switch: Switch, off: Numbers, on: Numbers | None, by: Splitter) -> Sides:
    live = spread(switch.acts * switch.inside.factor, by.source)
    live_off, live_on = split(switch.inside, off * live, by)
    off *= 1.0 - switch.acts
    if on is not None:
        on = thrown(on, switch, (by.position, fire_bit), by.source)
    if switch.turns_on and not by.asked.isdisjoint(switch.turns_on):
        now = np.array([event in switch.turns_on for event in by.events.tolist()], dtype=np.float64)
        live_on = _plus(live_on, live_off * now)
        live_off *= 1.0 - now
    off += live_off
    return off, live_on if on is None else _plus(live_on, on)


def _plus(one: Numbers | None, other: Numbers) -> Numbers:
    if one is None:
        return other
    one += other
    return one

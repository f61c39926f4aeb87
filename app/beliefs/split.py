"""Effects on two vectors at once: where the trigger is still off, and where it is on."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass

import numpy as np

from app.beliefs.beliefs import Numbers
from app.beliefs.columns import Indices
from app.beliefs.effects import Effects, Switch, fire_bit, fire_probe, spread


@dataclass(frozen=True, slots=True)
class Splitter:
    """Which vector columns belong to which event (-1: none), and which of them blame leaves on the complaint."""

    position: Mapping[int, int]
    source: Indices
    events: Indices
    blames: Numbers
    complaint: Set[int]


def split(effects: Effects, off: Numbers, on: Numbers, by: Splitter) -> tuple[Numbers, Numbers]:
    """Bits and switches of `effects`, moving from off to on what turns the trigger on. The vectors are written to."""
    for finding, fires, quiet in effects.bits:
        fire_bit(on, by.position[finding], fires, quiet)
        if finding in by.complaint and by.blames.any():
            _blamed_bit(off, on, by.position[finding], fires, quiet, by.blames)
        else:
            fire_bit(off, by.position[finding], fires, quiet)
    for switch in effects.switches:
        off, on = _split_switch(switch, off, on, by)
    if effects.probe is not None:
        fire_probe(off, effects.probe, by.source)
        fire_probe(on, effects.probe, by.source)
    return off, on


def _blamed_bit(off: Numbers, on: Numbers, position: int, fires: float, quiet: float, blames: Numbers) -> None:
    """A firing leaf counts also where the finding was explained before; a quiet one leaves all as it was."""
    still = off.reshape(-1, 2, 1 << position, *off.shape[1:])
    turned = on.reshape(-1, 2, 1 << position, *on.shape[1:])
    fired = fires * (still[:, 0] + still[:, 1])
    turned[:, 1] += fired * blames
    still[:, 1] *= quiet
    still[:, 1] += fired * (1.0 - blames)
    still[:, 0] *= quiet


def _split_switch(switch: Switch, off: Numbers, on: Numbers, by: Splitter) -> tuple[Numbers, Numbers]:
    live = spread(switch.acts * switch.inside.factor, by.source)
    live_off, live_on = split(switch.inside, off * live, on * live, by)
    off, on = off * (1.0 - switch.acts), on * (1.0 - switch.acts)
    on += live_on
    if switch.turns_on:
        turned = np.isin(by.events, list(switch.turns_on)).astype(np.float64)
        on += live_off * turned
        live_off *= 1.0 - turned
    off += live_off
    return off, on

"""A note for the driver, to print: how far to drive, under which conditions, what to watch and what to leave alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from math import ceil, inf

from app.proof.conditions import Conditions
from app.proof.measures import Measure, amount
from app.proof.sentences import FARTHEST
from app.proof.standing import Shown, Standing, Verdict
from app.rules.library import Rules
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.case_page import complaint_name, vehicle_words
from app.web.views.driving import drive_view
from app.web.views.entries import moment

PHRASES = {
    "after driving": "just after a drive",
    "after standing": "after it has stood for some hours",
    "braking": "while braking",
    "bumps": "over bumps",
    "charging": "while it charges",
    "cold": "with a cold engine",
    "cornering": "in bends",
    "cranking": "while the starter turns",
    "driving": "while driving",
    "dry weather": "in dry weather",
    "frost": "in frost or cold damp air",
    "heater on": "with the heater on",
    "high revs": "at high engine speed",
    "high speed": "at high speed, where that is allowed",
    "hot": "with the engine fully warm",
    "hot day": "on a hot day",
    "humid": "in damp air",
    "idle": "standing with the engine running",
    "in gear": "with a gear engaged",
    "key on": "with the key on, engine off",
    "load": "pulling hard, such as uphill",
    "load change": "going on and off the accelerator",
    "low revs": "at low engine speed",
    "low speed": "at low speed",
    "moving off": "moving off",
    "overrun": "rolling with the foot off the accelerator",
    "parked": "after it is parked and switched off",
    "part load": "with light accelerator",
    "refuelling": "while or just after refuelling",
    "reverse": "in reverse",
    "shifting": "while changing gear",
    "standing still": "standing still",
    "starting": "while starting the engine",
    "steady speed": "at a steady speed",
    "stopping": "coming to a stop",
    "straight ahead": "straight ahead",
    "tight turn": "on full lock, at walking pace",
    "warm": "with the engine warm",
    "wet": "in the wet",
}
"""The conditions of the rules as one tells a driver; a word that is not here is said as it is."""

STEP = 5
"""Distances are rounded up to this: nobody drives 164 km."""


@dataclass(frozen=True, slots=True)
class DriversNote:
    frame: Frame
    back: str
    vehicle: str
    complaint: str
    at: str
    ask: str
    ways: tuple[str, ...]
    cautions: tuple[str, ...]
    leave_alone: tuple[str, ...]


def drivers_note(frame: Frame, scene: Scene, rules: Rules, *, standing: Standing, now: datetime) -> DriversNote:
    on_file = scene.on_file
    drive = drive_view(scene.board.may_drive, on_file.details.may_drive, case_id=on_file.id)
    return DriversNote(
        frame=frame,
        back=f"/cases/{on_file.id}/proof",
        vehicle=vehicle_words(on_file),
        complaint=complaint_name(on_file, rules),
        at=moment(now),
        ask=what_to_ask(standing),
        ways=tuple(_ways(standing.shown)),
        cautions=(
            *drive.advice,
            "Keep to the law, the road and the weather; do not write or read while driving.",
        ),
        leave_alone=(
            "Do not have trouble codes cleared.",
            "Do not disconnect the battery.",
            "If it comes back, note when, how far and under which conditions, and bring the vehicle in.",
        ),
    )


def what_to_ask(standing: Standing) -> str:
    """How far to drive, in round figures; or why that cannot be said."""
    lead = standing.lead
    if standing.verdict in (Verdict.NO_REPAIR, Verdict.CAME_BACK):
        return "It has not been mended yet, so there is nothing to prove by driving."
    if lead is None or lead.needed > FARTHEST.get(lead.measure, inf):
        return "How far is enough cannot be said yet. Drive as usual, and note how far and how it went."
    if lead.missing <= 0.0:
        return "It has been driven far enough. Drive as usual, and say if it comes back."
    return (
        f"Please use it for about {_rounded(lead)} more, as you usually do, and note whether the complaint comes back."
    )


def _rounded(lead: Shown) -> str:
    step = STEP if lead.measure is Measure.KM and lead.missing > STEP else 1
    return amount(ceil(lead.missing / step) * step, lead.measure)


def _ways(shown: Iterable[Conditions]) -> Iterator[str]:
    """Each way in which the fault showed, as one tells a driver."""
    for one in shown:
        yield ", ".join(PHRASES.get(condition, condition) for condition in sorted(one))

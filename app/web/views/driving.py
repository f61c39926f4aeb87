"""May it be driven? Four questions asked before anything else, and what a yes means. Common practice of the trade."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

QUESTIONS = {
    "flashing-lamp": "Does a warning lamp flash while driving?",
    "brakes": "Do the brakes pull, fade, or need more pedal than before?",
    "steering": "Is anything wrong with the steering?",
    "fuel-smell": "Is there a smell of fuel?",
}
ADVICE = {
    "flashing-lamp": "A flashing lamp means misfire that can destroy the catalyst: do not drive it on.",
    "brakes": "Do not drive it until the brakes have been checked by a qualified person.",
    "steering": "Do not drive it until the steering has been checked by a qualified person.",
    "fuel-smell": "Do not start it: find the fuel leak first, with no flame or spark near, and air the place.",
}


@dataclass(frozen=True, slots=True)
class DriveView:
    """`advice`: what speaks against driving on; `unasked`: what has not been asked yet; `ask`: where to answer it."""

    advice: tuple[str, ...]
    unasked: str
    ask: str


def drive_view(by_rules: Sequence[str], answers: Mapping[str, str], *, case_id: str) -> DriveView:
    """What the rules and the answers say about driving on."""
    advice = (*by_rules, *(ADVICE[id] for id in QUESTIONS if answers.get(id) == "yes"))
    missing = any(id not in answers for id in QUESTIONS)
    unasked = "Not asked yet whether it may be driven: warning lamp, brakes, steering, fuel smell." if missing else ""
    return DriveView(tuple(dict.fromkeys(advice)), unasked, f"/cases/{case_id}?record=first")

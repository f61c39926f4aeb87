"""May it be driven? Four questions asked before anything else, and what a yes means. Common practice of the trade."""

from __future__ import annotations

from collections.abc import Mapping

QUESTIONS = {
    "flashing-lamp": "Does a warning lamp flash while driving?",
    "brakes": "Is anything wrong with the brakes beyond what is felt in the pedal or wheel?",
    "steering": "Is anything wrong with the steering?",
    "fuel-smell": "Is there a smell of fuel?",
}
ADVICE = {
    "flashing-lamp": "A flashing lamp means misfire that can destroy the catalyst: do not drive it on.",
    "brakes": "Do not drive it until the brakes have been checked by a qualified person.",
    "steering": "Do not drive it until the steering has been checked by a qualified person.",
    "fuel-smell": "Do not start it: find the fuel leak first, with no flame or spark near, and air the place.",
}


def driving_advice(answers: Mapping[str, str]) -> tuple[str, ...]:
    """What the answers mean, one sentence for each yes; a reminder while something has not been asked."""
    advice = tuple(ADVICE[id] for id in QUESTIONS if answers.get(id) == "yes")
    unasked = [id for id in QUESTIONS if id not in answers]
    if unasked and not advice:
        return ("Not everything was asked that decides on driving: warning lamp, brakes, steering, fuel smell.",)
    return advice

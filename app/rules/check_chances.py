"""Probabilities, weights and settings that are out of range."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from app.problem import Problem
from app.rules.library import Rules
from app.rules.words import WordList

BOUNDS = {"certain": (0.99, 1.0), "strong": (0.92, 1.0), "fair": (0.0, 0.8)}
"""What these words promise (DESIGN section 6): strong can rule out, fair never does."""
COSTS = ("labour_rate", "hours_when_nothing_listed_helps")
NOT_CHANCES = ("wears_in_over_km", "proof_wait_shape", "reliability", *COSTS)
SHAPES = (0.3, 5.0)
"""Weibull shapes met in practice; beyond them a few waits say nothing (judgement)."""


def check_chances(rules: Rules) -> Iterator[Problem]:
    yield from _words(rules)
    yield from _settings(rules)
    yield from _causes(rules)


def _words(rules: Rules) -> Iterator[Problem]:
    for kind, words in rules.words.items():
        for word, rated in words.items():
            where = rules.where("strengths", kind, word)
            if kind is WordList.HOW_COMMON:
                if rated.chance <= 0.0:
                    yield Problem(where, f"The weight of “{word}” must be above 0.", "Give a weight such as 1.")
                continue
            if not 0.0 < rated.chance <= 1.0:
                yield Problem(where, f"{rated.chance:g} is not a chance.", "Give a number above 0 and at most 1.")
            low, high = BOUNDS.get(word, (0.0, 1.0)) if kind is WordList.STRENGTH else (0.0, 1.0)
            if not low <= rated.chance <= high:
                yield Problem(where, f"“{word}” must lie between {low:g} and {high:g}.", "Change the chance.")


def _settings(rules: Rules) -> Iterator[Problem]:
    for setting in fields(rules.settings):
        value = getattr(rules.settings, setting.name)
        where = rules.where("strengths", "settings", setting.name.replace("_", " "))
        if setting.name not in NOT_CHANCES and not 0.0 <= value <= 1.0:
            yield Problem(where, f"“{setting.name.replace('_', ' ')}” is {value:g}.", "It must lie between 0 and 1.")
    if rules.settings.wears_in_over_km < 0.0:
        yield Problem(rules.where("strengths", "settings"), "A distance is negative.", "Give km above 0.")
    yield from _proof(rules)
    yield from _costs(rules)
    for source, value in rules.settings.reliability.items():
        if not 0.0 <= value <= 1.0:
            yield Problem(rules.where("sources", source), f"{value:g} is not a chance.", "Give a number from 0 to 1.")


def _proof(rules: Rules) -> Iterator[Problem]:
    most, shape = rules.settings.proof_still_there_at_most, rules.settings.proof_wait_shape
    if not 0.0 < most <= 0.5:
        where = rules.where("strengths", "settings", "proof still there at most")
        yield Problem(where, f"A proof that leaves {most:g} is none.", "Give a chance above 0 and at most 0.5.")
    if not SHAPES[0] <= shape <= SHAPES[1]:
        where = rules.where("strengths", "settings", "proof wait shape")
        yield Problem(where, f"The shape {shape:g} is not believable.", "Give a number from 0.3 to 5, usually 1.")


def _costs(rules: Rules) -> Iterator[Problem]:
    for name in COSTS:
        key = name.replace("_", " ")
        if getattr(rules.settings, name) <= 0.0:
            yield Problem(rules.where("strengths", "settings", key), f"“{key}” is not above 0.", "Give what it costs.")


def _causes(rules: Rules) -> Iterator[Problem]:
    for cause in rules.causes.values():
        total = sum(cause.acts_at.values())
        if abs(total - 1.0) > 1e-9 or min(cause.acts_at.values()) < 0.0:
            yield Problem(
                rules.where("causes", cause.id, "acts at"),
                f"The parts of “{cause.name}” sum to {total:g}.",
                "They must sum to 1, none below 0.",
            )
        if cause.prior is not None and not 0.0 < cause.prior <= 0.3:
            yield Problem(
                rules.where("causes", cause.id, "prior"),
                f"A prior of {cause.prior:g} a year and place is not believable.",
                "Give a number above 0 and at most 0.3.",
            )

"""Families that expect too many faults, and causes that do not lead where their family says."""

from __future__ import annotations

from collections.abc import Iterator

from app.problem import Problem
from app.rules.causes import Cause
from app.rules.library import Family, Rules
from app.rules.priors import faults_expected, lead_strength
from app.vehicle.layout import Layout, PlaceId, level_of

MOST_FAULTS = 0.3
"""A family that expects more faults than this before any job has its shares or strengths wrong (DESIGN section 6)."""
BANKS = {
    "four in line": ((1, 2, 3, 4),),
    "V6": ((1, 3, 5), (2, 4, 6)),
    "V8": ((1, 3, 5, 7), (2, 4, 6, 8)),
}


def check_families(rules: Rules) -> Iterator[Problem]:
    for family in rules.families.values():
        yield from _lead(family, rules)
        yield from _too_many(family, rules)
    for cause in rules.causes.values():
        yield from _at_home(cause, rules)
    yield from _levels(rules)


def _lead(family: Family, rules: Rules) -> Iterator[Problem]:
    for symptom in family.lead:
        more_general = [kind for kind in rules.kinds(symptom)[1:] if kind in family.lead]
        if more_general:
            yield Problem(
                rules.where("families", family.id, "lead"),
                f"“{symptom}” is a kind of “{more_general[0]}”, which leads already.",
                "Name only the general one.",
            )


def _at_home(cause: Cause, rules: Rules) -> Iterator[Problem]:
    strength = lead_strength(cause, rules)
    family = rules.families[cause.family]
    if cause.how_common is not None and strength <= 0.0:
        yield Problem(
            rules.where("causes", cause.id),
            f"“{cause.name}” says how common it is, but does not give the lead complaint of “{family.name}”.",
            f"Let it give {' or '.join(family.lead)} or a kind of it, or say “prior: …” instead.",
        )
    if cause.prior is not None and strength > 0.0:
        yield Problem(
            rules.where("causes", cause.id, "prior"),
            f"“{cause.name}” gives the lead complaint of “{family.name}” and so has a share in it.",
            "Say “how common” instead of “prior”.",
        )


def _levels(rules: Rules) -> Iterator[Problem]:
    for symptom in rules.symptoms.values():
        for pattern in symptom.codes:
            if pattern.place is not None and level_of(PlaceId(pattern.place)) is not symptom.at:
                yield Problem(
                    rules.where("symptoms", symptom.id, "codes", pattern.code),
                    f"{pattern.place} is not a place of level {symptom.at}, where “{symptom.name}” is.",
                    "Move the code to a symptom of that level.",
                )


def _too_many(family: Family, rules: Rules) -> Iterator[Problem]:
    expected = {
        build: faults_expected(family, layout, rules)
        for build, layout in standard_layouts(rules, _asked_of(family, rules))
    }
    worst = max(expected, key=lambda build: expected[build])
    if expected[worst] > MOST_FAULTS:
        yield Problem(
            rules.where("families", family.id),
            f"“{family.name}” expects {expected[worst]:.2f} faults before any job on {worst}; at most {MOST_FAULTS}.",
            "Look for causes that give the lead complaint too weakly for their share, or high priors.",
        )


def _asked_of(family: Family, rules: Rules) -> frozenset[str]:
    """The traits on which it depends whether a cause at home in the family fits."""
    return frozenset(name for cause in rules.causes.values() if cause.family == family.id for name in cause.fits)


def standard_layouts(rules: Rules, traits: frozenset[str]) -> Iterator[tuple[str, Layout]]:
    """Builds to try rules on: each bank layout with nothing known, and with each value of each of these traits."""
    for name, banks in BANKS.items():
        yield f"a {name}", Layout(banks)
        for trait in rules.traits.values():
            if trait.name in traits and not trait.computed:
                for value in trait.values:
                    yield f"a {name} with {trait.name} {value}", Layout(banks, traits={trait.name: value})

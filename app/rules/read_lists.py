"""places.yaml, quantities.yaml and shared.yaml as typed values."""

from __future__ import annotations

from collections.abc import Mapping

from app.measurements.quantities import Quantity
from app.rules.known_ids import Trees
from app.rules.library import Situation, Trait
from app.rules.reading import phrase
from app.rules.section import Section
from app.rules.tree import Notes
from app.rules.words import SituationId
from app.vehicle.layout import Level


def read_traits(trees: Trees, notes: Notes) -> Mapping[str, Trait]:
    """The traits of a vehicle; the levels named beside them must be the program's."""
    file = Section(trees.places, "the places file", notes)
    _check_levels(file)
    traits = {name: _read_trait(name, section) for name, section in file.sections("traits")}
    file.has("builds")
    file.close()
    return traits


Builds = Mapping[str, Mapping[str, str]]
"""A build by its name -> the traits that make it."""


def read_builds(trees: Trees, notes: Notes) -> Builds:
    """The builds for which covers have minutes of their own."""
    entries = trees.places.entries.get("builds")
    if entries is None:
        return {}
    builds = Section(trees.places, "the places file", notes).section("builds")
    traits = Section(trees.places, "the places file", notes).entries("traits")
    found = {}
    for name, entry in builds.table.entries.items():
        build = builds.within(entry, f"build “{name}”", name)
        found[name] = {trait: build.text(build.known(trait, traits, kind="trait", where=build.line(trait)) or trait)
                       for trait in build.table.entries}  # fmt: skip
    return found


def _check_levels(file: Section) -> None:
    named = file.section("levels")
    for level in Level:
        named.text(level)
    named.close()


def _read_trait(name: str, section: Section) -> Trait:
    trait = Trait(
        name,
        section.texts("values"),
        per_axle=section.yes("per axle"),
        computed=section.yes("computed"),
        asked_first=section.yes("asked first"),
    )
    if not trait.values:
        section.missing("values")
    section.close()
    return trait


def read_quantities(trees: Trees, notes: Notes) -> Mapping[str, Quantity]:
    """What can be read on a gauge."""
    file = Section(trees.quantities, "the quantities file", notes)
    return {
        name: _read_quantity(name, file.within(entry, f"quantity “{name}”", name))
        for name, entry in trees.quantities.entries.items()
    }


def _read_quantity(name: str, section: Section) -> Quantity:
    units = {shown: phrase(entry.node) for shown, entry in section.entries("units").items()}
    quantity = Quantity(
        id=name,
        name=section.text("name"),
        unit=section.choice("unit", units, f"unit among the units of “{name}”:"),
        units=units,
        plausible=_read_range(section),
    )
    section.close()
    return quantity


def _read_range(section: Section) -> tuple[float, float]:
    ends = [section.as_number(text.value, text.where) for text in section.text_nodes("plausible")]
    if len(ends) != 2 or ends[0] >= ends[1]:
        section.refuse("plausible", "The plausible range must be a low and a high value.", "Write [low, high].")
        return (0.0, 1.0)
    return (ends[0], ends[1])


def read_systems(trees: Trees, notes: Notes) -> Mapping[str, str]:
    """The systems a cause can belong to, with their names."""
    systems = Section(trees.shared, "the shared file", notes).section("systems")
    return {name: systems.text(name) for name in systems.table.entries}


def read_situations(trees: Trees, notes: Notes) -> Mapping[SituationId, Situation]:
    """The situations that can blind a test, with the question asked when a result is recorded."""
    file = Section(trees.shared, "the shared file", notes)
    situations = {SituationId(name): _read_situation(name, section) for name, section in file.sections("situations")}
    file.has("systems")
    file.close()
    return situations


def _read_situation(name: str, section: Section) -> Situation:
    situation = Situation(SituationId(name), section.text("name"), section.text("question"))
    section.close()
    return situation

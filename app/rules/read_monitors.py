"""monitors.yaml as typed values."""

from __future__ import annotations

from collections.abc import Mapping

from app.rules.known_ids import Trees, below
from app.rules.monitors import CodeRange, CodeStateRule, Monitor
from app.rules.read_symptom import CODE
from app.rules.section import Section
from app.rules.tree import Notes

CODE_STATES = ("pending", "confirmed", "permanent")


def read_monitors(trees: Trees, notes: Notes) -> Mapping[str, Monitor]:
    """Every monitor by its id; one at most may watch what the others leave."""
    file = Section(trees.monitors, "the monitors file", notes)
    traits = below(trees.places, "traits")
    read = {name: _read_monitor(name, section, traits) for name, section in file.sections("monitors")}
    rest = [name for name, monitor in read.items() if monitor.the_rest]
    if len(rest) > 1:
        file.refuse("monitors", f"Both “{rest[0]}” and “{rest[1]}” watch the rest.", "Leave “the rest” to one.")
    if not file.has("monitors"):
        file.missing("monitors")
    file.has("code states")
    file.close()
    return read


def _read_monitor(name: str, section: Section, traits: Mapping[str, object]) -> Monitor:
    section.what = f"monitor “{name}”"
    monitor = Monitor(
        id=name,
        name=section.text("name"),
        continuous=section.yes("continuous"),
        watches=tuple(_read_range(text.value, text.where, section) for text in section.text_nodes("watches")),
        the_rest=section.yes("the rest"),
        fits=_read_fits(section, traits),
        runs=section.text("runs"),
        source=section.text("source"),
    )
    if not monitor.watches and not monitor.the_rest:
        section.missing("watches")
    section.close()
    return monitor


def _read_fits(section: Section, traits: Mapping[str, object]) -> Mapping[str, tuple[str, ...]]:
    if not section.has("fits"):
        return {}
    fits = section.section("fits")
    for trait in fits.table.entries:
        fits.known(trait, traits, kind="trait", where=fits.line(trait))
    return {trait: fits.texts(trait) for trait in fits.table.entries}


def _read_range(typed: str, where: str, section: Section) -> CodeRange:
    first, _, last = typed.partition("-")
    found = CodeRange(first.strip(), (last or first).strip())
    if not (CODE.fullmatch(found.first) and CODE.fullmatch(found.last) and found.first <= found.last):
        section.notes.refuse(where, f"“{typed}” is not a code or a range of codes.", "Write P0420 or P0300-P0316.")
    return found


def read_code_states(trees: Trees, notes: Notes) -> Mapping[str, CodeStateRule]:
    """What pending, confirmed and permanent mean."""
    file = Section(trees.monitors, "the monitors file", notes)
    states = file.section("code states")
    found = {}
    for state in CODE_STATES:
        rule = states.section(state)
        found[state] = CodeStateRule(rule.text("means"), rule.text("goes when"), rule.text("source"))
        rule.close()
    states.close()
    return found

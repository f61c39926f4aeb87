"""What a run and a scan after a repair say, in one line each."""

from __future__ import annotations

from app.evidence.case import ProofRun, ScanSeen
from app.proof.measures import amount, use_of_run
from app.rules.library import Rules


def run_in_words(said: ProofRun) -> str:
    """ "3 Jun 2026: 42 km, 3 starts; hot, idle; by-pass: stayed away"."""
    used = ", ".join(amount(value, measure) for measure, value in use_of_run(said).items()) or "use not noted"
    how = ["driven as usual"] if said.ordinary else []
    how += [", ".join(said.conditions)] if said.conditions else []
    how += [said.route] if said.route else []
    day = f"{said.day:%-d %b %Y}, " if said.day else ""
    ended = "it came back" if said.came_back else "it stayed away"
    return f"after the repair, {day}{'; '.join((used, *how))}: {ended}{_note(said.note)}"


def scan_in_words(said: ScanSeen, rules: Rules) -> str:
    """ "after the repair: misfire complete; no code"."""
    names = {id: monitor.name for id, monitor in rules.monitors.items()}
    monitors = ", ".join(f"{names.get(id, id)} {state.value}" for id, state in said.monitors.items())
    codes = ", ".join(f"{code} {state.value}" for code, state in said.codes.items()) or "no code"
    cleared = {True: "codes cleared since the repair", False: "codes not cleared since the repair", None: ""}
    day = f", {said.day:%-d %b %Y}" if said.day else ""
    facts = (monitors or "readiness not read", codes, cleared[said.cleared])
    return f"after the repair{day}: {'; '.join(fact for fact in facts if fact)}{_note(said.note)}"


def _note(note: str) -> str:
    return f". {note}" if note else ""

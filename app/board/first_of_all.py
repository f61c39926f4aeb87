"""What comes before any test: reproduce the complaint, the cheap basics, and whether the vehicle may be driven."""

from __future__ import annotations

from app.evidence.case import Case, CodeState, Presence
from app.rules.library import Rules


def first_of_all(case: Case, rules: Rules) -> tuple[str, ...]:
    """The steps that stand before every board, as far as the case does not show them done."""
    return tuple(step for step in (_reproduce(case, rules), _basics(case)) if step)


def _reproduce(case: Case, rules: Rules) -> str:
    last = case.visits[-1]
    here = [s for s in last.symptoms if s.source.here]
    if any(s.presence is Presence.PRESENT for s in here) or any(c.source.here for c in last.codes):
        return ""
    tried = any(s.presence is Presence.NOT_REPRODUCED for s in here)
    conditions = ", ".join(rules.symptoms[case.complaint].conditions)
    under = f" ({conditions})" if conditions else ""
    if tried:
        return f"Tried and not reproduced so far: ask for the exact conditions and try again under them{under}."
    return f"Reproduce the complaint here, under the conditions the customer names{under}."


def _basics(case: Case) -> str:
    if case.visits[-1].results:
        return ""
    return "Do the cheap basics: fluid levels, battery charge, stored codes, open recalls and software state."


def may_drive(case: Case, rules: Rules) -> tuple[str, ...]:
    """What the rules say about driving on, for what was present at the last visit."""
    last = case.visits[-1]
    present = [s.symptom for s in last.symptoms if s.presence is Presence.PRESENT]
    layout = case.vehicle.layout
    for code in last.codes:
        if code.state is not CodeState.ABSENT:
            present.extend(symptom for symptom, _ in rules.meanings_of(code.code, layout))
    kinds = [kind for symptom in (case.complaint, *present) for kind in rules.kinds(symptom)]
    sentences = (rules.symptoms[kind].may_drive for kind in kinds)
    return tuple(dict.fromkeys(sentence for sentence in sentences if sentence))

"""Under which conditions the fault showed, and which use after the repair was under them."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from app.evidence.case import Case, Presence, ProofRun, SymptomSeen
from app.rules.library import Rules

Conditions = frozenset[str]


def shown_under(case: Case, rules: Rules, reproduced: Collection[str] = ()) -> tuple[Conditions, ...]:
    """Every set of conditions under which the complaint showed, the less exact ones left out; () where none is known.

    What was noted at a visit stands before what the rule says of the symptom. A run in which it came back shows it too.
    `reproduced`: under which it was brought about here.
    """
    noted = [_conditions(seen, rules) for visit in case.visits for seen in visit.symptoms if _is_it(seen, case, rules)]
    in_runs = [frozenset(run.conditions) for visit in case.visits for run in visit.runs if run.came_back]
    found = dict.fromkeys(one for one in (*noted, *in_runs, frozenset(reproduced)) if one)
    return tuple(one for one in found if not any(one < other for other in found))


def counts(run: ProofRun, shown: Iterable[Conditions]) -> bool:
    """Whether silence in this run speaks at all: driven as usual, or under all conditions of one way it showed.

    Where no conditions are known every run counts.
    """
    sets = tuple(shown)
    return run.ordinary or not sets or any(one <= set(run.conditions) for one in sets)


def covers(run: ProofRun, one: Conditions) -> bool:
    """Whether a run tried this way in which the fault showed."""
    return run.ordinary or one <= set(run.conditions)


def about_complaint(symptom: str, case: Case, rules: Rules) -> bool:
    """Whether a symptom is the lead complaint of the case or a kind of it."""
    known = next((one for one in rules.symptoms if one == symptom), None)
    return known is not None and rules.lead_of(case.complaint) in rules.kinds(known)


def _is_it(seen: SymptomSeen, case: Case, rules: Rules) -> bool:
    return seen.presence is Presence.PRESENT and about_complaint(seen.symptom, case, rules)


def _conditions(seen: SymptomSeen, rules: Rules) -> Conditions:
    return frozenset(seen.conditions or rules.symptoms[seen.symptom].conditions)

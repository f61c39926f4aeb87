"""The chance that the repairs done have cured the complaint, before the vehicle is used: nothing left produces it."""

from __future__ import annotations

from dataclasses import replace
from math import exp

from app.beliefs.beliefs import Contradiction
from app.beliefs.infer import infer
from app.evidence.case import Case, Presence, Source, SymptomSeen, Visit
from app.evidence.observe import observe
from app.network.build import build_network
from app.rules.library import Rules

LOOKS = 6
"""So many imagined looks after the work: what is still there and shows at 9 of 10 looks (or at every other one, where
it comes and goes) stays unseen in all of them with a chance of 1 in a million (1 in 64)."""


def chance_cured(case: Case, rules: Rules) -> float | None:
    """P(nothing that the repairs left, or brought in, produces the complaint); None where the entries cannot say.

    The model is asked what it says of further visits, after all wearing in, at each of which one looks for the
    complaint as it was last seen and it is absent: P(absent at all of them | evidence) is the ratio of two evidences.
    """
    before, after = _log_evidence(case, rules), _log_evidence(_looked_at_again(case, rules), rules)
    if before is None or after is None:
        return None
    return min(1.0, exp(after - before))


def _log_evidence(case: Case, rules: Rules) -> float | None:
    network = build_network(case, observe(case, rules), rules)
    beliefs = infer(replace(network.noisy_or, events=()))
    if isinstance(beliefs, Contradiction) or beliefs.set_aside:
        return None
    return beliefs.log_evidence


def _looked_at_again(case: Case, rules: Rules) -> Case:
    """The case with further visits here, of no known day or distance: nothing counts as early or as aged."""
    seen = tuple(
        SymptomSeen(detail.symptom, detail.place, Presence.ABSENT, Source.SEEN_HERE)
        for detail in observe(case, rules).complaint.details
    )
    looks = tuple(
        Visit(case.visits[-1].number + n, here=True, shop="", day=None, odometer_km=None, symptoms=seen)
        for n in range(1, LOOKS + 1)
    )
    return replace(case, visits=(*case.visits, *looks))

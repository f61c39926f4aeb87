"""Which causes of the whole library a case has to do with: only these become hypotheses."""

from __future__ import annotations

from collections.abc import Collection

from app.evidence.case import Outcome
from app.evidence.observe import Evidence
from app.rules.causes import Cause
from app.rules.index import causes_giving
from app.rules.library import Rules
from app.rules.words import CauseId, SymptomId


def touched_causes(evidence: Evidence, rules: Rules) -> tuple[Cause, ...]:
    """The causes, of whatever family, that can explain something reported as there, and what can destroy such parts.

    Any other cause speaks only about what was looked for and found absent. Such a finding weighs on each of its causes
    alone (ENGINE, "Absorb first"), so leaving those causes out does not move the rest.
    """
    told, shown = _told(evidence), _shown(evidence, rules)
    giving = causes_giving(rules)
    explaining = shown.union(*(giving.get(symptom, ()) for symptom in told))
    return tuple(c for c in rules.causes.values() if c.id in explaining or _destroys(c, explaining))


def _destroys(cause: Cause, parts: Collection[CauseId]) -> bool:
    return any(damage.victim in parts for damage in cause.damages)


def _told(evidence: Evidence) -> set[SymptomId]:
    """Every symptom reported as there; the complaint itself where nothing says more, or where it was told before."""
    complaint = evidence.complaint
    told = {detail.symptom for detail in complaint.details if detail.present}
    if not told or any(once.present for once in complaint.once):
        told.add(complaint.symptom)
    return told | {finding.symptom for finding in evidence.symptoms if finding.belief.says_present}


def _shown(evidence: Evidence, rules: Rules) -> set[CauseId]:
    """What an abnormal or doubtful result can show, and what a duty found wrong or a defect brings in."""
    speaking = [r for r in evidence.results if r.belief.says_present or r.result.outcome is Outcome.UNCERTAIN]
    shown = {shows.cause for result in speaking for shows in rules.tests[result.test].shows}
    shown |= {duty.cause for duty in evidence.duties if duty.belief.says_present}
    return shown | {defect.cause for defect in evidence.defects}

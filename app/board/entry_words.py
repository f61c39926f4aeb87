"""Each entry said in a few words: "Leak-down, cylinder 1: within limits (visit 3, measured here)"."""

from __future__ import annotations

from collections.abc import Mapping

from app.board.words import capital
from app.evidence.case import Case, Outcome
from app.evidence.observe import ResultFinding
from app.network.build import CaseNetwork
from app.network.lines import SymptomLine
from app.network.noisy_or import Report, Soft
from app.rules.library import Rules
from app.rules.tests import Test
from app.vehicle.layout import PlaceId


def entry_words(network: CaseNetwork, case: Case, rules: Rules) -> Mapping[int, str]:
    """Words for every reported finding of the network."""
    words: dict[int, str] = {}
    lines = network.lines
    for line in (*lines.complaint, *lines.symptoms):
        words[line.finding] = _symptom_words(line, network, case, rules)
    for line in lines.once:
        told = "complaint was there" if _is_present(line.finding, network) else "complaint was not there"
        words[line.finding] = f"The {told} (visit {line.at.visit})"
    for test in lines.tests:
        if test.result is not None:
            words[test.finding] = result_words(test.result, rules, case)
    for duty in lines.duties:
        state = "found wrong" if _is_present(duty.finding, network) else "verified"
        words[duty.finding] = f"{capital(duty.duty.text)}: {state} (job {duty.duty.job.number})"
    for found in lines.defects:
        seen = found.defect
        where = at_place(seen.place, case)
        words[found.finding] = f"Found: {seen.text}{where} (visit {seen.at.visit}, {seen.source.value})"
    return words


def _symptom_words(line: SymptomLine, network: CaseNetwork, case: Case, rules: Rules) -> str:
    name = capital(rules.symptoms[line.symptom].name)
    state = "" if _is_present(line.finding, network) else ": not there"
    return f"{name}{at_place(line.place, case)}{state} (visit {line.at.visit})"


def _is_present(finding: int, network: CaseNetwork) -> bool:
    report = network.noisy_or.findings[finding].report
    if isinstance(report, Soft):
        return report.present > report.absent
    return report is Report.PRESENT


def result_words(result: ResultFinding, rules: Rules, case: Case) -> str:
    test = rules.tests[result.test]
    outcome = outcome_words(test, result.result.outcome)
    where = at_place(result.place, case)
    return f"{capital(test.name)}{where}: {outcome} (visit {result.at.visit}, {result.source.value})"


def outcome_words(test: Test, outcome: Outcome) -> str:
    match outcome:
        case Outcome.NORMAL:
            return test.normal_word
        case Outcome.ABNORMAL:
            return test.abnormal_word
        case Outcome.UNCERTAIN:
            return "too near the limit to say"


def at_place(place: PlaceId, case: Case) -> str:
    """ ", cylinder 3", or nothing where the place is the whole vehicle or engine."""
    return "" if place in ("vehicle", "engine") else f", {case.vehicle.layout.in_words(place)}"

"""What is observed in a case, since when, and how far it is believed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from app.evidence.belief import DOCUMENTS_AT_MOST, Belief, belief, single_statement
from app.evidence.case import Case, DutyState, Outcome, Result, Source
from app.evidence.complaint import Complaint, the_complaint
from app.evidence.jobs import NumberedJob, duties_looked_at
from app.evidence.moments import Moment, Phase
from app.evidence.statements import Statement, statements
from app.rules.library import Rules
from app.rules.words import CauseId, DefectId, DutyId, SituationId, SymptomId, TestId
from app.vehicle.layout import PlaceId


@dataclass(frozen=True, slots=True)
class SymptomFinding:
    """A symptom other than the complaint, at a place, as last spoken of."""

    symptom: SymptomId
    place: PlaceId
    at: Moment
    belief: Belief
    source: Source
    entry: str


@dataclass(frozen=True, slots=True)
class ResultFinding:
    """A test's outcome at a place; `situations`: blind situations known to have been given or not."""

    test: TestId
    place: PlaceId
    at: Moment
    belief: Belief
    source: Source
    situations: Mapping[SituationId, bool]
    result: Result
    entry: str


@dataclass(frozen=True, slots=True)
class DutyFinding:
    """A duty of a job found right or wrong: a result about the cause it can bring in, since the job."""

    cause: CauseId
    duty: DutyId
    job: NumberedJob
    text: str
    at: Moment
    belief: Belief
    source: Source
    entry: str


@dataclass(frozen=True, slots=True)
class DefectFinding:
    """A defect somebody came upon: the cause it brings was there, at its place."""

    cause: CauseId
    kind: DefectId
    place: PlaceId
    text: str
    at: Moment
    belief: Belief
    source: Source
    entry: str


@dataclass(frozen=True, slots=True)
class Paper:
    """Another shop's paper of one visit, true or made up as a whole."""

    visit: int
    reliability: float


@dataclass(frozen=True, slots=True)
class Evidence:
    """All that speaks. `missing`: what was entered but is not in the rules, in words."""

    complaint: Complaint
    symptoms: tuple[SymptomFinding, ...]
    results: tuple[ResultFinding, ...]
    duties: tuple[DutyFinding, ...]
    defects: tuple[DefectFinding, ...]
    papers: tuple[Paper, ...]
    missing: tuple[str, ...]


def observe(case: Case, rules: Rules) -> Evidence:
    """The case's findings, each with the moment it speaks of and how far it is believed."""
    said, missing = statements(case, rules)
    complaint = the_complaint(case, said, rules)
    others = tuple(_symptom_findings(complaint, said, rules))
    results = tuple(_result_findings(case, rules))
    duties = tuple(_duty_findings(case, rules))
    defects = tuple(_defect_findings(case, rules))
    beliefs = [f.belief for f in others] + [f.belief for f in results] + [f.belief for f in duties]
    papers = _papers([*beliefs, *(f.belief for f in defects)], rules)
    kept = {paper.visit for paper in papers}
    return Evidence(
        complaint=complaint,
        symptoms=tuple(replace(f, belief=_paper_or_single(f.belief, kept, rules)) for f in others),
        results=tuple(replace(f, belief=_paper_or_single(f.belief, kept, rules)) for f in results),
        duties=tuple(replace(f, belief=_paper_or_single(f.belief, kept, rules)) for f in duties),
        defects=tuple(replace(f, belief=_paper_or_single(f.belief, kept, rules)) for f in defects),
        papers=papers,
        missing=(*missing, *_not_in_rules(case, rules)),
    )


def _not_in_rules(case: Case, rules: Rules) -> Iterable[str]:
    """Tests, operations and kinds of defect on the history that the rules no longer know, each once."""
    tests = {r.test for visit in case.visits for r in visit.results if r.test not in rules.tests}
    operations = {j.operation for visit in case.visits for j in visit.jobs if j.operation not in rules.operations}
    yield from (f"Test “{test}”" for test in sorted(tests))
    defects = {d.kind for visit in case.visits for d in visit.defects if d.kind not in rules.defects}
    yield from (f"Operation “{operation}”" for operation in sorted(operations))
    yield from (f"Kind of defect “{kind}”" for kind in sorted(defects))


def _symptom_findings(complaint: Complaint, said: Iterable[Statement], rules: Rules) -> Iterable[SymptomFinding]:
    """The latest word on each symptom at each place, without the complaint and without the less specific kinds."""
    latest: dict[tuple[SymptomId, PlaceId], Statement] = {}
    for statement in said:
        if not complaint.is_about(statement.symptom, rules):
            latest[statement.symptom, statement.place] = statement
    for statement in latest.values():
        if not _said_more_exactly(statement, latest.values(), rules):
            yield SymptomFinding(
                statement.symptom,
                statement.place,
                statement.at,
                belief(
                    present=statement.present,
                    source=statement.source,
                    visit=statement.at.visit,
                    settings=rules.settings,
                ),
                statement.source,
                statement.entry,
            )


def _said_more_exactly(statement: Statement, others: Iterable[Statement], rules: Rules) -> bool:
    return statement.present and any(
        other.present and statement.symptom in rules.kinds(other.symptom)[1:] for other in others
    )


def _result_findings(case: Case, rules: Rules) -> Iterable[ResultFinding]:
    for visit in case.visits:
        for number, result in enumerate(visit.results):
            if result.test not in rules.tests:
                continue
            phase = Phase.AFTER_WORK if result.after_work else Phase.FOUND
            yield ResultFinding(
                result.test,
                result.place,
                Moment(visit.number, phase),
                _result_belief(result, visit.number, rules),
                result.source,
                result.situations,
                result,
                result.entry or f"visit {visit.number}, result {number + 1}",
            )


def _result_belief(result: Result, visit: int, rules: Rules) -> Belief:
    if result.outcome is Outcome.UNCERTAIN:
        present, absent = result.weights or (1.0, 1.0)
        return Belief(present, absent)
    present = result.outcome is Outcome.ABNORMAL
    return belief(present=present, source=result.source, visit=visit, settings=rules.settings)


def _duty_findings(case: Case, rules: Rules) -> Iterable[DutyFinding]:
    for job, duty, done in duties_looked_at(case, rules):
        if duty.brings is None or done.state not in (DutyState.VERIFIED, DutyState.FOUND_WRONG):
            continue
        same_visit = done.seen_at_visit == job.visit.number
        at = Moment(done.seen_at_visit, Phase.AFTER_WORK if same_visit else Phase.FOUND)
        said = belief(
            present=done.state is DutyState.FOUND_WRONG,
            source=done.source,
            visit=done.seen_at_visit,
            settings=rules.settings,
        )
        yield DutyFinding(
            duty.brings, duty.id, job, duty.text, at, said, done.source, done.entry or f"job {job.number}, {duty.id}"
        )


def _defect_findings(case: Case, rules: Rules) -> Iterable[DefectFinding]:
    """What brings no cause says nothing; what a job of its own visit left behind speaks of the time after the work."""
    for visit in case.visits:
        for number, seen in enumerate(visit.defects):
            kind = rules.defects.get(seen.kind)
            if kind is None or kind.brings is None:
                continue
            own_work = seen.after is not None and seen.after.visit == visit.number
            yield DefectFinding(
                kind.brings,
                kind.id,
                seen.place,
                kind.name,
                Moment(visit.number, Phase.AFTER_WORK if own_work else Phase.FOUND),
                belief(present=True, source=seen.source, visit=visit.number, settings=rules.settings),
                seen.source,
                seen.entry or f"visit {visit.number}, defect {number + 1}",
            )


def _papers(beliefs: Iterable[Belief], rules: Rules) -> tuple[Paper, ...]:
    """The papers that matter most, by how much they say."""
    counted = Counter(b.paper for b in beliefs if b.paper is not None)
    reliability = rules.settings.reliability[Source.PAPER.value]
    chosen = sorted(visit for visit, _ in counted.most_common(DOCUMENTS_AT_MOST))
    return tuple(Paper(visit, reliability) for visit in chosen)


def _paper_or_single(said: Belief, kept: set[int], rules: Rules) -> Belief:
    if said.paper is None or said.paper in kept:
        return said
    reliability = rules.settings.reliability[Source.PAPER.value]
    return single_statement(present=said.says_present, reliability=reliability, settings=rules.settings)

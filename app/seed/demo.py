"""The demo: an invented workshop and its vehicles, filed through the ordinary writes as if it had happened."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime, time, timedelta
from pathlib import Path

from app.evidence.case import Case, Source, Visit
from app.evidence.case_file import read_case_file
from app.history.desk import Desk
from app.history.history import History
from app.history.values import PROGRAM, At, CaseDetails, Closing, Odometer, OdometerUnit, Person, Stay
from app.problem import Problem, Refused
from app.rules.library import Rules
from app.seed.demo_workshop import CasePlan, Ended, Workshop, read_workshop
from app.settings import PROJECT

DEMO = PROJECT / "seed_data" / "demo"
OPENING = time(9, 0, tzinfo=UTC)
UNTIL_CLOSED = timedelta(hours=2)


@dataclass(frozen=True, slots=True)
class Filing:
    """One case on its way into the history. `moments`: when each visit's entries are written down."""

    plan: CasePlan
    case: Case
    moments: tuple[datetime, ...]


@dataclass(frozen=True, slots=True)
class Filed:
    """Ids of what was filed: jobs by visit number and their place in it, results by visit number, test and place."""

    jobs: dict[tuple[int, int], str]
    results: dict[tuple[int, str, str], str]


def load_demo(history: History, rules: Rules, now: datetime, folder: Path = DEMO) -> None:
    """File the demo workshop. Refused, with nothing written, where a history exists or a file is wrong."""
    if not history.is_new():
        raise Refused([Problem("data folder", "There is a history already.", "Choose an empty PROOFBAY_DATA_DIR.")])
    workshop, filings = _read(folder, rules, now)
    people, customers = _file_people(history, workshop, now)
    for filing in sorted(filings, key=lambda filing: filing.moments[0]):
        _file_case(history, filing, person=people[filing.plan.worked_by], customers=customers)


def _read(folder: Path, rules: Rules, now: datetime) -> tuple[Workshop, list[Filing]]:
    file = folder / "workshop.yaml"
    workshop, problems = read_workshop(file.read_text(encoding="utf-8"), file.name, rules)
    wrong, filings = list(problems), []
    for plan in workshop.cases:
        text = (folder / plan.file).read_text(encoding="utf-8")
        case, problems = read_case_file(text, plan.file, rules, today=now.date())
        wrong += [*problems, *(() if case is None else _misfits(workshop, plan, case))]
        if case is not None:
            filings.append(Filing(plan, case, _moments(case, now)))
    if wrong:
        raise Refused(wrong)
    return workshop, filings


def _misfits(workshop: Workshop, plan: CasePlan, case: Case) -> Iterator[Problem]:
    """What the workshop says about a case that its case file does not know."""
    if case.vehicle.customer not in workshop.customers:
        yield Problem(plan.file, f"There is no customer “{case.vehicle.customer}”.", "Add them to workshop.yaml.")
    if plan.ended is not None:
        visit, test, place = plan.ended.decided_by
        results = [(seen.number, result.test, result.place) for seen in case.visits for result in seen.results]
        jobs = [(seen.number, job.operation) for seen in case.visits for job in seen.jobs]
        if (visit, test, place) not in results:
            yield Problem(plan.file, f"Visit {visit} has no result of {test} at {place}.", "Mend “decided by”.")
        if plan.ended.by_job is not None and plan.ended.by_job not in jobs:
            yield Problem(plan.file, f"Visit {plan.ended.by_job[0]} has no such job.", "Mend “job”.")


def _moments(case: Case, now: datetime) -> tuple[datetime, ...]:
    """What happened elsewhere is written down when the vehicle next comes here, else now."""
    return tuple(
        next((datetime.combine(later.day, OPENING) for later in case.visits[index:] if later.here and later.day), now)
        for index in range(len(case.visits))
    )


def _file_people(history: History, workshop: Workshop, now: datetime) -> tuple[Mapping[str, Person], Mapping[str, str]]:
    with history.write(PROGRAM, now) as desk:
        people = {name: Person(desk.add_person(name, role), name, role) for name, role in workshop.people.items()}
        customers = {name: desk.add_customer(name, phone) for name, phone in workshop.customers.items()}
    return people, customers


def _file_case(history: History, filing: Filing, *, person: Person, customers: Mapping[str, str]) -> None:
    case, moments = filing.case, filing.moments
    with history.write(person, moments[0]) as desk:
        vehicle = desk.add_vehicle(case.vehicle, customers[case.vehicle.customer])
        case_id = desk.open_case(vehicle, _details(filing))
    filed = Filed({}, {})
    for visit, moment in zip(case.visits, moments, strict=True):
        with history.write(person, moment) as desk:
            stay = stay_of(visit, filing.plan.orders.get(visit.number, ""))
            at = At(desk.add_visit(vehicle, stay, today=moment.date()), case_id)
            file_visit(desk, at, case, visit=visit, filed=filed)
    if filing.plan.ended is not None:
        with history.write(person, moments[-1] + UNTIL_CLOSED) as desk:
            desk.close_case(case_id, 1, closing=_closing(filing.plan.ended, case, filed))


def file_visit(desk: Desk, at: At, case: Case, *, visit: Visit, filed: Filed) -> None:
    """A visit with all that was said at it; it belongs to the case even if that is nothing."""
    desk.link_visit(at.case or "", at.visit)
    _file_findings(desk, at, visit)
    for result in visit.results:
        filed.results[visit.number, result.test, result.place] = desk.record_result(at, result)
    for index, job in enumerate(visit.jobs):
        filed.jobs[visit.number, index] = desk.record_job(at, replace(job, duties=()))
    _file_duties(desk, at, case, seen=visit.number, filed=filed)
    for defect in visit.defects:
        after = defect.after
        left_by = None if after is None else _job_id((after.visit, after.operation), case, filed)
        desk.record_defect(at, defect, job_id=left_by)


def _file_findings(desk: Desk, at: At, visit: Visit) -> None:
    for symptom in visit.symptoms:
        desk.record_symptom(at, symptom)
    for code in visit.codes:
        desk.record_code(at, code)
    for cleared in visit.cleared:
        desk.record_cleared(at, cleared, source=Source.SEEN_HERE if visit.here else Source.PAPER)


def _file_duties(desk: Desk, at: At, case: Case, *, seen: int, filed: Filed) -> None:
    """A duty is filed at the visit it was seen at, which may come after the job's."""
    for visit in case.visits[:seen]:
        for index, job in enumerate(visit.jobs):
            for duty in job.duties:
                if duty.seen_at_visit == seen:
                    desk.record_duty(at, filed.jobs[visit.number, index], duty)


def _details(filing: Filing) -> CaseDetails:
    return CaseDetails(
        complaint=filing.case.complaint,
        complaint_place=filing.case.complaint_place,
        reproduced=filing.plan.reproduced,
        reproduced_conditions=filing.plan.reproduced_under,
        open_covers=filing.case.open_covers,
    )


def stay_of(visit: Visit, order: str = "") -> Stay:
    """The visit as it is entered at the desk."""
    odometer = visit.odometer_km
    return Stay(
        here=visit.here,
        shop=visit.shop,
        order_number=order,
        day=visit.day,
        odometer=None if odometer is None else Odometer(f"{odometer:.0f}", OdometerUnit.KM, odometer),
        complaint_words=visit.complaint_words,
        cost=visit.cost,
        minutes=visit.minutes,
    )


def _closing(ended: Ended, case: Case, filed: Filed) -> Closing:
    return Closing(
        cause=ended.cause,
        place=ended.place,
        deciding_result=filed.results[ended.decided_by],
        introduced=ended.introduced,
        introduced_by_job=None if ended.by_job is None else _job_id(ended.by_job, case, filed),
        minutes=ended.minutes,
        note=ended.note,
    )


def _job_id(named: tuple[int, str], case: Case, filed: Filed) -> str:
    number, operation = named
    jobs = case.visits[number - 1].jobs
    return next(filed.jobs[number, index] for index, job in enumerate(jobs) if job.operation == operation)

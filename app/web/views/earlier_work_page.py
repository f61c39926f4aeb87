"""The earlier-work audit: job by job, the newest first, what is proven, wrong and unknown of each duty."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from uuid import UUID, uuid5

from app.board.words import capital
from app.earlier_work.audit import Audit, DutyAudit, JobAudit, PastJob, PastResult, Standing, audit
from app.earlier_work.sentences import counted, how_to_verify, job_again, summary, what_follows
from app.evidence.case import DefectSeen, DutyDone, DutyState, Job, Result
from app.history.values import Entry, VisitOnFile
from app.rules.library import Rules
from app.vehicle.layout import Layout, PlaceId
from app.web.forms.audit_form import AuditFields, AuditSent, audit_fields
from app.web.forms.fields import NONE, Problems
from app.web.photos import photo_address
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.board_causes import StatusView
from app.web.views.case_page import complaint_name, vehicle_words
from app.web.views.entries import EntryView, EntryWords, moment, visit_heading
from app.web.views.said import SOURCES, say, sentence

GLYPHS = {
    Standing.PROVEN: "proven",
    Standing.WRONG: "wrong",
    Standing.UNKNOWN: "open",
    Standing.NOT_APPLICABLE: "not-applicable",
}


@dataclass(frozen=True, slots=True)
class TotalView:
    """How many duties stand so."""

    count: str
    status: StatusView
    meaning: str


@dataclass(frozen=True, slots=True)
class SaidView:
    """One entry about a duty. `photo`: the picture's address ("" where there is none)."""

    what: str
    photo: str


@dataclass(frozen=True, slots=True)
class DutyView:
    """`follows`: what it brings when it was left out. `record`: where the test that verifies it is recorded."""

    id: str
    text: str
    status: StatusView
    state_words: str
    follows: str
    verify: str
    record: str
    measured: tuple[str, ...]
    said: tuple[SaidView, ...]
    form: AuditFields


@dataclass(frozen=True, slots=True)
class JobView:
    """`outside`: why the board does not hear of this job ("" where it does); `join`: the visit to count in then.

    `further`: the duties of which nothing was said yet and to whose faults nothing reported points.
    """

    id: str
    heading: str
    visit: str
    known: str
    counted: str
    again: str
    outside: str
    join: str
    record_defect: str
    duties: tuple[DutyView, ...]
    further: tuple[DutyView, ...]


@dataclass(frozen=True, slots=True)
class EarlierWorkPage:
    """`problems`: what could not be recorded, where its form is no longer on the page, what was typed included."""

    frame: Frame
    heading: str
    vehicle: str
    back: str
    history: str
    putting_back: str
    record_defect: str
    action: str
    join: str
    saved: str
    problems: tuple[str, ...]
    summary: tuple[str, ...]
    totals: tuple[TotalView, ...]
    jobs: tuple[JobView, ...]
    defects: tuple[EntryView, ...]


@dataclass(frozen=True, slots=True)
class Answered:
    """What came of the form that was just sent: `theirs` is what somebody else had said meanwhile."""

    sent: AuditSent = field(default_factory=AuditSent)
    problems: Problems = NONE
    theirs: str = ""
    saved: str = ""


NOTHING_SENT = Answered()


def earlier_work_page(
    frame: Frame, scene: Scene, rules: Rules, *, id: str, answered: Answered = NOTHING_SENT
) -> EarlierWorkPage:
    """`id`: a fresh id from which each form on the page takes its own."""
    here = f"/cases/{scene.on_file.id}"
    found = audit_of(scene, rules)
    words = _Words(scene, rules, id, answered)
    jobs = tuple(words.job(one) for one in found.jobs)
    return EarlierWorkPage(
        frame=frame,
        heading=complaint_name(scene.on_file, rules),
        vehicle=vehicle_words(scene.on_file),
        back=here,
        history=f"/vehicles/{scene.on_file.vehicle.id}",
        putting_back=f"{here}/putting-back",
        record_defect=f"{here}?record=defect#entry",
        action=f"{here}/earlier-work",
        join=f"{here}/earlier-work/join",
        saved=answered.saved,
        problems=_left_over(answered, jobs),
        summary=summary(found),
        totals=_totals(found),
        jobs=jobs,
        defects=words.defects(),
    )


def audit_of(scene: Scene, rules: Rules) -> Audit:
    """The audit over all that stands on the vehicle's history; only visits of the case move the board."""
    standing = [visit for visit in scene.timeline.visits if visit.struck is None]
    numbers = {visit.number for visit in standing}
    jobs = [
        PastJob(entry.id, _without_struck(entry.said, numbers), visit.number, visit.id in scene.around.visit_ids)
        for visit in standing
        for entry in visit.entries
        if entry.struck is None and isinstance(entry.said, Job)
    ]
    results = [
        PastResult(entry.said, visit.number)
        for visit in standing
        for entry in visit.entries
        if entry.struck is None and isinstance(entry.said, Result)
    ]
    return audit(jobs, results, board=scene.board, rules=rules, layout=scene.around.layout)


def _without_struck(job: Job, visits: set[int]) -> Job:
    """The job without what was seen of it at a visit that was struck out."""
    kept = tuple(done for done in job.duties if done.seen_at_visit in visits)
    return Job(job.operation, job.places, job.source, job.parts, kept, job.note, job.entry)


def _totals(found: Audit) -> tuple[TotalView, ...]:
    tally = found.tally
    return (
        _total(tally.proven, Standing.PROVEN, "verified, measured or seen here"),
        _total(tally.wrong, Standing.WRONG, "seen or measured here"),
        _total(tally.unknown, Standing.UNKNOWN, "not checked, or only said so by others"),
        _total(tally.not_applicable, Standing.NOT_APPLICABLE, "nothing to verify"),
    )


def _total(count: int, standing: Standing, meaning: str) -> TotalView:
    return TotalView(str(count), _status(standing), meaning)


def _status(standing: Standing) -> StatusView:
    return StatusView(standing.value, GLYPHS[standing])


def duty_anchor(job: str, duty: str) -> str:
    return f"duty-{job}-{duty}"


def _left_over(answered: Answered, jobs: Sequence[JobView]) -> tuple[str, ...]:
    """Problems whose form is no longer on the page, with the note that was typed into it."""
    shown = {duty.id for job in jobs for duty in (*job.duties, *job.further)}
    if not answered.problems or duty_anchor(answered.sent.job, answered.sent.duty) in shown:
        return ()
    note = f"Your note: {answered.sent.note}" if answered.sent.note else ""
    said = (f"{problem.sentence} {problem.mend}" for problem in answered.problems)
    return tuple(one for one in (*said, note) if one)


@dataclass(frozen=True, slots=True)
class _Words:
    """Puts the audit into words."""

    scene: Scene
    rules: Rules
    id: str
    answered: Answered

    @property
    def layout(self) -> Layout:
        return self.scene.around.layout

    @property
    def visits(self) -> Mapping[int, VisitOnFile]:
        return {visit.number: visit for visit in self.scene.timeline.visits}

    def job(self, one: JobAudit) -> JobView:
        visit = self.visits[one.past.visit]
        case = f"/cases/{self.scene.on_file.id}"
        heard = one.past.counts
        first = [duty for duty in one.duties if duty.said or duty.row is not None or self._sent_for(duty, one)]
        unknown = "" if one.operation else "This job is not in the rules: nothing can be asked about it. "
        return JobView(
            id=f"job-{one.past.id}",
            heading=capital(say(one.past.job, self.layout, self.rules)),
            visit=visit_heading(visit.number, visit.stay),
            known=SOURCES[one.past.job.source],
            counted=f"{unknown}{capital(counted(one.tally))}." if one.duties else f"{unknown}No duty goes with it.",
            again=job_again(one),
            outside="" if heard else "This visit is not part of the case, so the board does not hear of it.",
            join="" if heard else visit.id,
            record_defect=f"{case}?record=defect&job={one.past.id}#entry" if heard else "",
            duties=tuple(self.duty(duty, one) for duty in first),
            further=tuple(self.duty(duty, one) for duty in one.duties if duty not in first),
        )

    def duty(self, duty: DutyAudit, job: JobAudit) -> DutyView:
        anchor = duty_anchor(job.past.id, duty.duty.id)
        return DutyView(
            id=anchor,
            text=sentence(duty.duty.text),
            status=_status(duty.standing),
            state_words=_state_words(duty),
            follows=what_follows(duty, self.rules),
            verify=how_to_verify(duty, self.rules),
            record=self._record(duty, job.past),
            measured=tuple(self._measured(result) for result in duty.measured),
            said=tuple(SaidView(self._said(done), photo_address(done.photo)) for done in duty.said),
            form=self._form(duty, job, anchor),
        )

    def defects(self) -> tuple[EntryView, ...]:
        words = EntryWords(self.scene.on_file.vehicle.id, self.layout, self.rules, {}, self.scene.on_file.id)
        return tuple(
            words.entry(entry)
            for visit in reversed(self.scene.timeline.visits)
            for entry in visit.entries
            if isinstance(entry.said, DefectSeen) and visit.struck is None
        )

    def _record(self, duty: DutyAudit, past: PastJob) -> str:
        """The form for the result of the test that verifies it, the place chosen where there is only one."""
        test = self.rules.tests.get(duty.duty.verify_by_test) if duty.duty.verify_by_test else None
        if test is None:
            return ""
        near = [p for p in self.layout.places(test.at) if _near(p, past.job.places, self.layout)]
        place = f"&place={near[0]}" if len(near) == 1 else ""
        return f"/cases/{self.scene.on_file.id}?record=result&test={test.id}{place}#entry"

    def _measured(self, one: PastResult) -> str:
        return f"{capital(say(one.result, self.layout, self.rules))} (visit {one.visit}, {SOURCES[one.result.source]})"

    def _said(self, done: DutyDone) -> str:
        entry = self._entry(done.entry)
        by = f", {entry.recorded_by}, {moment(entry.recorded_at)}" if entry else ""
        note = f". {done.note}" if done.note else ""
        return f"{capital(done.state.value)}, {SOURCES[done.source]} (visit {done.seen_at_visit}){by}{note}"

    def _entry(self, id: str) -> Entry | None:
        entries = (entry for visit in self.scene.timeline.visits for entry in visit.entries)
        return next((entry for entry in entries if entry.id == id), None)

    def _sent_for(self, duty: DutyAudit, job: JobAudit) -> bool:
        """Whether the form that was just refused is this one."""
        sent, answered = self.answered.sent, self.answered
        return (sent.job, sent.duty) == (job.past.id, duty.duty.id) and bool(answered.problems or answered.theirs)

    def _form(self, duty: DutyAudit, job: JobAudit, anchor: str) -> AuditFields:
        """The form as it was sent where it was refused, else a fresh one; its id follows from the page's."""
        sent, answered = self.answered.sent, self.answered
        ours = self._sent_for(duty, job)
        fresh = AuditSent(job=job.past.id, duty=duty.duty.id, entry_id=str(uuid5(UUID(self.id), anchor)))
        seen = ",".join(done.entry for done in duty.said)
        return audit_fields(
            sent.model_copy(update={"entry_id": fresh.entry_id}) if ours else fresh,
            f"{anchor}-{len(duty.said)}",
            seen=seen,
            spoken_of=duty.last is not None and duty.last.state is not DutyState.NOT_CHECKED,
            problems=answered.problems if ours else NONE,
            theirs=answered.theirs if ours else "",
        )


def _state_words(duty: DutyAudit) -> str:
    """What was said where that alone proves nothing."""
    if duty.standing is not Standing.UNKNOWN or duty.last is None or duty.last.state is DutyState.NOT_CHECKED:
        return ""
    return f"said to be {duty.last.state.value}, {SOURCES[duty.last.source]} only"


def _near(place: PlaceId, done_at: Sequence[PlaceId], layout: Layout) -> bool:
    return any(layout.related(one, place) for one in done_at)

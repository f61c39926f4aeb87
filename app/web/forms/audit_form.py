"""One touch on a duty of the earlier-work audit: how it was found, with note, photo and how it is known."""

from __future__ import annotations

from dataclasses import dataclass

from app.evidence.case import DutyDone, DutyState, Job, Source
from app.history.values import Entry, EntryKind, Timeline
from app.problem import Problem
from app.rules.words import DutyId
from app.web.forms.defect_form import photo_field
from app.web.forms.evidence_fields import About, one_of
from app.web.forms.fields import LONGEST_TEXT, NONE, Field, FieldMaker, Problems, Sent, too_long
from app.web.forms.result_form import Button
from app.web.views.said import SOURCES

TOUCHES = (
    Button(DutyState.VERIFIED.value, "Verified"),
    Button(DutyState.FOUND_WRONG.value, "Found wrong"),
    Button(DutyState.NOT_APPLICABLE.value, "Does not apply"),
)
TAKE_BACK = Button(DutyState.NOT_CHECKED.value, "Not checked after all")


class AuditSent(Sent):
    """`state` is the button pressed; `seen`: the entries on this duty that the page showed, with commas;
    `picture`: the name of the photo that came with the form when it was refused.
    """

    job: str = ""
    duty: str = ""
    state: str = ""
    source: str = ""
    note: str = ""
    seen: str = ""
    picture: str = ""


@dataclass(frozen=True, slots=True)
class AuditFields:
    """`problems`: sentences that belong to no field; `theirs`: what somebody else said of the duty in the meantime."""

    job: str
    duty: str
    entry_id: str
    seen: str
    note: Field
    source: Field
    photo: Field
    picture: str
    buttons: tuple[Button, ...]
    problems: tuple[str, ...]
    theirs: str
    unfolded: bool


def audit_fields(
    sent: AuditSent, form: str, *, seen: str, spoken_of: bool, problems: Problems = NONE, theirs: str = ""
) -> AuditFields:
    """The form of one duty. `form`: its id on the page; `spoken_of`: something said of it can be taken back."""
    make = FieldMaker(form, problems)
    return AuditFields(
        job=sent.job,
        duty=sent.duty,
        entry_id=sent.entry_id,
        seen=seen,
        note=make.line("note", "Note", value=sent.note),
        source=make.choice(
            "source",
            "How is it known?",
            options=[(source.value, words) for source, words in SOURCES.items()],
            chosen=sent.source or Source.SEEN_HERE.value,
        ),
        photo=photo_field(make, sent.picture),
        picture=sent.picture,
        buttons=(*TOUCHES, TAKE_BACK) if spoken_of else TOUCHES,
        problems=problems.elsewhere(("note", "source", "photo")),
        theirs=theirs,
        unfolded=bool(problems or theirs or sent.note),
    )


def any_job(id: str, timeline: Timeline) -> Entry | None:
    """A job on the vehicle's history, struck out or not."""
    entries = (entry for visit in timeline.visits for entry in visit.entries)
    return next((entry for entry in entries if entry.kind is EntryKind.JOB and entry.id == id), None)


def read_audit(sent: AuditSent, job: Entry, around: About) -> DutyDone | Problems:
    """What was seen of the duty at our latest visit, or everything that is wrong."""
    problems = [*too_long("note", sent.note, limit=LONGEST_TEXT), *_of_job(sent, job, around)]
    state, source = one_of(DutyState, sent.state), one_of(Source, sent.source)
    if state is None:
        problems.append(Problem("state", "It is not said how it was found.", "Touch one of the answers."))
    if source is None:
        problems.append(Problem("source", "It is not said how this is known.", "Choose one."))
    visit = around.visit(around.now_visit)
    if visit is None:
        problems.append(Problem("visit", "This case has no visit yet.", "Add one first."))
    elif source is not None and source.here and not visit.here:
        problems.append(
            Problem("source", "There is no visit of ours in this case.", "Add ours first, or say how else it is known.")
        )
    if problems or state is None or source is None or visit is None:
        return Problems(problems)
    return DutyDone(DutyId(sent.duty), state, source, visit.number, note=sent.note.strip())


def _of_job(sent: AuditSent, job: Entry, around: About) -> list[Problem]:
    if job.struck is not None:
        why = f"This job was struck out by {job.struck.by}: {job.struck.why}."
        return [Problem("job", why, "Nothing is recorded about it any more. Your note stands here to copy.")]
    operation = around.rules.operations.get(job.said.operation) if isinstance(job.said, Job) else None
    if operation is None or sent.duty not in {duty.id for duty in operation.duties}:
        return [Problem("duty", "This duty is not in the rules any more.", "Look at the list as it is now.")]
    return []

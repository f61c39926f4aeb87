"""The way back from an opened vehicle: covers from the inside out, and this visit's duties, to be ticked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID, uuid5

from app.board.words import capital
from app.earlier_work.audit import Standing
from app.earlier_work.putting_back import DutyToTick, PuttingBack, StepBack, putting_back
from app.earlier_work.sentences import open_items, opened_for
from app.evidence.case import DutyDone, DutyState
from app.history.values import Entry, PutBack
from app.rules.library import Rules
from app.web.forms.result_form import Button
from app.web.scene import Scene
from app.web.showing import Frame
from app.web.views.board_causes import StatusView
from app.web.views.case_page import complaint_name, vehicle_words
from app.web.views.earlier_work_page import GLYPHS
from app.web.views.entries import moment, visit_heading
from app.web.views.said import say, sentence

DONE = StatusView("put back", "proven")
OPEN = StatusView("open", "open")
TICKS = (Button(DutyState.VERIFIED.value, "Done"), Button(DutyState.NOT_APPLICABLE.value, "Does not apply"))


@dataclass(frozen=True, slots=True)
class StepView:
    """`by`: who put it back and when. `cover`: what the form sends ("" where it is done)."""

    number: str
    name: str
    status: StatusView
    minutes: str
    opened_for: str
    mind: tuple[str, ...]
    by: str
    cover: str


@dataclass(frozen=True, slots=True)
class TickView:
    """`job`, `duty`, `seen`, `entry_id`: what the form sends."""

    id: str
    text: str
    status: StatusView
    otherwise: str
    by: str
    job: str
    duty: str
    seen: str
    entry_id: str
    buttons: tuple[Button, ...]


@dataclass(frozen=True, slots=True)
class JobTicks:
    heading: str
    ticks: tuple[TickView, ...]


@dataclass(frozen=True, slots=True)
class PuttingBackPage:
    """`problems`: why the last tick was not taken."""

    frame: Frame
    heading: str
    vehicle: str
    visit: str
    back: str
    close: str
    open_now: str
    action: str
    tick: str
    version: str
    saved: str
    problems: tuple[str, ...]
    said: str
    cautions: tuple[str, ...]
    steps: tuple[StepView, ...]
    jobs: tuple[JobTicks, ...]


def putting_back_page(
    frame: Frame,
    scene: Scene,
    rules: Rules,
    *,
    ticked: Sequence[PutBack],
    id: str,
    saved: str = "",
    problems: Sequence[str] = (),
) -> PuttingBackPage:
    """`ticked`: the covers put back on this case; `id`: a fresh id from which each form takes its own."""
    here = f"/cases/{scene.on_file.id}"
    back = way_back(scene, rules, ticked)
    words = _Words(scene, rules, id)
    at_visit = {one.cover: one for one in ticked if one.visit == our_visit_id(scene)}
    return PuttingBackPage(
        frame=frame,
        heading=complaint_name(scene.on_file, rules),
        vehicle=vehicle_words(scene.on_file),
        visit=_visit_words(scene),
        back=here,
        close=f"{here}/close",
        open_now=f"{here}?record=covers#entry",
        action=f"{here}/putting-back",
        tick=f"{here}/putting-back/duty",
        version=str(scene.on_file.version),
        saved=saved,
        problems=tuple(problems),
        said=_said(back),
        cautions=tuple(sentence(one) for one in back.cautions),
        steps=tuple(_step(number, step, at_visit.get(step.cover.id)) for number, step in enumerate(back.steps, 1)),
        jobs=words.jobs(back.duties),
    )


def way_back(scene: Scene, rules: Rules, ticked: Sequence[PutBack]) -> PuttingBack:
    """What is still to do at our latest visit; ticks of earlier visits no longer count."""
    now = our_visit_id(scene)
    return putting_back(scene.case, rules, put_back={one.cover for one in ticked if one.visit == now})


def left_open(scene: Scene, rules: Rules, ticked: Sequence[PutBack]) -> tuple[str, ...]:
    """What is not put back or not ticked at our latest visit, in words."""
    return open_items(way_back(scene, rules, ticked))


def our_visit_id(scene: Scene) -> str:
    """The id of our latest visit of the case; "" where there is none."""
    return next((visit.entry for visit in reversed(scene.case.visits) if visit.here), "")


def _visit_words(scene: Scene) -> str:
    id = our_visit_id(scene)
    found = next((visit for visit in scene.timeline.visits if visit.id == id), None)
    return visit_heading(found.number, found.stay) if found else "No visit of ours is on file in this case."


def _said(back: PuttingBack) -> str:
    """How much is still to do, in a sentence."""
    left = len(open_items(back))
    if not back.steps and not back.duties:
        return "Nothing is off or open, and no work of this visit is on file."
    if not left:
        return "Everything is put back and ticked."
    things = f"{left} thing{' is' if left == 1 else 's are'} still open"
    minutes = f", {back.minutes_left:.0f} minutes to put the covers back" if back.minutes_left else ""
    return f"{things}{minutes}. The minutes are those of the rules for this build."


def _step(number: int, step: StepBack, put_back: PutBack | None) -> StepView:
    by = f"Put back by {put_back.by}, {moment(put_back.at)}" if step.done and put_back else ""
    return StepView(
        number=str(number),
        name=capital(step.cover.name),
        status=DONE if step.done else OPEN,
        minutes=f"{step.minutes:.0f} min",
        opened_for=opened_for([operation.name for operation in step.opened_for]),
        mind=tuple(sentence(one) for one in step.cover.putting_back),
        by=by,
        cover="" if step.done else step.cover.id,
    )


def _status(duty: DutyToTick) -> StatusView:
    """Open until somebody ticks it; our own word on our own work is a tick whatever its source."""
    match duty.last:
        case None:
            return OPEN
        case DutyDone(state=DutyState.NOT_CHECKED):
            return OPEN
        case DutyDone(state=DutyState.VERIFIED):
            return StatusView("done", GLYPHS[Standing.PROVEN])
        case DutyDone(state=DutyState.FOUND_WRONG):
            return StatusView(Standing.WRONG.value, GLYPHS[Standing.WRONG])
        case _:
            return StatusView(Standing.NOT_APPLICABLE.value, GLYPHS[Standing.NOT_APPLICABLE])


@dataclass(frozen=True, slots=True)
class _Words:
    scene: Scene
    rules: Rules
    id: str

    def jobs(self, duties: Sequence[DutyToTick]) -> tuple[JobTicks, ...]:
        """The duties under their jobs, in order of the jobs."""
        by_job: dict[str, list[DutyToTick]] = {}
        for duty in duties:
            by_job.setdefault(duty.job.entry, []).append(duty)
        return tuple(self._job(some) for some in by_job.values())

    def _job(self, some: Sequence[DutyToTick]) -> JobTicks:
        heading = capital(say(some[0].job, self.scene.around.layout, self.rules))
        return JobTicks(heading, tuple(self._tick(duty) for duty in some))

    def _tick(self, duty: DutyToTick) -> TickView:
        anchor = f"tick-{duty.job.entry}-{duty.duty.id}"
        cause = self.rules.causes.get(duty.duty.brings) if duty.duty.brings else None
        return TickView(
            id=anchor,
            text=sentence(duty.duty.text),
            status=_status(duty),
            otherwise=duty.duty.consequence or (f"{capital(cause.name)}." if cause else ""),
            by=self._by(duty),
            job=duty.job.entry,
            duty=duty.duty.id,
            seen=",".join(done.entry for done in duty.job.duties if done.duty == duty.duty.id),
            entry_id=str(uuid5(UUID(self.id), anchor)),
            buttons=() if duty.ticked else TICKS,
        )

    def _by(self, duty: DutyToTick) -> str:
        entry = self._entry(duty.last.entry) if duty.last else None
        if entry is None or duty.last is None:
            return ""
        note = f". {duty.last.note}" if duty.last.note else ""
        return f"{capital(duty.last.state.value)}: {entry.recorded_by}, {moment(entry.recorded_at)}{note}"

    def _entry(self, id: str) -> Entry | None:
        entries = (entry for visit in self.scene.timeline.visits for entry in visit.entries)
        return next((entry for entry in entries if entry.id == id), None)

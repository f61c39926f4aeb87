"""What every recording route does: write, look again, say what changed, keep a snapshot."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, is_dataclass
from datetime import datetime
from typing import Annotated
from uuid import UUID

from fastapi import Depends, Response
from starlette.background import BackgroundTask

from app.board.as_json import board_as_json
from app.history.desk import Desk
from app.history.ids import new_id
from app.history.values import SnapshotWhy
from app.problem import Refused
from app.web.forms.fields import Field, Problems, Sent
from app.web.given import CurrentRules, History, Now, Show
from app.web.scene import LookAt, Scene
from app.web.showing import Frame
from app.web.views.board_view import changed
from app.web.views.case_page import case_page, complaint_name
from app.web.views.entry_view import OpenForm, entry_form
from app.web.who import Framed, Person

File = Callable[[Desk], object]
RENEWED = ("drive", "board", "live")


@dataclass(frozen=True, slots=True)
class Recording:
    """What every recording route needs besides its form."""

    history: History
    rules: CurrentRules
    look: LookAt
    show: Show
    framed: Framed
    person: Person
    now: Now

    def refused(
        self, scene: Scene, kind: str, *, form: OpenForm, problems: Problems, sent: Sent, status: int = 422
    ) -> Response:
        """The form again with its sentences, everything typed kept."""
        shown = entry_form(
            scene.on_file.id,
            kind,
            form=form,
            entry_id=entry_id(sent, self.now),
            problems=problems.elsewhere(names_in(form)),
        )
        page = case_page(self._frame(scene), scene, self.rules, entry=shown)
        return self.show("board", page, part="entry", status=status)

    def unchosen(self, scene: Scene, kind: str, form: OpenForm) -> Response:
        """What was to be recorded is not one of ours: the list to choose from."""
        sentences = ("This is not in the rules. Choose one of the list.",)
        shown = entry_form(scene.on_file.id, kind, form=form, entry_id=new_id(self.now), problems=sentences)
        page = case_page(self._frame(scene), scene, self.rules, entry=shown)
        return self.show("board", page, part="entry", status=422)

    def saved(self, before: Scene, kind: str, *, said: str, next_form: Callable[[Scene], OpenForm]) -> Response:
        """The fresh form, the board with what changed, and for people without script the board's address."""
        after = self.look(before.on_file.id, first=True)
        shown = entry_form(after.on_file.id, kind, form=next_form(after), entry_id=new_id(self.now), saved=said)
        moved = changed(before.board, after.board)
        page = case_page(self._frame(after), after, self.rules, entry=shown, moved=moved, since=before.fingerprint)
        answer = self.show.saved(
            "board", page, part="entry", also=RENEWED, to=f"/cases/{after.on_file.id}?record={kind}"
        )
        answer.background = BackgroundTask(self._look_further, before, after, kind)
        return answer

    def write(self, file: File) -> Problems | None:
        """File it; what the history refuses comes back as problems of the form."""
        try:
            with self.history.write(self.person, self.now) as desk:
                file(desk)
        except Refused as refusal:
            return Problems(refusal.problems)
        return None

    def _look_further(self, before: Scene, after: Scene, kind: str) -> None:
        """After the answer: the whole board, for whoever asks next, and the snapshot of what a result led to.

        The same entry sent twice changes nothing and keeps nothing.
        """
        board = self.look.whole(after)
        if kind != "result" or before.fingerprint == after.fingerprint:
            return
        with self.history.write(self.person, self.now) as desk:
            desk.snapshot(
                after.on_file.id,
                SnapshotWhy.RESULT,
                rules_version=board.rules_version,
                board=board_as_json(board),
                minutes=self.history.spent(after.on_file.id).minutes,
            )

    def _frame(self, scene: Scene) -> Frame:
        return self.framed(complaint_name(scene.on_file, self.rules))


Recorder = Annotated[Recording, Depends(Recording)]


def entry_id(sent: Sent, now: datetime) -> str:
    """The id the form was shown with, so that sending it twice records it once; a fresh one where it holds none."""
    try:
        return str(UUID(sent.entry_id))
    except ValueError:
        return new_id(now)


def names_in(form: object) -> Iterator[str]:
    """The names of all fields a form shows."""
    if isinstance(form, Field):
        yield form.name
    elif isinstance(form, tuple):
        for one in form:
            yield from names_in(one)
    elif is_dataclass(form):
        for part in fields(form):
            yield from names_in(getattr(form, part.name))

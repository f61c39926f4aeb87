"""The settings of the shop: its figures set, changed and taken back by a manager; a vehicle's family named."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Depends, Form, Query, Response

from app.history.errors import Changed
from app.history.figures import Figure, FigureOnFile
from app.history.ids import new_id
from app.history.values import Role
from app.problem import Problem, Refused
from app.web.forms.fields import NONE, Problems, Sent
from app.web.forms.figure_form import FigureSent, figure_fields, names, read_figure
from app.web.forms.void_form import version_of
from app.web.given import CurrentRules, History, Now, OnFile, Show
from app.web.recording import entry_id
from app.web.views.settings_page import amount, settings_page, what_it_is
from app.web.who import Framed, Person

router = APIRouter()
SHOWN = {"kind", "about", "family", "value"}


class TakeBackSent(Sent):
    version: str = ""


@dataclass(frozen=True, slots=True)
class Settling:
    """What every settings route needs."""

    history: History
    rules: CurrentRules
    show: Show
    framed: Framed
    now: Now

    def page(
        self,
        sent: FigureSent,
        *,
        problems: Problems = NONE,
        saved: str = "",
        theirs: str = "",
        yours: str = "",
        status: int = 200,
    ) -> Response:
        view = settings_page(
            self.framed("Settings"),
            self.history.figures(),
            self.rules,
            fields=figure_fields(sent, self.history.vehicle_families(), problems=problems),
            entry_id=entry_id(sent, self.now) if problems or theirs else new_id(self.now),
            saved=saved,
            problems=problems.elsewhere(SHOWN),
            theirs=theirs,
            yours=yours,
        )
        if saved:
            return self.show.saved("settings", view, part="settings", to="/settings")
        return self.show("settings", view, part="settings", status=status)

    def said(self, one: FigureOnFile) -> str:
        return f"{what_it_is(one, self.rules)}: {amount(one)}, by {one.by}"


Settle = Annotated[Settling, Depends(Settling)]


@router.get("/settings")
def show_settings(settle: Settle, figure: Annotated[str, Query(max_length=64)] = "") -> Response:
    found = next((one for one in settle.history.figures() if one.id == figure), None)
    return settle.page(_sent_of(found, settle) if found else FigureSent())


def _sent_of(one: FigureOnFile, settle: Settling) -> FigureSent:
    """The form filled in with a figure that stands, to put another in its place."""
    figure = one.figure
    about = names(figure.kind, settle.rules).get(figure.about, figure.about)
    return FigureSent(kind=figure.kind.value, about=about, family=figure.family, value=figure.words, seen=one.id)


@router.post("/settings")
def set_figure(sent: Annotated[FigureSent, Form()], settle: Settle, person: Person) -> Response:
    problems = only_managers(person)
    figure = read_figure(sent, settle.rules)
    if problems or isinstance(figure, Problems):
        wrong = problems or (figure if isinstance(figure, Problems) else NONE)
        return settle.page(sent, problems=wrong, status=403 if problems else 422)
    try:
        with settle.history.write(person, settle.now) as desk:
            desk.set_figure(figure, seen=sent.seen, entry_id=entry_id(sent, settle.now))
    except Refused as refusal:
        return settle.page(sent, problems=Problems(refusal.problems), status=422)
    except Changed as changed:
        return _faster(sent, figure, changed.current, settle)
    return settle.page(FigureSent(), saved=f"Set: {figure.kind.value}, {figure.words}.")


def _faster(sent: FigureSent, figure: Figure, current: object, settle: Settling) -> Response:
    """Both figures side by side; sent again, ours takes the place of theirs."""
    stands = current if isinstance(current, FigureOnFile) else None
    theirs = settle.said(stands) if stands else "The figure was taken back in the meantime."
    again = sent.model_copy(update={"seen": stands.id if stands else ""})
    return settle.page(again, theirs=theirs, yours=figure.words, status=409)


@router.post("/settings/{figure_id}/take-back")
def take_back(figure_id: OnFile, sent: Annotated[TakeBackSent, Form()], settle: Settle, person: Person) -> Response:
    if problems := only_managers(person):
        return settle.page(FigureSent(), problems=problems, status=403)
    try:
        with settle.history.write(person, settle.now) as desk:
            desk.take_back_figure(figure_id, seen=version_of(sent.version))
    except Changed as changed:
        current = changed.current
        theirs = settle.said(current) if isinstance(current, FigureOnFile) else "It was taken back already."
        return settle.page(FigureSent(), theirs=theirs, yours="take it back", status=409)
    return settle.page(FigureSent(), saved="Taken back; the supplied figure holds again.")


def only_managers(person: Person) -> Problems:
    """A sentence for whoever is no manager."""
    if person.role is Role.MANAGER:
        return NONE
    sentence = f"Only a manager changes settings; {person.name} is {person.role.value}."
    return Problems([Problem("who", sentence, "Choose who is working at the top right.")])

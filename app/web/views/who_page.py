"""Choosing who is working."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.history.values import Person, Role
from app.web.forms.fields import NONE, Field, FieldMaker, Problems, Sent, too_long
from app.web.forms.result_form import Button
from app.web.showing import Frame


class WhoSent(Sent):
    """Either a person on file, or the name and role of a new one."""

    person: str = ""
    name: str = ""
    role: str = ""
    back: str = ""


@dataclass(frozen=True, slots=True)
class WhoPage:
    frame: Frame
    people: tuple[Button, ...]
    back: str
    name: Field
    role: Field
    entry_id: str


def who_page(
    frame: Frame, people: Sequence[Person], *, sent: WhoSent, entry_id: str, problems: Problems = NONE
) -> WhoPage:
    make = FieldMaker("who", problems)
    return WhoPage(
        frame=frame,
        people=tuple(Button(one.id, f"{one.name} ({one.role.value})", main=one.name == frame.person) for one in people),
        back=safe_back(sent.back),
        name=make.line("name", "Name", value=sent.name),
        role=make.choice(
            "role", "Role", options=[(r.value, r.value) for r in Role], chosen=sent.role or Role.TECHNICIAN.value
        ),
        entry_id=entry_id,
    )


def safe_back(back: str) -> str:
    """Only an address of our own is gone back to."""
    ours = back.startswith("/") and not back.startswith(("//", "/\\")) and back.isprintable() and len(back) < 500
    return back if ours else "/"


def name_problems(sent: WhoSent) -> Problems:
    return Problems(too_long("name", sent.name, limit=60))

"""What the demo workshop adds to its case files: people, customers, repair orders, and how the cases ended."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.history.values import Introduced, Reproduced, Role
from app.problem import Problem
from app.rules.library import Rules
from app.rules.section import Section
from app.rules.tree import Notes, Text, read_tree
from app.rules.words import CauseId
from app.vehicle.layout import PlaceId


@dataclass(frozen=True, slots=True)
class Ended:
    """How a case ended. `decided_by`: number of the visit, test and place of the result that decided.

    `by_job`: number of the visit and operation of the job that brought the cause in.
    """

    cause: CauseId
    place: PlaceId
    decided_by: tuple[int, str, str]
    introduced: Introduced
    by_job: tuple[int, str] | None
    minutes: float
    note: str


@dataclass(frozen=True, slots=True)
class CasePlan:
    """What goes with one case file; `orders`: repair-order number by visit number."""

    file: str
    worked_by: str
    orders: Mapping[int, str]
    reproduced: Reproduced
    reproduced_under: tuple[str, ...]
    ended: Ended | None


@dataclass(frozen=True, slots=True)
class Workshop:
    """People and customers by name."""

    people: Mapping[str, Role]
    customers: Mapping[str, str]
    cases: tuple[CasePlan, ...]


def read_workshop(text: str, file: str, rules: Rules) -> tuple[Workshop, tuple[Problem, ...]]:
    """The workshop in this text, with every problem found in it."""
    notes = Notes()
    top = Section(read_tree(text, file, notes), "the workshop", notes)
    people = _read_people(top)
    workshop = Workshop(
        people=people,
        customers=_read_texts(top, "customers"),
        cases=tuple(_read_plan(name, section, people, rules=rules) for name, section in top.sections("cases")),
    )
    top.close()
    return workshop, tuple(notes.problems)


def _read_people(top: Section) -> Mapping[str, Role]:
    said = _read_texts(top, "people")
    roles = list(Role)
    for name, role in said.items():
        top.known(role, roles, kind=f"role of {name}:", where=top.line("people"))
    return {name: Role(role) for name, role in said.items() if role in roles}


def _read_texts(section: Section, key: str) -> Mapping[str, str]:
    entries = section.entries(key)
    return {name: entry.node.value for name, entry in entries.items() if isinstance(entry.node, Text)}


def _read_plan(name: str, section: Section, people: Mapping[str, Role], *, rules: Rules) -> CasePlan:
    plan = CasePlan(
        file=f"{name}.yaml",
        worked_by=section.choice("worked by", people, "person"),
        orders={int(number): order for number, order in _read_texts(section, "repair orders").items()},
        reproduced=Reproduced(section.choice("reproduced", list(Reproduced), "answer") or Reproduced.NOT_TRIED),
        reproduced_under=section.texts("reproduced under"),
        ended=_read_end(section.section("closed"), rules) if section.has("closed") else None,
    )
    section.close()
    return plan


def _read_end(section: Section, rules: Rules) -> Ended:
    decided, job = section.section("decided by"), section.section("job") if section.has("job") else None
    ended = Ended(
        cause=CauseId(section.choice("cause", rules.causes, "cause")),
        place=PlaceId(section.text("at")),
        decided_by=(int(decided.number("visit")), decided.choice("test", rules.tests, "test"), decided.text("at")),
        introduced=Introduced(section.choice("introduced", list(Introduced), "answer") or Introduced.NOT_KNOWN),
        by_job=None if job is None else (int(job.number("visit")), job.choice("operation", rules.operations, "job")),
        minutes=section.number("minutes"),
        note=section.text("note"),
    )
    section.close()
    return ended

"""operations.yaml and teardown.yaml as typed values."""

from __future__ import annotations

from collections.abc import Mapping

from app.rules.known_ids import KnownIds, Trees
from app.rules.operations import Cover, Duty, OnBuild, Operation
from app.rules.read_lists import Builds, read_builds
from app.rules.reading import known_texts, phrase, read_level
from app.rules.section import Section
from app.rules.tree import Notes
from app.rules.words import CauseId, CoverId, DutyId, Effect, OperationId, TestId


def read_operations(trees: Trees, ids: KnownIds, notes: Notes) -> Mapping[OperationId, Operation]:
    """Every operation of the catalogue."""
    read = {}
    for tree in trees.operations.values():
        file = Section(tree, "the operations file", notes)
        for name, entry in tree.entries.items():
            read[OperationId(name)] = _read_operation(name, file.within(entry, f"operation “{name}”", name), ids)
    return read


def _read_operation(name: str, section: Section, ids: KnownIds) -> Operation:
    operation = Operation(
        id=OperationId(name),
        name=section.text("name"),
        at=read_level(section, "at"),
        minutes=section.number("minutes"),
        opens=tuple(map(CoverId, known_texts(section, "opens", known=ids.covers, kind="cover"))),
        touches=_read_touches(section, ids),
        duties=tuple(_read_duty(duty, below, ids) for duty, below in section.sections("duties")),
        cautions=section.texts("cautions"),
    )
    section.close()
    return operation


def _read_touches(section: Section, ids: KnownIds) -> Mapping[CauseId, Effect]:
    touches = {}
    for name, entry in section.entries("touches").items():
        section.known(name, ids.causes, kind="cause", where=entry.where)
        word = section.known(phrase(entry.node), list(Effect), kind="effect", where=entry.where)
        touches[CauseId(name)] = Effect(word) if word in list(Effect) else Effect.OPENS
        if not word:
            section.notes.refuse(entry.where, f"What is done to “{name}” is not said.", "Write renews, sets or opens.")
    return touches


def _read_duty(name: str, section: Section, ids: KnownIds) -> Duty:
    brings = section.choice("brings", ids.causes, "cause") if section.has("brings") else None
    consequence = section.optional_text("otherwise")
    if brings is None and consequence is None:
        section.notes.refuse(
            section.where,
            f"What follows when “{name}” is forgotten is not said.",
            "Add “brings: <cause>” or “otherwise: <sentence>”.",
        )
    verify = section.text("verify by")
    by_test = bool(verify) and " " not in verify
    if by_test:
        section.known(verify, ids.tests, kind="test", where=section.line("verify by"))
    duty = Duty(
        id=DutyId(name),
        text=section.text("text"),
        brings=CauseId(brings) if brings else None,
        consequence=consequence or "",
        verify_by_test=TestId(verify) if by_test else None,
        verify_how="" if by_test else verify,
    )
    section.close()
    return duty


def read_covers(trees: Trees, notes: Notes) -> Mapping[CoverId, Cover]:
    """Every teardown state."""
    builds = read_builds(trees, notes)
    file = Section(trees.teardown, "the teardown file", notes)
    return {
        CoverId(name): _read_cover(name, file.within(entry, f"cover “{name}”", name), builds)
        for name, entry in trees.teardown.entries.items()
    }


def _read_cover(name: str, section: Section, builds: Builds) -> Cover:
    reach, restore = section.number("reach minutes"), section.number("restore minutes")
    on = tuple(_read_on(build, below, builds) for build, below in section.sections("on"))
    minded = section.texts("putting back")
    cover = Cover(CoverId(name), section.text("name"), reach, restore, on, minded)
    section.close()
    return cover


def _read_on(build: str, section: Section, builds: Builds) -> OnBuild:
    section.known(build, builds, kind="build", where=section.where)
    on = OnBuild(builds.get(build, {}), section.number("reach minutes"), section.number("restore minutes"))
    section.close()
    return on

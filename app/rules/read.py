"""Rule texts as typed rules, or every problem in them with its file and line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from hashlib import sha256

from app.problem import Problem
from app.rules.causes import Cause
from app.rules.known_ids import Trees, gather
from app.rules.library import Family, Rules
from app.rules.line_map import lines_of
from app.rules.nearest import did_you_mean
from app.rules.read_cause import read_cause
from app.rules.read_lists import read_quantities, read_situations, read_systems, read_traits
from app.rules.read_operation import read_covers, read_operations
from app.rules.read_symptom import read_symptom, refuse_circles
from app.rules.read_test import TestRead, read_test
from app.rules.read_words import read_settings, read_words
from app.rules.reading import Reading, known_texts
from app.rules.section import Section
from app.rules.symptoms import Symptom
from app.rules.tests import CannotShow, Test
from app.rules.tree import Notes, Table, read_tree
from app.rules.words import CauseId, FamilyId, SymptomId, TestId

SINGLE = ("teardown", "quantities", "places", "shared", "strengths", "sources")


def read_rules(texts: Mapping[str, str]) -> tuple[Rules | None, tuple[Problem, ...]]:
    """The rules in these texts, or None with every problem found.

    Keys are file names relative to the rules folder ("families/brake-judder.yaml"), values the files' texts.
    """
    notes = Notes()
    trees = _read_trees(texts, notes)
    rules = _build(trees, version_of(texts), notes)
    return (None if notes.problems else rules), tuple(notes.problems)


def version_of(texts: Mapping[str, str]) -> str:
    """A short mark that changes whenever any text, or the name of any file, changes."""
    digest = sha256()
    for name in sorted(texts):
        digest.update(f"{name}\0{texts[name]}\0".encode("utf-8", "surrogatepass"))
    return digest.hexdigest()[:12]


def _read_trees(texts: Mapping[str, str], notes: Notes) -> Trees:
    families: dict[str, Table] = {}
    operations: dict[str, Table] = {}
    single: dict[str, Table] = {}
    for file in sorted(texts):
        shelf, _, name = file.removesuffix(".yaml").rpartition("/")
        tree = read_tree(texts[file], file, notes)
        if shelf == "families":
            families[name] = tree
        elif shelf == "operations" or file == "operations.yaml":
            operations[file] = tree
        elif not shelf and name in SINGLE:
            single[name] = tree
        else:
            mend = did_you_mean(name, (*SINGLE, "operations"), otherwise="Families lie in families/.")
            notes.refuse(f"{file}:1", f"No rule file is called “{file}”.", mend)
    for name in SINGLE:
        if name not in single:
            notes.refuse(f"{name}.yaml", f"The file {name}.yaml is missing.", "Put it back into the rules folder.")
    empty = {name: Table({}, f"{name}.yaml:1") for name in SINGLE}
    return Trees(families=families, operations=operations, **(empty | single))


def _build(trees: Trees, version: str, notes: Notes) -> Rules:
    ids = gather(trees, notes)
    words, settings = read_words(trees, notes), read_settings(trees, notes)
    families: dict[FamilyId, Family] = {}
    symptoms: dict[SymptomId, Symptom] = {}
    causes: dict[CauseId, Cause] = {}
    tests: dict[TestId, TestRead] = {}
    for name, tree in trees.families.items():
        reading = Reading(FamilyId(name), ids, words, settings)
        file = Section(tree, f"family “{name}”", notes)
        families[reading.family] = _read_family(file, reading)
        for key, below in file.sections("symptoms"):
            symptoms[SymptomId(key)] = read_symptom(key, _named(below, "symptom", key), reading)
        for key, below in file.sections("causes"):
            causes[CauseId(key)] = read_cause(key, _named(below, "cause", key), reading)
        for key, below in file.sections("tests"):
            tests[TestId(key)] = read_test(key, _named(below, "test", key), reading)
        file.close()
    refuse_circles(symptoms, ids, notes)
    return Rules(
        version=version,
        families=families,
        causes=causes,
        symptoms=symptoms,
        tests={key: _spelled_out(read, families[read.test.family], causes.values()) for key, read in tests.items()},
        operations=read_operations(trees, ids, notes),
        covers=read_covers(trees, notes),
        situations=read_situations(trees, notes),
        systems=read_systems(trees, notes),
        quantities=read_quantities(trees, notes),
        traits=read_traits(trees, notes),
        words=words,
        settings=settings,
        lines=lines_of(trees),
    )


def _named(section: Section, kind: str, name: str) -> Section:
    section.what = f"{kind} “{name}”"
    return section


def _read_family(file: Section, reading: Reading) -> Family:
    lead = known_texts(file, "lead", known=reading.ids.symptoms, kind="symptom")
    if not lead:
        file.missing("lead")
    also = known_texts(file, "also causes", known=reading.ids.causes, kind="cause")
    return Family(
        reading.family,
        file.text("name"),
        file.text("scope"),
        tuple(map(SymptomId, lead)),
        tuple(map(CauseId, also)),
    )


def _spelled_out(read: TestRead, family: Family, causes: Iterable[Cause]) -> Test:
    """The test with each system it cannot show spelled out as that system's causes of the same family.

    What the test shows, or names by itself under `cannot show`, is excepted.
    """
    spoken = {shows.cause for shows in read.test.shows}
    cannot = []
    for cause in causes:
        if cause.id in read.cannot_show:
            cannot.append(CannotShow(cause.id, read.cannot_show[cause.id]))
        elif cause.system in read.cannot_show and cause.id not in spoken and family.has(cause):
            cannot.append(CannotShow(cause.id, read.cannot_show[cause.system]))
    return replace(read.test, cannot_show=tuple(cannot))

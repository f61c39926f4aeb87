"""Rule texts as typed rules, or every problem in them with its file and line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from hashlib import sha256
from types import MappingProxyType

from app.problem import Problem
from app.rules.causes import Cause, Gives
from app.rules.fold import fold
from app.rules.known_ids import Trees, gather
from app.rules.library import Family, Rules
from app.rules.line_map import lines_of
from app.rules.nearest import did_you_mean
from app.rules.own import OWN, lay_over
from app.rules.read_cause import read_cause
from app.rules.read_defects import read_defects
from app.rules.read_lists import read_quantities, read_situations, read_systems, read_traits
from app.rules.read_monitors import read_code_states, read_monitors
from app.rules.read_operation import read_covers, read_operations
from app.rules.read_symptom import read_symptom, refuse_circles
from app.rules.read_test import TestRead, read_test
from app.rules.read_words import read_settings, read_words
from app.rules.reading import Reading, known_texts
from app.rules.section import Section
from app.rules.symptoms import Symptom
from app.rules.tests import CannotShow, Test
from app.rules.tree import Notes, Table, read_tree
from app.rules.words import CauseId, FamilyId, SymptomId, TestId, WordList

NOTHING: Mapping[str, str] = MappingProxyType({})
SINGLE = ("teardown", "quantities", "places", "shared", "strengths", "sources", "monitors", "findings")


def read_rules(texts: Mapping[str, str], own: Mapping[str, str] = NOTHING) -> tuple[Rules | None, tuple[Problem, ...]]:
    """The rules in these texts with the shop's `own` laid over them, or None with every problem found.

    Keys are file names relative to the rules folder ("families/brake-judder.yaml"), values the files' texts.
    """
    notes = Notes()
    trees = _read_trees(texts, notes)
    for name in SINGLE:
        if f"{name}.yaml" not in texts:
            notes.refuse(f"{name}.yaml", f"The file {name}.yaml is missing.", "Put it back into the rules folder.")
    if own:
        trees = lay_over(fold(trees, notes), _read_trees(own, notes, OWN))
    rules = _build(
        fold(trees, notes), version_of({**texts, **{f"{OWN}{name}": text for name, text in own.items()}}), notes
    )
    return (None if notes.problems else rules), tuple(notes.problems)


def version_of(texts: Mapping[str, str]) -> str:
    """A short mark that changes whenever any text, or the name of any file, changes."""
    digest = sha256()
    for name in sorted(texts):
        digest.update(f"{name}\0{texts[name]}\0".encode("utf-8", "surrogatepass"))
    return digest.hexdigest()[:12]


def _read_trees(texts: Mapping[str, str], notes: Notes, folder: str = "") -> Trees:
    families: dict[str, Table] = {}
    operations: dict[str, Table] = {}
    single: dict[str, Table] = {}
    for file in sorted(texts):
        shelf, _, name = file.removesuffix(".yaml").rpartition("/")
        tree = read_tree(texts[file], f"{folder}{file}", notes)
        if shelf == "families":
            families[name] = tree
        elif shelf == "operations" or file == "operations.yaml":
            operations[file] = tree
        elif not shelf and name in SINGLE:
            single[name] = tree
        else:
            mend = did_you_mean(name, (*SINGLE, "operations"), otherwise="Families lie in families/.")
            notes.refuse(f"{folder}{file}:1", f"No rule file is called “{file}”.", mend)
    empty = {name: Table({}, f"{folder}{name}.yaml:1") for name in SINGLE}
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
    causes = {name: replace(cause, gives=_with_general(cause.gives, symptoms)) for name, cause in causes.items()}
    families = {name: replace(family, causes=_causes_of(family, causes, symptoms)) for name, family in families.items()}
    return Rules(
        version=version,
        families=families,
        causes=causes,
        symptoms=symptoms,
        tests={key: _spelled_out(read, families, causes) for key, read in tests.items()},
        operations=read_operations(trees, ids, notes),
        covers=read_covers(trees, notes),
        defects=read_defects(trees, ids, words, notes=notes),
        situations=read_situations(trees, notes),
        systems=read_systems(trees, notes),
        quantities=read_quantities(trees, notes),
        traits=read_traits(trees, notes),
        words=words,
        settings=settings,
        lines=lines_of(trees),
        monitors=read_monitors(trees, notes),
        code_states=read_code_states(trees, notes),
    )


def _named(section: Section, kind: str, name: str) -> Section:
    section.what = f"{kind} “{name}”"
    return section


def _read_family(file: Section, reading: Reading) -> Family:
    lead = known_texts(file, "lead", known=reading.ids.symptoms, kind="symptom")
    if not lead:
        file.missing("lead")
    strikes = reading.rated_key(file, "strikes", WordList.STRIKES)
    return Family(reading.family, file.text("name"), file.text("scope"), tuple(map(SymptomId, lead)), strikes)


def _causes_of(
    family: Family, causes: Mapping[CauseId, Cause], symptoms: Mapping[SymptomId, Symptom]
) -> tuple[CauseId, ...]:
    """The causes at home in the family, and those from elsewhere that give a lead complaint or a kind of one."""
    leading = {name for name in symptoms if any(kind in family.lead for kind in _kinds(name, symptoms))}
    return tuple(
        cause.id
        for cause in causes.values()
        if cause.family == family.id or any(gives.symptom in leading for gives in cause.gives)
    )


def _with_general(given: tuple[Gives, ...], symptoms: Mapping[SymptomId, Symptom]) -> tuple[Gives, ...]:
    """What gives a kind of a symptom gives the general symptom too: as the rule says, or as often as the kind."""
    effects = {gives.symptom: gives for gives in given}
    for gives in sorted(given, key=lambda gives: -gives.how_often.chance):
        for general in _kinds(gives.symptom, symptoms)[1:]:
            effects.setdefault(general, replace(gives, symptom=general))
    return tuple(effects.values())


def _kinds(symptom: SymptomId, symptoms: Mapping[SymptomId, Symptom]) -> tuple[SymptomId, ...]:
    found = [symptom]
    while (more := symptoms.get(found[-1])) is not None and more.kind_of is not None and more.kind_of not in found:
        found.append(more.kind_of)
    return tuple(found)


def _spelled_out(read: TestRead, families: Mapping[FamilyId, Family], causes: Mapping[CauseId, Cause]) -> Test:
    """The test with each system it cannot show spelled out as that system's causes of the family it is said for.

    What the test shows, or names by itself under `cannot show`, is excepted.
    """
    reasons: dict[CauseId, str] = {}
    for said in read.cannot_show.values():
        reasons |= {CauseId(name): reason for name, reason in said.items() if name in causes}
    spoken = {shows.cause for shows in read.test.shows} | set(reasons)
    for family, said in read.cannot_show.items():
        for name in families[family].causes:
            system = causes[name].system
            if system in said and name not in spoken:
                reasons.setdefault(name, said[system])
    return replace(read.test, cannot_show=tuple(CannotShow(name, reason) for name, reason in reasons.items()))

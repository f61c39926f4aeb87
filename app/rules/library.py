"""All rules together, typed and indexed: what the rest of the program works with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from app.measurements.quantities import Quantity
from app.rules.causes import Cause
from app.rules.defects import DefectKind
from app.rules.monitors import CodeStateRule, Monitor
from app.rules.operations import Cover, Duty, Operation
from app.rules.symptoms import Symptom
from app.rules.tests import Test
from app.rules.words import (
    CauseId,
    CoverId,
    DefectId,
    FamilyId,
    OperationId,
    Rated,
    SituationId,
    SymptomId,
    TestId,
    WordList,
)
from app.vehicle.layout import Layout, PlaceId


@dataclass(frozen=True, slots=True)
class Family:
    """A complaint family. `lead`: the symptoms that are its lead complaint, most general first.

    `strikes`: how many faults of the family a vehicle gets in a year of use.

    `causes`: those at home here, which have their share here, and those from other families that give a lead complaint.
    """

    id: FamilyId
    name: str
    scope: str
    lead: tuple[SymptomId, ...]
    strikes: Rated
    causes: tuple[CauseId, ...] = ()

    def has(self, cause: Cause) -> bool:
        """Whether this cause is at home here or gives a lead complaint from elsewhere."""
        return cause.id in self.causes


@dataclass(frozen=True, slots=True)
class Situation:
    """A circumstance of a test that can blind it, asked for when the result is recorded ("taken cold")."""

    id: SituationId
    name: str
    question: str


@dataclass(frozen=True, slots=True)
class Trait:
    """Something about a vehicle's build that decides which causes fit it.

    `per_axle`: each axle can differ ("rear brakes"). `computed`: follows from the layout and is never entered.
    `asked_first`: the form for a new vehicle shows it before the rest.
    """

    name: str
    values: tuple[str, ...]
    per_axle: bool
    computed: bool = False
    asked_first: bool = False


@dataclass(frozen=True, slots=True)
class Settings:
    """The stated settings of the model (seed_data/rules/strengths.yaml and sources.yaml)."""

    unlisted_share: float
    job_renews: float
    job_sets: float
    bad_part: float
    shows_again: float
    shows_again_comes_and_goes: float
    early_share_grows: float
    wears_in_over_km: float
    normal_if_invented: float
    leak: float
    labour_rate: float
    hours_when_nothing_listed_helps: float
    reliability: Mapping[str, float]
    proof_still_there_at_most: float = 0.03
    proof_wait_shape: float = 1.0


@dataclass(frozen=True, slots=True, eq=False)
class Rules:
    """The whole rule library. `version` changes whenever any rule text changes; `lines`: where each rule stands.

    Two libraries are the same only if they are one object, so what follows from one can be kept.
    """

    version: str
    families: Mapping[FamilyId, Family]
    causes: Mapping[CauseId, Cause]
    symptoms: Mapping[SymptomId, Symptom]
    tests: Mapping[TestId, Test]
    operations: Mapping[OperationId, Operation]
    covers: Mapping[CoverId, Cover]
    defects: Mapping[DefectId, DefectKind]
    situations: Mapping[SituationId, Situation]
    systems: Mapping[str, str]
    quantities: Mapping[str, Quantity]
    traits: Mapping[str, Trait]
    words: Mapping[WordList, Mapping[str, Rated]]
    settings: Settings
    lines: Mapping[tuple[str, ...], str] = field(default_factory=dict)
    monitors: Mapping[str, Monitor] = field(default_factory=dict)
    code_states: Mapping[str, CodeStateRule] = field(default_factory=dict)

    def where(self, *path: str) -> str:
        """File and line of the rule at this path of keys, or of the nearest one above it."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, "rules")

    def defect_places(self, kind: DefectKind, layout: Layout) -> tuple[PlaceId, ...]:
        """Where a defect of this kind can be on this vehicle: where its cause can act, or anywhere."""
        return layout.all_places() if kind.brings is None else self.causes[kind.brings].can_act_at(layout)

    def duties_on(self, operation: Operation, layout: Layout) -> tuple[Duty, ...]:
        """The duties of an operation that this vehicle can have left undone: it can have what each guards against."""
        return tuple(
            duty for duty in operation.duties if duty.brings is None or self.causes[duty.brings].can_act_at(layout)
        )

    def kinds(self, symptom: SymptomId) -> tuple[SymptomId, ...]:
        """The symptom and, after it, everything it is a kind of, up to the most general."""
        kind_of = self.symptoms[symptom].kind_of
        return (symptom,) if kind_of is None else (symptom, *self.kinds(kind_of))

    def lead_of(self, complaint: SymptomId) -> SymptomId:
        """The lead complaint that this symptom is, or is a kind of; a family with several keeps them apart.

        What leads nowhere (a smell that only comes beside other things) leads a case of its own.
        """
        lead, kinds = self.family_of(complaint).lead, self.kinds(complaint)
        return next((name for name in kinds if name in lead), kinds[-1])

    def family_of(self, complaint: SymptomId) -> Family:
        """The family whose lead complaint this symptom is, or is a kind of: the nearest, and its home before others."""
        for name in self.kinds(complaint):
            leading = [family for family in self.families.values() if name in family.lead]
            if leading:
                home = self.symptoms[complaint].family
                return next((family for family in leading if family.id == home), leading[0])
        return self.families[self.symptoms[complaint].family]

    def meanings_of(self, code: str, layout: Layout) -> tuple[tuple[SymptomId, PlaceId], ...]:
        """The symptoms a trouble code stands for on this vehicle, each with its place."""
        return tuple(
            (symptom.id, PlaceId(pattern.place or layout.places(symptom.at)[0]))
            for symptom in self.symptoms.values()
            for pattern in symptom.codes
            if pattern.code == code and (pattern.place is None or layout.has(PlaceId(pattern.place)))
        )

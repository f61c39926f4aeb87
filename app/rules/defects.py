"""Kinds of defect that work can leave behind and that somebody then comes upon (seed_data/rules/findings.yaml)."""

from __future__ import annotations

from dataclasses import dataclass

from app.rules.words import CauseId, DefectId, Rated


@dataclass(frozen=True, slots=True)
class DefectKind:
    """`means`: what follows from it, in a sentence.

    `brings`: the cause that is then there, and `how`: how often a job that is named for it leaves it behind (both None
    where the sentence is all that can be said).
    """

    id: DefectId
    name: str
    means: str
    brings: CauseId | None
    how: Rated | None
    cautions: tuple[str, ...]

    def chance_left_behind(self) -> float:
        """The chance that a job named for this defect left it behind; 0 where it brings no cause."""
        return 0.0 if self.how is None else self.how.chance

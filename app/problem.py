"""The one shape of "this is wrong": for forms, case files and rule files alike."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong, where, and how to mend it.

    `where` is the name of a form field, or `file:line` for rule and case files.
    """

    where: str
    sentence: str
    mend: str

    def __str__(self) -> str:
        return f"{self.where}: {self.sentence} {self.mend}".strip()


class Refused(Exception):
    """Input that cannot be taken; carries every problem found, not only the first."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))

"""The rules in use: the supplied ones with the shop's own laid over them, and the way to change the shop's own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from threading import Lock
from typing import Annotated

from fastapi import Depends, Request

from app.problem import Problem
from app.rules.check import check_rules
from app.rules.library import Rules
from app.rules.own_text import Said, with_said, without
from app.rules.read import read_rules
from app.seed.rule_folder import load_rules, own_changes, own_texts, read_texts, write_own

FORM = "form"
"""Where a problem belongs that is no single field's."""


@dataclass(frozen=True, slots=True)
class Change:
    """One key of one of the shop's rule files says this from now on; None takes back what it says there."""

    file: str
    path: tuple[str, ...]
    said: Said | None


class RuleBook:
    """One per app. A change is written only if the rules with it can be read and bring in no new contradiction."""

    def __init__(self, supplied: Path, own: Path, read: Rules | None = None) -> None:
        """`read`: the supplied rules, where somebody has read them already."""
        self._folder, self._own = supplied, own
        self._lock = Lock()
        self._known: frozenset[str] | None = None
        self.supplied = read or load_rules(supplied)
        self.rules = load_rules(supplied, own) if own_texts(own) else self.supplied

    def changes(self) -> tuple[str, ...]:
        """What was changed, when and by whom, the newest first."""
        return own_changes(self._own)

    def own(self) -> Mapping[str, str]:
        """The shop's own rule files."""
        return own_texts(self._own)

    def change(
        self, changes: Sequence[Change], *, seen: str, said: str, person: str, now: datetime
    ) -> tuple[Problem, ...]:
        """Why the change is refused; () when it is written. `seen`: the version of the rules it was made on."""
        with self._lock:
            if seen != self.rules.version:
                return (self._overtaken(),)
            texts = dict(self.own())
            for change in changes:
                text = texts.get(change.file, "")
                texts[change.file] = (
                    without(text, change.path) if change.said is None else with_said(text, change.path, change.said)
                )
            rules, problems = read_rules(read_texts(self._folder), {name: text for name, text in texts.items() if text})
            if rules is None:
                return tuple(Problem(FORM, problem.sentence, problem.mend) for problem in problems)
            found = check_rules(rules)
            if fresh := self._brought_in(found):
                return fresh
            write_own(self._own, texts, f"{now:%Y-%m-%d %H:%M} {person}: {said}")
            self.rules, self._known = rules, _sentences(found)
        return ()

    def _brought_in(self, found: Sequence[Problem]) -> tuple[Problem, ...]:
        """Problems that the rules have with the change and did not have before."""
        if self._known is None:
            self._known = _sentences(check_rules(self.rules))
        return tuple(Problem(FORM, p.sentence, p.mend) for p in found if p.sentence not in self._known)

    def _overtaken(self) -> Problem:
        last = next(iter(self.changes()), "")
        return Problem(
            FORM,
            f"The rules were changed since this page was opened: {last}.",
            "Look at what stands here now; what you typed is kept. Send it again if it still holds.",
        )


def _sentences(problems: Sequence[Problem]) -> frozenset[str]:
    return frozenset(problem.sentence for problem in problems)


async def _book(request: Request) -> RuleBook:
    book: RuleBook = request.app.state.rule_book
    return book


Book = Annotated[RuleBook, Depends(_book)]

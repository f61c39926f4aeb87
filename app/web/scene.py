"""Everything a page about one case looks at, read once per request."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Request

from app.board.advise import BoardAdvice
from app.board.board import Board, Matrix
from app.evidence.case import Case
from app.history.history import History
from app.history.values import CaseOnFile, Timeline
from app.rules.library import Rules
from app.web.boards import Boards, fingerprint
from app.web.forms.evidence_fields import About, about
from app.web.prices import prices_for


@dataclass(frozen=True, slots=True)
class Scene:
    """A case with its vehicle's history and its board."""

    on_file: CaseOnFile
    case: Case
    timeline: Timeline
    board: Board
    around: About
    fingerprint: str


class Look:
    """Reads the scene of a case; its board comes from those already computed where nothing changed."""

    def __init__(self, request: Request) -> None:
        self._history: History = request.app.state.history
        self._rules: Rules = request.app.state.rule_book.rules
        self._boards: Boards = request.app.state.boards

    def __call__(self, case_id: str, *, first: bool = False) -> Scene:
        """The scene with its whole board; `first`: with the ranking alone where that is all there is yet."""
        on_file = self._history.case_on_file(case_id)
        case = self._history.case(case_id)
        timeline = self._history.timeline(on_file.vehicle.id)
        around = about(case_id, case, timeline=timeline, rules=self._rules)
        board = self._boards.first(case, self._rules) if first else self._boards.of(case, self._rules)
        return Scene(on_file, case, timeline, board, around, fingerprint(case, self._rules))

    def whole(self, scene: Scene) -> Board:
        """The whole board of a scene that was looked at first."""
        return self._boards.of(scene.case, self._rules)

    def before(self, key: str) -> Board | None:
        """The board with this fingerprint, to say what has changed since."""
        return self._boards.known(key)

    def matrix(self, scene: Scene) -> Matrix:
        """Every test's marks for the leading rows: worked out when somebody looks."""
        return self._boards.matrix_of(scene.case, self._rules)

    def advice(self, scene: Scene) -> BoardAdvice:
        """The next step by expected cost, under the shop's prices for this kind of vehicle."""
        prices = prices_for(self._history.figures(), self._rules, scene.case.vehicle.family)
        return self._boards.advice_of(scene.case, self._rules, prices)

    def cured(self, case: Case) -> float | None:
        """The chance that the repairs of this case have cured the complaint: worked out when somebody looks."""
        return self._boards.cured(case, self._rules)


LookAt = Annotated[Look, Depends(Look)]

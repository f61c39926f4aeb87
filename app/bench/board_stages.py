"""One case's board, stage by stage with a clock, and how large its network was."""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from itertools import pairwise
from time import process_time

from app.bench.large_networks import width
from app.bench.shelf import Shelf
from app.board.board import Board
from app.board.build import Ranked, look_back, look_further, rank
from app.evidence.case import Case
from app.history.history import History
from app.network.noisy_or import Report
from app.rules.library import Rules

KEEPING = ("app.vehicle", "app.rules", "app.evidence", "app.network", "app.beliefs", "app.board")
"""Rooms whose modules keep what hangs on layout, rules and shapes alone."""


@dataclass(frozen=True, slots=True)
class Times:
    """Milliseconds of processor time.

    `reading`: the case from the history's rows; `ranking`: what is answered first; `back`: what old results show;
    `further`: what to do next, and what speaks for and against; `words`: the view model.
    """

    reading: float
    ranking: float
    back: float
    further: float
    words: float

    @property
    def whole(self) -> float:
        return self.reading + self.ranking + self.back + self.further + self.words


@dataclass(frozen=True, slots=True)
class Measured:
    """A board with everything forgotten before, and again at once; `left_out`: what the board says it left out."""

    hypotheses: int
    positives: int
    width: int
    left_out: str | None
    cold: Times
    warm: Times


def measured(case: Case, rules: Rules, shelf: Shelf) -> Measured | None:
    """None where the case's entries cannot all be true: there is no ranking then."""
    case_id = shelf.file(case)
    forget()
    cold, ranked, board = _timed(shelf.history, case_id, rules)
    if isinstance(ranked, Board):
        return None
    warm, *_ = _timed(shelf.history, case_id, rules)
    return _with_size(ranked, board, cold, warm)


def forget() -> None:
    """Empties whatever modules keep between boards, as in a program just started."""
    for name, module in list(sys.modules.items()):
        if name.startswith(KEEPING):
            for kept in vars(module).values():
                clear = getattr(kept, "cache_clear", None)
                if callable(clear):
                    clear()


def _timed(history: History, case_id: str, rules: Rules) -> tuple[Times, Ranked | Board, Board]:
    gc.collect()
    begun = process_time()
    case = history.case(case_id)
    read = process_time()
    ranked = rank(case, rules)
    first = process_time()
    looked_back = look_back(ranked)
    then = process_time()
    board = look_further(looked_back)
    built = process_time()
    _put_into_words(board, case, rules)
    done = process_time()
    times = Times(*(1000.0 * (b - a) for a, b in pairwise((begun, read, first, then, built, done))))
    return times, ranked, board


def _put_into_words(board: Board, case: Case, rules: Rules) -> object:
    """The view model of the page. The web room is no room of ours to import, so it is loaded by name, as `serve` does;
    the list of visits beside the board needs a history and is left empty.
    """
    words = import_module("app.web.views.board_view")
    put: Callable[..., object] = words.BoardWords(rules, case.vehicle.layout, "case", "0" * 64).view
    return put(board, visits=(), changed=words.Changed(), state="", ahead="")


def _with_size(ranked: Ranked, board: Board, cold: Times, warm: Times) -> Measured:
    network = ranked.answers.network.noisy_or
    return Measured(
        hypotheses=len(network.hypotheses),
        positives=sum(finding.report is Report.PRESENT for finding in network.findings),
        width=width(network, ranked.answers.asked.first),
        left_out=board.left_out,
        cold=cold,
        warm=warm,
    )

"""Boards already computed, kept for the next look: the same evidence under the same rules gives the same board.

A ranking is there sooner than a whole board; looking back on the results, and the whole board, go on from it.
"""

from __future__ import annotations

import hashlib
from collections import OrderedDict, defaultdict
from collections.abc import Callable
from dataclasses import replace
from threading import Lock
from typing import TypeVar

from app.advice.prices import Prices
from app.board.advise import BoardAdvice, advice_for
from app.board.board import Board, Matrix
from app.board.build import Ranked, build_matrix, look_back, look_further, rank
from app.board.cured import chance_cured
from app.evidence.case import Case
from app.rules.library import Rules

MOST_KEPT = 64
T = TypeVar("T", Board, Ranked | Board, Matrix, float | None, BoardAdvice)


class Boards:
    """One per app. The key is the case as text, so no change of evidence can be missed."""

    def __init__(self) -> None:
        self._ranked: OrderedDict[str, Ranked | Board] = OrderedDict()
        self._looked_back: OrderedDict[str, Ranked | Board] = OrderedDict()
        self._boards: OrderedDict[str, Board] = OrderedDict()
        self._matrices: OrderedDict[str, Matrix] = OrderedDict()
        self._advice: OrderedDict[str, BoardAdvice] = OrderedDict()
        self._cured: OrderedDict[str, float | None] = OrderedDict()
        self._lock = Lock()
        self._at_work: defaultdict[str, Lock] = defaultdict(Lock)

    def of(self, case: Case, rules: Rules) -> Board:
        """The whole board."""
        key = fingerprint(case, rules)
        return self._kept(self._boards, key, lambda: look_further(self._look_back(case, rules)))

    def first(self, case: Case, rules: Rules) -> Board:
        """The whole board where it is there already, else its ranking."""
        key = fingerprint(case, rules)
        with self._lock:
            if key in self._boards:
                return self._boards[key]
        ranked = self._rank(case, rules)
        return ranked if isinstance(ranked, Board) else ranked.board

    def known(self, key: str) -> Board | None:
        """The board, or at least the ranking, with this fingerprint, if it is still kept."""
        with self._lock:
            ranked = self._boards.get(key) or self._ranked.get(key)
        return ranked.board if isinstance(ranked, Ranked) else ranked

    def matrix_of(self, case: Case, rules: Rules) -> Matrix:
        """Every test's marks for the leading rows."""
        key = fingerprint(case, rules)
        return self._kept(self._matrices, key, lambda: build_matrix(self._look_back(case, rules)))

    def advice_of(self, case: Case, rules: Rules, prices: Prices) -> BoardAdvice:
        """The next step by expected cost."""
        key = f"{fingerprint(case, rules)} {prices!r}"
        return self._kept(self._advice, key, lambda: advice_for(self._look_back(case, rules), prices))

    def cured(self, case: Case, rules: Rules) -> float | None:
        """The chance that the repairs done have cured the complaint, before any use."""
        return self._kept(self._cured, fingerprint(case, rules), lambda: chance_cured(case, rules))

    def _rank(self, case: Case, rules: Rules) -> Ranked | Board:
        return self._kept(self._ranked, fingerprint(case, rules), lambda: rank(case, rules))

    def _look_back(self, case: Case, rules: Rules) -> Ranked | Board:
        return self._kept(self._looked_back, fingerprint(case, rules), lambda: look_back(self._rank(case, rules)))

    def _kept(self, kept: OrderedDict[str, T], key: str, build: Callable[[], T]) -> T:
        """What is kept under this key; built once, whoever else asks meanwhile waits for it."""
        with self._lock:
            working = self._at_work[f"{id(kept)} {key}"]
        with working:
            with self._lock:
                if key in kept:
                    kept.move_to_end(key)
                    return kept[key]
            built = build()
            with self._lock:
                kept[key] = built
                self._at_work.pop(f"{id(kept)} {key}", None)
                if len(kept) > MOST_KEPT:
                    kept.popitem(last=False)
        return built


def fingerprint(case: Case, rules: Rules) -> str:
    """Changes with any evidence and any rule; runs and scans after a repair are no evidence for the board."""
    visits = tuple(replace(visit, runs=(), scans=()) for visit in case.visits)
    return hashlib.sha256(f"{rules.version}\n{replace(case, visits=visits)!r}".encode()).hexdigest()

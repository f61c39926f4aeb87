"""Boards already computed, kept for the next look: the same evidence under the same rules gives the same board."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Callable
from threading import Lock
from typing import TypeVar

from app.advice.prices import Prices
from app.board.advise import BoardAdvice, build_advice
from app.board.board import Board, TestColumn
from app.board.build import build_board, build_matrix
from app.evidence.case import Case
from app.rules.library import Rules

MOST_KEPT = 64
T = TypeVar("T", Board, tuple[TestColumn, ...], BoardAdvice)


class Boards:
    """One per app. The key is the whole case as text, so no change of evidence can be missed."""

    def __init__(self) -> None:
        self._boards: OrderedDict[str, Board] = OrderedDict()
        self._matrices: OrderedDict[str, tuple[TestColumn, ...]] = OrderedDict()
        self._advice: OrderedDict[str, BoardAdvice] = OrderedDict()
        self._lock = Lock()

    def of(self, case: Case, rules: Rules) -> Board:
        return self._kept(self._boards, fingerprint(case, rules), lambda: build_board(case, rules))

    def matrix_of(self, case: Case, rules: Rules) -> tuple[TestColumn, ...]:
        """Every test's marks for the leading rows."""
        return self._kept(self._matrices, fingerprint(case, rules), lambda: build_matrix(case, rules))

    def advice_of(self, case: Case, rules: Rules, prices: Prices) -> BoardAdvice:
        """The next step by expected cost."""
        key = f"{fingerprint(case, rules)} {prices!r}"
        return self._kept(self._advice, key, lambda: build_advice(case, rules, prices))

    def _kept(self, kept: OrderedDict[str, T], key: str, build: Callable[[], T]) -> T:
        with self._lock:
            if key in kept:
                kept.move_to_end(key)
                return kept[key]
        built = build()
        with self._lock:
            kept[key] = built
            if len(kept) > MOST_KEPT:
                kept.popitem(last=False)
        return built


def fingerprint(case: Case, rules: Rules) -> str:
    """Changes with any evidence and any rule."""
    return hashlib.sha256(f"{rules.version}\n{case!r}".encode()).hexdigest()

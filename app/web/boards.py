"""Boards already computed, kept for the next look: the same evidence under the same rules gives the same board."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import replace
from threading import Lock
from typing import TypeVar

from app.board.board import Board, TestColumn
from app.board.build import build_board, build_matrix
from app.board.cured import chance_cured
from app.evidence.case import Case
from app.rules.library import Rules

MOST_KEPT = 64
T = TypeVar("T", Board, tuple[TestColumn, ...], float | None)


class Boards:
    """One per app. The key is the case as text, so no change of evidence can be missed."""

    def __init__(self) -> None:
        self._boards: OrderedDict[str, Board] = OrderedDict()
        self._matrices: OrderedDict[str, tuple[TestColumn, ...]] = OrderedDict()
        self._cured: OrderedDict[str, float | None] = OrderedDict()
        self._lock = Lock()

    def of(self, case: Case, rules: Rules) -> Board:
        return self._kept(self._boards, case, rules, build_board)

    def matrix_of(self, case: Case, rules: Rules) -> tuple[TestColumn, ...]:
        """Every test's marks for the leading rows."""
        return self._kept(self._matrices, case, rules, build_matrix)

    def cured(self, case: Case, rules: Rules) -> float | None:
        """The chance that the repairs done have cured the complaint, before any use."""
        return self._kept(self._cured, case, rules, chance_cured)

    def _kept(self, kept: OrderedDict[str, T], case: Case, rules: Rules, build: Callable[[Case, Rules], T]) -> T:
        key = fingerprint(case, rules)
        with self._lock:
            if key in kept:
                kept.move_to_end(key)
                return kept[key]
        built = build(case, rules)
        with self._lock:
            kept[key] = built
            if len(kept) > MOST_KEPT:
                kept.popitem(last=False)
        return built


def fingerprint(case: Case, rules: Rules) -> str:
    """Changes with any evidence and any rule; runs and scans after a repair are no evidence for the board."""
    visits = tuple(replace(visit, runs=(), scans=()) for visit in case.visits)
    return hashlib.sha256(f"{rules.version}\n{replace(case, visits=visits)!r}".encode()).hexdigest()

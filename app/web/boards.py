"""Boards already computed, kept for the next look: the same evidence under the same rules gives the same board."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from threading import Lock

from app.board.board import Board
from app.board.build import build_board
from app.evidence.case import Case
from app.rules.library import Rules

MOST_KEPT = 64


class Boards:
    """One per app. The key is the whole case as text, so no change of evidence can be missed."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, Board] = OrderedDict()
        self._lock = Lock()

    def of(self, case: Case, rules: Rules) -> Board:
        key = hashlib.sha256(f"{rules.version}\n{case!r}".encode()).hexdigest()
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
        board = build_board(case, rules)
        with self._lock:
            self._kept[key] = board
            if len(self._kept) > MOST_KEPT:
                self._kept.popitem(last=False)
        return board

"""A board as plain JSON values: the form of `proofbay rank --json` and of the board's JSON address."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

from app.board.board import Board, NextStep, OldResult, Row, RowId, Speaks

Json: TypeAlias = "bool | int | float | str | list[Json] | dict[str, Json] | None"


def board_as_json(board: Board) -> dict[str, Json]:
    """Numbers for programs; the meaning of each key stands in DEVELOPERS.md."""
    open_rows = (row for group in board.groups for row in group.rows)
    rows = {row.id: row for row in (*open_rows, *board.confirmed, *board.ruled_out, *board.earlier)}
    ordered = sorted(rows.values(), key=lambda row: -row.to_blame)
    return {
        "rules_version": board.rules_version,
        "hypotheses": [_row(row) for row in ordered],
        "not_in_rules": board.not_listed,
        "unexplained": board.unexplained,
        "results": [_result(result) for result in board.results],
        "next": [_step(step) for step in board.next],
        "missing": list(board.missing),
        "contradiction": list(board.contradiction),
        "left_out": board.left_out,
    }


def _row(row: Row) -> dict[str, Json]:
    return {
        "cause": row.id.cause,
        "place": row.id.place,
        "epoch": row.id.job,
        "probability": row.probability,
        "to_blame": row.to_blame,
        "by_itself": row.by_itself,
        "status": row.status.value,
        "for": _speaks(row.speaks_for),
        "against": _speaks(row.speaks_against),
    }


def _speaks(told: Iterable[Speaks]) -> list[Json]:
    return [{"what": s.what, "factor": s.factor, "whole_kind": s.whole_kind} for s in told]


def _result(result: OldResult) -> dict[str, Json]:
    return {
        "visit": result.visit,
        "test": result.test,
        "place": result.place,
        "outcome": result.outcome.value,
        "source": result.source.value,
        "cannot_show": [
            {"cause": spot.row.cause, "place": spot.row.place, "reason": spot.reason} for spot in result.cannot_show
        ],
        "rules_out": _ids(result.rules_out),
        "rules_in": _ids(result.rules_in),
        "stale": list(result.stale),
    }


def _ids(rows: Iterable[RowId]) -> list[Json]:
    return [{"cause": row.cause, "place": row.place} for row in rows]


def _step(step: NextStep) -> dict[str, Json]:
    return {
        "test": step.test,
        "place": list(step.places),
        "minutes": step.minutes,
        "information_bits": step.information_bits,
        "exact": step.exact,
        "can_rule_in": _ids(step.can_rule_in),
        "can_rule_out": _ids(step.can_rule_out),
    }

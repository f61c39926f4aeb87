"""The next test: joint information per minute, a set of readings counted as one action."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from app.beliefs.beliefs import Information
from app.board.actions import LEADS_FROM, Action
from app.board.ahead import Ahead
from app.board.board import CauseGroup, Mark, NextStep, RowId, Status, TestColumn
from app.board.words import capital, places_in_words
from app.rules.words import CoverId
from app.vehicle.layout import Layout

SHOWN = 5
WORTH_DOING_BITS = 0.005
EQUAL_WITHIN = 0.05


@dataclass(frozen=True, slots=True)
class _Seen:
    """What a step is described from: the matrix, the rows worth naming with their names, the vehicle."""

    matrix: Sequence[TestColumn]
    leading: dict[RowId, str]
    layout: Layout


def next_steps(
    actions: Sequence[Action],
    ahead: Ahead,
    groups: Sequence[CauseGroup],
    matrix: Sequence[TestColumn],
    *,
    layout: Layout,
) -> tuple[NextStep, ...]:
    """The few best tests now, the most telling per minute first; near-equal ones are marked as equal."""
    pairs = zip(actions, ahead.information, strict=True)
    ranked = sorted(pairs, key=lambda pair: -pair[1].bits / pair[0].minutes)
    once = _each_test_once((action, info) for action, info in ranked if info.bits >= WORTH_DOING_BITS)
    best = once[0][1].bits / once[0][0].minutes if once else 0.0
    seen = _Seen(matrix, _leading_rows(groups), layout)
    steps = [
        _step(action, info, seen, equal=info.bits / action.minutes >= best * (1.0 - EQUAL_WITHIN))
        for action, info in once
    ]
    sure = _confirming(ranked, groups, seen)
    return tuple([*sure, *(step for step in steps if step.test not in {s.test for s in sure})][:SHOWN])


def _confirming(
    ranked: Sequence[tuple[Action, Information]],
    groups: Sequence[CauseGroup],
    seen: _Seen,
) -> list[NextStep]:
    """Before anything else, the quickest test that can confirm a cause that leads but has not been seen."""
    if not groups or groups[0].to_blame < LEADS_FROM or groups[0].status is Status.CONFIRMED:
        return []
    leader = groups[0]
    steps = [_step(action, info, seen, equal=False) for action, info in ranked if len(action.places) == 1]
    able = [step for step in steps if any(row.cause == leader.cause for row in step.can_rule_in)]
    quickest = min(able, key=lambda step: step.minutes, default=None)
    if quickest is None:
        return []
    why = f"{leader.name} leads, but nothing seen here has confirmed it yet; this can."
    return [replace(quickest, because=why)]


def _each_test_once(ranked: Iterable[tuple[Action, Information]]) -> list[tuple[Action, Information]]:
    """Of one test at several sets of places, the best set only."""
    found: dict[str, tuple[Action, Information]] = {}
    for action, info in ranked:
        found.setdefault(action.test.id, (action, info))
    return list(found.values())


def _leading_rows(groups: Sequence[CauseGroup]) -> dict[RowId, str]:
    return {row.id: group.name for group in groups[:10] for row in group.rows}


def _step(action: Action, info: Information, seen: _Seen, *, equal: bool) -> NextStep:
    here = [c for c in seen.matrix if c.test == action.test.id and c.place in action.places]
    rules_in = _rows_marked(here, seen.leading, (Mark.RULES_IN, Mark.BOTH))
    rules_out = _rows_marked(here, seen.leading, (Mark.RULES_OUT, Mark.BOTH))
    return NextStep(
        test=action.test.id,
        places=action.places,
        name=capital(action.test.name),
        place_words=places_in_words(action.places, seen.layout),
        minutes=action.minutes,
        information_bits=info.bits,
        exact=info.exact,
        equal_to_first=equal,
        can_rule_in=rules_in,
        can_rule_out=rules_out,
        needs_open=tuple(CoverId(cover) for cover in action.test.needs_open),
        cautions=action.test.cautions,
        because=_because(rules_in, rules_out, seen.leading),
    )


def _rows_marked(here: Iterable[TestColumn], leading: dict[RowId, str], marks: tuple[Mark, ...]) -> tuple[RowId, ...]:
    found = (row for column in here for row, seen in column.cells.items() if row in leading and seen.mark in marks)
    return tuple(dict.fromkeys(found))


def _because(rules_in: Sequence[RowId], rules_out: Sequence[RowId], leading: dict[RowId, str]) -> str:
    can_in, can_out = (list(dict.fromkeys(leading[r].lower() for r in rows))[:3] for rows in (rules_in, rules_out))
    match bool(can_in), bool(can_out):
        case True, True if can_in == can_out:
            return f"It can rule in or out: {'; '.join(can_in)}."
        case True, True:
            return f"It can rule in: {'; '.join(can_in)}. It can rule out: {'; '.join(can_out)}."
        case True, False:
            return f"It can rule in: {'; '.join(can_in)}. A good result rules nothing out."
        case False, True:
            return f"It can rule out: {'; '.join(can_out)}. A bad result alone proves nothing."
        case _:
            return "It moves several causes a little and settles none."

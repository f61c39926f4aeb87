"""The next test: joint information per minute, a set of readings counted as one action."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from app.beliefs.beliefs import Information, information_about
from app.board.ahead import Ahead
from app.board.answered import Answered
from app.board.board import CauseGroup, Mark, NextStep, RowId, TestColumn
from app.board.words import capital, joined
from app.rules.tests import Test
from app.rules.words import CoverId, TestId
from app.vehicle.layout import Level, PlaceId, level_of

CONSIDERED = 12
SHOWN = 5
WORTH_DOING_BITS = 0.005
EQUAL_WITHIN = 0.05

Informing = Callable[[Sequence[tuple[int, ...]]], Sequence[Information]]
"""Asks inference for the joint information of sets of findings."""


@dataclass(frozen=True, slots=True)
class _Action:
    test: Test
    places: tuple[PlaceId, ...]
    findings: tuple[int, ...]
    minutes: float
    guess_bits: float


def next_steps(
    answered: Answered, ahead: Ahead, groups: Sequence[CauseGroup], matrix: Sequence[TestColumn], informing: Informing
) -> tuple[NextStep, ...]:
    """The few best tests now, the most telling per minute first; near-equal ones are marked as equal."""
    actions = sorted(_actions(answered, ahead), key=lambda a: -a.guess_bits / a.minutes)[:CONSIDERED]
    information = informing([action.findings for action in actions])
    ranked = sorted(zip(actions, information, strict=True), key=lambda pair: -pair[1].bits / pair[0].minutes)
    worth = [(action, info) for action, info in ranked if info.bits >= WORTH_DOING_BITS]
    once = _each_test_once(worth)
    best = once[0][1].bits / once[0][0].minutes if once else 0.0
    leading = _leading_rows(groups)
    return tuple(
        _step(action, info, matrix, leading, equal=info.bits / action.minutes >= best * (1.0 - EQUAL_WITHIN))
        for action, info in once[:SHOWN]
    )


def _each_test_once(ranked: Iterable[tuple[_Action, Information]]) -> list[tuple[_Action, Information]]:
    """Of one test at several sets of places, the best set only."""
    found: dict[str, tuple[_Action, Information]] = {}
    for action, info in ranked:
        found.setdefault(action.test.id, (action, info))
    return list(found.values())


def _actions(answered: Answered, ahead: Ahead) -> Iterable[_Action]:
    """Each test at each place, and at each larger set of places that is taken in one go."""
    to_come: dict[TestId, dict[PlaceId, int]] = defaultdict(dict)
    for (name, place), finding in answered.network.book.to_come.items():
        to_come[name][place] = finding
    for name, places in to_come.items():
        test = answered.rules.tests[name]
        guesses = {place: _guess_bits(finding, answered, ahead) for place, finding in places.items()}
        for chosen in _sets_of_places(tuple(places), answered):
            bits = sum(guesses[place] for place in chosen)
            if bits > 0.0:
                minutes = minutes_of(test, len(chosen), answered)
                yield _Action(test, chosen, tuple(places[p] for p in chosen), minutes, bits)


def _sets_of_places(places: tuple[PlaceId, ...], answered: Answered) -> Iterable[tuple[PlaceId, ...]]:
    layout = answered.case.vehicle.layout
    sets: list[tuple[PlaceId, ...]] = [(place,) for place in places]
    if len(places) > 1:
        sets.append(places)
        for level in (Level.BANK, Level.AXLE):
            for larger in layout.places(level):
                inside = tuple(p for p in places if level_of(p) != level and layout.covers(larger, p))
                if 1 < len(inside) < len(places):
                    sets.append(inside)
    return sets


def _guess_bits(finding: int, answered: Answered, ahead: Ahead) -> float:
    """The marginal informations about causes, summed: ranks nearly like the joint one (ENGINE), and is cheap."""
    return sum(
        information_about(ahead.tests[finding, row])
        for row in ahead.asked.get(finding, ())
        if answered.network.rows[row].place is None
    )


def minutes_of(test: Test, places: int, answered: Answered) -> float:
    """Set-up once, then each place, and the covers still to be taken off from the present state."""
    still_closed = set(test.needs_open) - set(answered.case.open_covers)
    reach = sum(answered.rules.covers[cover].reach_minutes for cover in still_closed)
    return max(1.0, test.setup_minutes + test.minutes_per_place * places + reach)


def _leading_rows(groups: Sequence[CauseGroup]) -> dict[RowId, str]:
    return {row.id: group.name for group in groups[:10] for row in group.rows}


def _step(
    action: _Action, info: Information, matrix: Sequence[TestColumn], leading: dict[RowId, str], *, equal: bool
) -> NextStep:
    here = [c for c in matrix if c.test == action.test.id and c.place in action.places]
    rules_in = _rows_marked(here, leading, (Mark.RULES_IN, Mark.BOTH))
    rules_out = _rows_marked(here, leading, (Mark.RULES_OUT, Mark.BOTH))
    return NextStep(
        test=action.test.id,
        places=action.places,
        name=capital(action.test.name),
        place_words=_place_words(action, here),
        minutes=action.minutes,
        information_bits=info.bits,
        exact=info.exact,
        equal_to_first=equal,
        can_rule_in=rules_in,
        can_rule_out=rules_out,
        needs_open=tuple(CoverId(cover) for cover in action.test.needs_open),
        cautions=action.test.cautions,
        because=_because(rules_in, rules_out, leading),
    )


def _rows_marked(here: Iterable[TestColumn], leading: dict[RowId, str], marks: tuple[Mark, ...]) -> tuple[RowId, ...]:
    found = (row for column in here for row, seen in column.cells.items() if row in leading and seen.mark in marks)
    return tuple(dict.fromkeys(found))


def _place_words(action: _Action, here: Sequence[TestColumn]) -> str:
    words = [column.place_words for column in here if column.place in action.places]
    return joined(words) if len(words) <= 3 else f"{words[0]} to {words[-1]}"


def _because(rules_in: Sequence[RowId], rules_out: Sequence[RowId], leading: dict[RowId, str]) -> str:
    can_in, can_out = (list(dict.fromkeys(leading[r].lower() for r in rows))[:3] for rows in (rules_in, rules_out))
    match bool(can_in), bool(can_out):
        case True, True if can_in == can_out:
            return f"It can rule {joined(can_in)} in or out."
        case True, True:
            return f"It can rule in {joined(can_in)}, and rule out {joined(can_out)}."
        case True, False:
            return f"It can rule in {joined(can_in)}; a good result rules nothing out."
        case False, True:
            return f"It can rule out {joined(can_out)}; a bad result alone proves nothing."
        case _:
            return "It moves several causes a little and settles none."

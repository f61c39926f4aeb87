"""A drawn case worked by following the board's advice: what each advised test shows is drawn from what is wrong."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from numpy.random import Generator

from app.board.board import Board
from app.board.build import build_board
from app.evidence.case import Case, Outcome, Result, Source
from app.rules.library import Rules
from app.rules.tests import Test
from app.rules.words import SituationId
from app.simulation.draw import Drawn
from app.simulation.faults import Fault
from app.vehicle.layout import PlaceId, level_of


def worked(drawn: Drawn, rules: Rules, dice: Generator, *, steps: int) -> Iterator[Board]:
    """The board before any test, and after each advised one, until nothing is advised any more or `steps` are done."""
    case = drawn.case
    board = build_board(case, rules)
    yield board
    for _ in range(steps):
        if not board.next:
            return
        step = board.next[0]
        test = rules.tests[step.test]
        case = with_outcome(case, test, step.places, faults=drawn.faults, rules=rules, dice=dice)
        board = build_board(case, rules)
        yield board


def with_outcome(
    case: Case, test: Test, places: Iterable[PlaceId], *, faults: Iterable[Fault], rules: Rules, dice: Generator
) -> Case:
    """The case with these readings; a set of places is taken one after another, up to the first abnormal."""
    avoided: Mapping[SituationId, bool] = {blind.situation: False for blind in test.blind_when}
    shows = _showing(test, faults, case, rules, dice)
    results = []
    for place in places:
        abnormal = place in shows or dice.random() < test.false_alarm.chance
        outcome = Outcome.ABNORMAL if abnormal else Outcome.NORMAL
        results.append(Result(test.id, place, outcome, Source.MEASURED_HERE, situations=avoided))
        if abnormal:
            break
    today = case.visits[-1]
    return replace(case, visits=(*case.visits[:-1], replace(today, results=(*today.results, *results))))


def _showing(test: Test, faults: Iterable[Fault], case: Case, rules: Rules, dice: Generator) -> set[PlaceId]:
    """The places at which a fault that is there shows to this test: one draw for a fault that covers several."""
    layout, again = case.vehicle.layout, rules.settings.shows_again
    strengths = {shows.cause: shows.strength.chance for shows in test.shows}
    found: set[PlaceId] = set()
    for fault in faults:
        strength = strengths.get(fault.cause.id, 0.0) if fault.now else 0.0
        near = [place for place in layout.places(test.at) if layout.related(place, fault.place)]
        spread = len(near) > 1 and level_of(near[0]) != level_of(fault.place)
        if dice.random() < strength:
            found.update(place for place in near if not spread or dice.random() < again)
    return found

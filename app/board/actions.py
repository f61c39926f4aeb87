"""What could be done next: each test at one place, or at a set of places taken in one go."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import log2, prod

from app.board.answered import Answered
from app.network.lines import ToCome
from app.rules.tests import Test
from app.rules.thresholds import CAN_RULE_IN
from app.rules.words import TestId
from app.vehicle.layout import Level, PlaceId, level_of

CONSIDERED = 5
"""How many actions are worked out exactly, after all have been guessed at."""

CONFIRMING = 3
SHOWS_WELL = 0.9
LEADS_FROM = 0.6
WORTH_A_GUESS = 0.001


@dataclass(frozen=True, slots=True)
class Action:
    """A test at places. `guess_bits` only decides what is worked out exactly."""

    test: Test
    places: tuple[PlaceId, ...]
    minutes: float
    guess_bits: float


def promising_actions(answered: Answered, leader: int, *, considered: int = CONSIDERED) -> tuple[Action, ...]:
    """The actions likely to tell the most per minute, and the quickest that could confirm a leading row."""
    found = [action for action in _actions(answered) if action.guess_bits > 0.0]
    found.sort(key=lambda action: -action.guess_bits / action.minutes)
    best_of_each = {action.test.id: action for action in reversed(found)}
    promising = [action for action in found if best_of_each[action.test.id] is action][:considered]
    confirming = [action for action in found if _could_confirm(action, leader, answered) and action not in promising]
    return (*promising, *sorted(confirming, key=lambda action: action.minutes)[:CONFIRMING])


def _could_confirm(action: Action, leader: int, answered: Answered) -> bool:
    """A single reading at the leader's place, of a test that shows it well enough against its false alarms."""
    row = answered.network.rows[leader]
    (place, *more) = action.places
    if more or row.place is None or answered.to_blame(leader) < LEADS_FROM:
        return False
    strength = next((s.strength.chance for s in action.test.shows if s.cause == row.cause), 0.0)
    near = answered.case.vehicle.layout.related(place, row.place)
    shows_well = strength >= max(SHOWS_WELL, CAN_RULE_IN * action.test.false_alarm.chance)
    return near and shows_well


def _actions(answered: Answered) -> Iterable[Action]:
    to_come: dict[TestId, list[ToCome]] = defaultdict(list)
    for one in answered.network.lines.possible:
        to_come[one.test.id].append(one)
    chances = _chances_now(answered)
    for lines in to_come.values():
        guesses = {line.place: _guess_bits(line, chances, answered) for line in lines}
        for chosen in _sets_taken_together(lines, answered):
            minutes = minutes_of(chosen[0].test, len(chosen), answered)
            places = tuple(one.place for one in chosen)
            yield Action(chosen[0].test, places, minutes, sum(guesses[place] for place in places))


def _sets_taken_together(lines: list[ToCome], answered: Answered) -> Iterable[tuple[ToCome, ...]]:
    layout = answered.case.vehicle.layout
    yield from ((line,) for line in lines)
    if len(lines) > 1:
        yield tuple(lines)
        for level in (Level.BANK, Level.AXLE):
            for larger in layout.places(level):
                inside = tuple(x for x in lines if level_of(x.place) != level and layout.covers(larger, x.place))
                if 1 < len(inside) < len(lines):
                    yield inside


def minutes_of(test: Test, places: int, answered: Answered) -> float:
    """Set-up once, then each place, and the covers still to be taken off from the present state."""
    still_closed = set(test.needs_open) - set(answered.case.open_covers)
    layout = answered.case.vehicle.layout
    reach = sum(answered.rules.covers[cover].minutes_on(layout)[0] for cover in still_closed)
    return max(1.0, test.setup_minutes + test.minutes_per_place * places + reach)


Chances = Mapping[str, list[tuple[PlaceId, float]]]


def _chances_now(answered: Answered) -> Chances:
    """For each cause the chance of being there now, at each of its places where that is worth a guess."""
    found: dict[str, list[tuple[PlaceId, float]]] = defaultdict(list)
    for number, row in enumerate(answered.network.rows):
        if row.place is not None and row.job is None and (chance := answered.chance(number).yes) >= WORTH_A_GUESS:
            found[row.cause].append((row.place, chance))
    return found


def _guess_bits(line: ToCome, chances: Chances, answered: Answered) -> float:
    """Information about each cause as if causes were independent now: cheap, and only for choosing."""
    layout = answered.case.vehicle.layout
    shown = [
        (chance, shows.strength.chance)
        for shows in line.test.shows
        for place, chance in chances.get(shows.cause, ())
        if layout.related(place, line.place)
    ]
    normal = (1.0 - line.test.false_alarm.chance) * prod(1.0 - chance * strength for chance, strength in shown)
    return sum(_one_guess(chance, strength, normal) for chance, strength in shown)


def _one_guess(chance: float, strength: float, normal: float) -> float:
    """I(test; cause) = Hb(P(normal)) - sum over there and not there of P x Hb(P(normal | …))."""
    absent_without = normal / (1.0 - chance * strength) if chance * strength < 1.0 else 0.0
    absent_with = absent_without * (1.0 - strength)
    given = chance * _bits(absent_with) + (1.0 - chance) * _bits(absent_without)
    return max(0.0, _bits(chance * absent_with + (1.0 - chance) * absent_without) - given)


def _bits(chance: float) -> float:
    """Binary entropy."""
    if not 0.0 < chance < 1.0:
        return 0.0
    return -chance * log2(chance) - (1.0 - chance) * log2(1.0 - chance)

"""Looking ahead from the leading rows: what each test to come would say of them, and what speaks for and against."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from app.beliefs.beliefs import Beliefs, Chance, Information, Masses
from app.beliefs.budget import A_SECOND
from app.beliefs.infer import infer
from app.beliefs.left_out import NOTHING, LeftOut
from app.beliefs.narrow import leaving_out
from app.board.actions import Action
from app.board.answered import Answered, odds_factor
from app.board.asking import relevant
from app.board.board import Speaks
from app.board.entry_words import entry_words
from app.network.build import CaseNetwork, build_network
from app.network.lines import TestLine, ToCome
from app.network.noisy_or import Questions, Without

NEXT_STEPS, EVERY_TEST = 0.3 * A_SECOND, 0.6 * A_SECOND
"""The share of a board's time for what is to come next; and the time of the matrix, which is a page of its own."""
CAUSES_AHEAD = 12
ROWS_EXPLAINED = 10
WORTH_LOOKING = 0.001
SPEAKS_FROM = 1.2
"""A factor nearer to 1 than this is not worth a line."""


@dataclass(frozen=True, slots=True)
class Ahead:
    """What was worked out about tests to come and about the leading rows.

    `rows`: the leading rows; `lines`: the tests to come; `tests`: per (finding of one, row) the joint masses; `speaks`:
    what moves a row's odds, the largest factor first; `information`: of each action, in their order; `left_out`: what
    would have taken too long; `unjudged`: the tests to come among that.
    """

    rows: frozenset[int]
    lines: Sequence[TestLine]
    tests: Mapping[tuple[int, int], Masses]
    speaks: Mapping[int, Sequence[Speaks]]
    information: Sequence[Information]
    left_out: LeftOut = NOTHING
    unjudged: frozenset[int] = frozenset()


InOrder = Sequence[tuple[int, Sequence[int]]]
"""The head of every cause with its rows about places, the most to blame first."""


def look_ahead(answered: Answered, in_order: InOrder, actions: Sequence[Action]) -> Ahead:
    """What the promising actions would say of the leading rows, and what speaks for and against the first."""
    wanted = {(action.test.id, place): ToCome(action.test, place) for action in actions for place in action.places}
    network = with_tests(answered, wanted.values())
    rows = leading_rows(answered, in_order)
    explained = tuple(places[0] for _, places in in_order[:ROWS_EXPLAINED])
    lines, finding_of = _to_come(network), network.book.to_come
    asked = _asked(lines, rows, network, answered)
    singles, kinds = tuple(network.book.entries), _kinds(network)
    beliefs = infer(
        network.noisy_or,
        Questions(
            tests=tuple(asked),
            without=tuple(Without(left_out, explained) for left_out in (*((f,) for f in singles), *kinds.values())),
            relevant=asked,
            events=(),
            states=False,
            informing=tuple(tuple(finding_of[action.test.id, place] for place in action.places) for action in actions),
        ),
        most_work=NEXT_STEPS,
    )
    assert isinstance(beliefs, Beliefs)
    words = entry_words(network, answered.case, answered.rules)
    entries = [Speaks(words[finding], 1.0, entry=network.book.entries[finding]) for finding in singles]
    entries.extend(Speaks(kind, 1.0, whole_kind=True) for kind in kinds)
    speaks = {row: _for_row(row, answered.chance(row), entries, beliefs) for row in explained}
    unjudged = _unjudged(asked, beliefs)
    return Ahead(rows, lines, beliefs.masses, speaks, beliefs.informing, beliefs.not_asked, unjudged)


def look_everywhere(answered: Answered, in_order: InOrder) -> Ahead:
    """What every test to come would say of the leading rows: the whole matrix."""
    rows = leading_rows(answered, in_order)
    network = with_tests(answered, answered.network.lines.possible)
    lines = _to_come(network)
    asked = _asked(lines, rows, network, answered)
    questions = Questions(tests=tuple(asked), relevant=asked, events=(), states=False)
    beliefs = infer(network.noisy_or, questions, most_work=EVERY_TEST)
    assert isinstance(beliefs, Beliefs)
    return Ahead(rows, lines, beliefs.masses, {}, (), beliefs.not_asked, _unjudged(asked, beliefs))


def _unjudged(asked: Mapping[int, Sequence[int]], beliefs: Beliefs) -> frozenset[int]:
    """The tests asked about that were left out."""
    return frozenset(asked.keys() - beliefs.tests.keys())


def with_tests(answered: Answered, tests: Iterable[ToCome]) -> CaseNetwork:
    """The case's network with these tests to come, and the same reports set aside."""
    known = answered.network
    network = build_network(answered.case, known.evidence, answered.rules, tests, known=known)
    return replace(network, noisy_or=leaving_out(network.noisy_or, answered.beliefs.set_aside))


def _to_come(network: CaseNetwork) -> tuple[TestLine, ...]:
    return tuple(line for line in network.lines.tests if line.result is None)


def _asked(
    lines: Iterable[TestLine], rows: frozenset[int], network: CaseNetwork, answered: Answered
) -> dict[int, tuple[int, ...]]:
    near = relevant(lines, network, answered.case.vehicle.layout, rows)
    return {finding: found for finding, found in near.items() if found}


def leading_rows(answered: Answered, in_order: InOrder) -> frozenset[int]:
    """The first causes' places that may be to blame."""
    rows: set[int] = set()
    for _, places in in_order[:CAUSES_AHEAD]:
        rows.add(places[0])
        rows.update(row for row in places if answered.to_blame(row) >= WORTH_LOOKING)
    return frozenset(rows)


def _for_row(row: int, chance: Chance, entries: Sequence[Speaks], beliefs: Beliefs) -> list[Speaks]:
    told = []
    for entry, without in zip(entries, beliefs.without, strict=True):
        factor = odds_factor(chance, without[row]) if row in without else None
        if factor is not None and not 1.0 / SPEAKS_FROM < factor < SPEAKS_FROM:
            told.append(replace(entry, factor=factor))
    return sorted(told, key=lambda entry: -entry.factor)


def _kinds(network: CaseNetwork) -> dict[str, tuple[int, ...]]:
    lines = network.lines
    kinds = {
        "All test results together": [line.finding for line in lines.tests if line.result is not None],
        "All duties looked at together": [line.finding for line in lines.duties],
        "All defects found together": [line.finding for line in lines.defects],
        "All symptoms and codes beside the complaint, together": [line.finding for line in lines.symptoms],
        "All that is told of earlier visits, together": [line.finding for line in lines.once],
    }
    return {words: tuple(findings) for words, findings in kinds.items() if len(findings) > 1}

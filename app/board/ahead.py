"""Looking ahead from the leading rows: what each test to come would say of them, and what speaks for and against."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from app.beliefs.beliefs import Beliefs, Masses
from app.beliefs.infer import infer
from app.board.answered import Answered, odds_factor
from app.board.asking import relevant
from app.board.board import Speaks
from app.board.entry_words import entry_words
from app.network.build import CaseNetwork
from app.network.noisy_or import Questions

CAUSES_AHEAD = 12
ROWS_EXPLAINED = 10
WORTH_LOOKING = 0.001
SPEAKS_FROM = 1.2
"""A factor nearer to 1 than this is not worth a line."""


@dataclass(frozen=True, slots=True)
class Ahead:
    """`rows`: the leading rows and their heads; `tests`: per (finding of a test to come, row) the joint masses;
    `asked`: per finding the rows asked about; `speaks`: what moves a row's odds, the largest factor first."""

    rows: frozenset[int]
    tests: Mapping[tuple[int, int], Masses]
    asked: Mapping[int, tuple[int, ...]]
    speaks: Mapping[int, Sequence[Speaks]]


def look_ahead(answered: Answered, in_order: Sequence[tuple[int, Sequence[int]]]) -> Ahead:
    """`in_order`: (head, its rows) of each cause, the most to blame first."""
    network, layout = answered.network, answered.case.vehicle.layout
    rows = _leading(answered, in_order)
    explained = tuple(places[0] for _, places in in_order[:ROWS_EXPLAINED])
    to_come = [line for line in network.lines.tests if line.result is None]
    asked = relevant(to_come, network, layout, rows)
    asked = {finding: near for finding, near in asked.items() if any(network.rows[row].place for row in near)}
    singles, kinds = tuple(network.book.entries), _kinds(network)
    beliefs = infer(
        network.noisy_or,
        Questions(
            tests=tuple(asked),
            retests=(*((finding,) for finding in singles), *kinds.values()),
            relevant=asked | dict.fromkeys(singles, explained),
        ),
    )
    assert isinstance(beliefs, Beliefs)
    words = entry_words(network, answered.case, answered.rules)
    entries = [Speaks(words[finding], 1.0, entry=network.book.entries[finding]) for finding in singles]
    entries.extend(Speaks(kind, 1.0, whole_kind=True) for kind in kinds)
    speaks = {row: _for_row(row, entries, beliefs) for row in explained}
    return Ahead(rows, beliefs.masses, asked, speaks)


def _leading(answered: Answered, in_order: Sequence[tuple[int, Sequence[int]]]) -> frozenset[int]:
    """The first causes' heads, with the places that may be to blame."""
    rows: set[int] = set()
    for head, places in in_order[:CAUSES_AHEAD]:
        rows.add(head)
        rows.add(places[0])
        rows.update(row for row in places if answered.to_blame(row) >= WORTH_LOOKING)
    return frozenset(rows)


def _for_row(row: int, entries: Sequence[Speaks], beliefs: Beliefs) -> list[Speaks]:
    told = []
    for entry, retest in zip(entries, beliefs.retests, strict=True):
        factor = odds_factor(beliefs.events[row], retest.events[row])
        if factor is not None and not 1.0 / SPEAKS_FROM < factor < SPEAKS_FROM:
            told.append(replace(entry, factor=factor))
    return sorted(told, key=lambda entry: -entry.factor)


def _kinds(network: CaseNetwork) -> dict[str, tuple[int, ...]]:
    lines = network.lines
    kinds = {
        "All test results together": [line.finding for line in lines.tests if line.result is not None],
        "All duties looked at together": [line.finding for line in lines.duties],
        "All symptoms and codes beside the complaint": [line.finding for line in lines.symptoms],
        "All that is told of earlier visits": [line.finding for line in lines.once],
    }
    return {words: tuple(findings) for words, findings in kinds.items() if len(findings) > 1}

"""What speaks for and against a row: each entry alone, and all entries of a kind together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from app.beliefs.beliefs import Beliefs
from app.beliefs.infer import infer
from app.board.answered import Answered, odds_factor
from app.board.board import Speaks
from app.board.entry_words import entry_words
from app.network.build import CaseNetwork
from app.network.noisy_or import Questions

SPEAKS_FROM = 1.2
"""A factor nearer to 1 than this is not worth a line."""


def speaks(answered: Answered, rows: Sequence[int]) -> Mapping[int, Sequence[Speaks]]:
    """For each row: the factors by which entries move its odds, the largest first."""
    network = answered.network
    kinds = _kinds(network)
    singles = tuple(network.book.entries)
    asked = Questions(
        retests=(*((finding,) for finding in singles), *kinds.values()),
        relevant={finding: tuple(rows) for finding in singles},
    )
    beliefs = infer(network.noisy_or, asked)
    assert isinstance(beliefs, Beliefs)
    words = entry_words(network, answered.case, answered.rules)
    entries = [Speaks(words[finding], 1.0, entry=network.book.entries[finding]) for finding in singles]
    entries.extend(Speaks(kind, 1.0, whole_kind=True) for kind in kinds)
    return {row: _for_row(row, entries, beliefs) for row in rows}


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

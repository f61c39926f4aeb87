"""A case's network and what inference said of it, together, with the words of every entry."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.beliefs.beliefs import Beliefs, Chance, Masses
from app.board.asking import Asked
from app.board.entry_words import entry_words
from app.evidence.case import Case
from app.network.build import CaseNetwork
from app.rules.library import Rules


@dataclass(frozen=True, slots=True)
class Answered:
    """Everything the parts of a board read from."""

    case: Case
    rules: Rules
    network: CaseNetwork
    asked: Asked
    beliefs: Beliefs
    words: Mapping[int, str]

    def chance(self, row: int) -> Chance:
        return self.beliefs.events[row]

    def to_blame(self, row: int) -> float:
        return self.beliefs.blamed[row].yes

    def factor(self, row: int, retest: int) -> float | None:
        """By how much a set of reports moves a row's odds: with them against without them."""
        with_it, without = self.beliefs.events[row], self.beliefs.retests[retest].events[row]
        if with_it.no <= 0.0 or without.no <= 0.0 or without.yes <= 0.0:
            return None
        return (with_it.yes / with_it.no) / (without.yes / without.no)

    def masses(self, finding: int, row: int) -> Masses | None:
        """A test's joint masses with a row; of a result, with the whole set it belongs to left out."""
        if finding in self.asked.of_result:
            return self.beliefs.retests[self.asked.of_result[finding]].masses.get((finding, row))
        return self.beliefs.masses.get((finding, row))


def answered(*, case: Case, rules: Rules, network: CaseNetwork, asked: Asked, beliefs: Beliefs) -> Answered:
    return Answered(case, rules, network, asked, beliefs, entry_words(network, case, rules))

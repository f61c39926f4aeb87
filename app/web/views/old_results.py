"""Results already taken, ready to show: what they settle, what came between, what they could not have shown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from app.board.board import OldResult, RowId
from app.board.words import places_in_words
from app.rules.library import Rules
from app.vehicle.layout import Layout, PlaceId
from app.web.views.said import SOURCES, is_whole, sentence


@dataclass(frozen=True, slots=True)
class BlindList:
    """One reason, and the causes that stay hidden for it."""

    reason: str
    causes: str


@dataclass(frozen=True, slots=True)
class OldResultView:
    """Results of one test with the same outcome. `settles`: what they rule in or out; `stale`: the jobs in between."""

    id: str
    what: str
    source: str
    settles: tuple[str, ...]
    stale: tuple[str, ...]
    cannot_show: tuple[BlindList, ...]


@dataclass(frozen=True, slots=True)
class ResultWords:
    """Puts results into words; those of one test that came out alike at one visit are said together."""

    rules: Rules
    layout: Layout
    names: Mapping[RowId, str]

    def all(self, results: Iterable[OldResult]) -> tuple[OldResultView, ...]:
        return tuple(self._view(alike) for alike in alike_results(results))

    def said(self, alike: Sequence[OldResult]) -> str:
        """ "Cylinder leak-down, cylinders 1 and 3: within limits"."""
        first = alike[0]
        places = tuple(PlaceId(one.place) for one in alike if not is_whole(one.place))
        where = f", {places_in_words(places, self.layout)}" if places else ""
        return f"{first.name}{where}: {first.outcome_words}"

    def causes(self, rows: Iterable[RowId], *, most: int = 1000) -> str:
        """Each cause once, with its places where they are few; at most so many by name."""
        places: dict[str, list[str]] = {}
        for row in rows:
            name = self.names.get(row) or self._cause_name(row)
            words = [] if is_whole(row.place) else [self.layout.in_words(row.place)]
            known = places.setdefault(name, [])
            known += [word for word in words if word not in known]
        named = [f"{name} ({', '.join(at)})" if 0 < len(at) <= 2 else name for name, at in places.items()]
        return "; ".join(named[:most]) + (f" and {len(named) - most} more" if len(named) > most else "")

    def _view(self, alike: Sequence[OldResult]) -> OldResultView:
        first = alike[0]
        blind: dict[str, list[RowId]] = {}
        for result in alike:
            for spot in result.cannot_show:
                blind.setdefault(spot.reason, []).append(spot.row)
        return OldResultView(
            id=f"r-{first.test}-{first.place}-{first.visit}-{first.outcome.value}",
            what=f"Visit {first.visit}: {self.said(alike)}",
            source=SOURCES[first.source],
            settles=self._settles(alike),
            stale=tuple(dict.fromkeys(sentence(one) for result in alike for one in result.stale)),
            cannot_show=tuple(BlindList(sentence(reason), self.causes(rows)) for reason, rows in blind.items()),
        )

    def _settles(self, alike: Sequence[OldResult]) -> tuple[str, ...]:
        rules_in = [row for result in alike for row in result.rules_in]
        rules_out = [row for result in alike for row in result.rules_out]
        verbs = (("Rules in: ", rules_in), ("Rules out: ", rules_out))
        return tuple(f"{verb}{self.causes(rows)}." for verb, rows in verbs if rows)

    def _cause_name(self, row: RowId) -> str:
        cause = self.rules.causes.get(row.cause)
        return cause.name if cause else row.cause


def alike_results(results: Iterable[OldResult]) -> tuple[tuple[OldResult, ...], ...]:
    """Results of one test, one visit, one source and one outcome, in the order they were taken."""
    found: dict[tuple[object, ...], list[OldResult]] = {}
    for result in results:
        found.setdefault((result.visit, result.test, result.source, result.outcome_words), []).append(result)
    return tuple(tuple(alike) for alike in found.values())

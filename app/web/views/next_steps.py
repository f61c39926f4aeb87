"""The next steps, ready to show, each with the way to record its result."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.board.board import Board, NextStep, RowId
from app.rules.library import Rules
from app.vehicle.layout import Layout
from app.web.views.said import is_whole, sentence


@dataclass(frozen=True, slots=True)
class NextView:
    """`record`: address of the form with this test and place already chosen."""

    id: str
    number: str
    name: str
    places: str
    minutes: str
    rules_in: str
    rules_out: str
    covers: str
    cautions: tuple[str, ...]
    because: str
    method: str
    equal: bool
    record: str


@dataclass(frozen=True, slots=True)
class StepWords:
    rules: Rules
    layout: Layout
    names: dict[RowId, str]
    case_id: str

    def all(self, board: Board) -> tuple[NextView, ...]:
        return tuple(self.one(step, number) for number, step in enumerate(board.next, 1))

    def one(self, step: NextStep, number: int) -> NextView:
        place = step.places[0] if len(step.places) == 1 else ""
        test = self.rules.tests[step.test]
        return NextView(
            id=f"next-{step.test}-{'-'.join(step.places[:1])}",
            number=str(number),
            name=step.name,
            places="" if is_whole(step.places[0]) else step.place_words,
            minutes=f"{step.minutes:.0f} min",
            rules_in=self._rows(step.can_rule_in),
            rules_out=self._rows(step.can_rule_out),
            covers=", ".join(self.rules.covers[cover].name for cover in step.needs_open),
            cautions=tuple(sentence(one) for one in step.cautions),
            because=sentence(step.because),
            method=f"{test.method} {sentence(f'Good when: {test.pass_rule}') if test.pass_rule else ''}".strip(),
            equal=number > 1 and step.equal_to_first,
            record=f"/cases/{self.case_id}?record=result&test={step.test}&place={place}",
        )

    def _rows(self, rows: Sequence[RowId]) -> str:
        """The causes a step can settle, each once with its places, at most five by name."""
        causes: dict[str, list[str]] = {}
        for row in rows:
            if row in self.names:
                places = causes.setdefault(self.names[row], [])
                places += [] if is_whole(row.place) else [self.layout.in_words(row.place)]
        named = [f"{name} ({', '.join(at)})" if 0 < len(at) <= 2 else name for name, at in causes.items()]
        rest = f" and {len(named) - 5} more" if len(named) > 5 else ""
        return "; ".join(named[:5]) + rest

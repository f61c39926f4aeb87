"""Fields of a form, ready to show: label, what was typed, hint, and the sentence when something is wrong."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from pydantic import BaseModel, ConfigDict

from app.problem import Problem

LONGEST_TEXT = 4_000
LONGEST_LINE = 200


class Sent(BaseModel):
    """A form as it was sent: nothing but text. Fields with a changing name (one per place) are read by `ticked`."""

    model_config = ConfigDict(extra="allow", frozen=True)

    entry_id: str = ""

    def extra(self, prefix: str) -> dict[str, str]:
        """What was sent under names that begin with `prefix`, without the prefix; files are ignored."""
        extras = self.model_extra or {}
        return {n.removeprefix(prefix): v for n, v in extras.items() if n.startswith(prefix) and isinstance(v, str)}

    def ticked(self, prefix: str) -> tuple[str, ...]:
        return tuple(name for name, value in self.extra(prefix).items() if value)


@dataclass(frozen=True, slots=True)
class Choice:
    value: str
    label: str
    chosen: bool = False
    focused: bool = False


@dataclass(frozen=True, slots=True)
class Field:
    """`id` is the element's; `focused`: the focus goes here when the form is shown.

    `further`: rarer choices, folded away until one of them is chosen.
    """

    id: str
    name: str
    label: str
    value: str = ""
    choices: tuple[Choice, ...] = ()
    further: tuple[Choice, ...] = ()
    hint: str = ""
    problem: str = ""
    focused: bool = False

    @property
    def further_chosen(self) -> bool:
        return any(choice.chosen for choice in self.further)

    @property
    def described_by(self) -> str:
        """Ids of the sentences that belong to this field."""
        return " ".join(f"{self.id}-{part}" for part in ("hint", "problem") if getattr(self, part))


class Problems(tuple[Problem, ...]):
    """Everything wrong with what was sent; never empty when returned instead of a value."""

    __slots__ = ()

    def at(self, name: str) -> str:
        return " ".join(f"{p.sentence} {p.mend}".strip() for p in self if p.where == name)

    @property
    def first(self) -> str:
        return self[0].where if self else ""

    def elsewhere(self, names: Iterable[str]) -> tuple[str, ...]:
        """Sentences that belong to no field shown."""
        shown = set(names)
        return tuple(f"{p.sentence} {p.mend}".strip() for p in self if p.where not in shown)


NONE = Problems()


@dataclass(frozen=True, slots=True)
class FieldMaker:
    """Makes the fields of one form with what was typed and what is wrong with it."""

    form: str
    problems: Problems = NONE
    focus_on: str = ""

    def line(self, name: str, label: str, *, value: str = "", hint: str = "") -> Field:
        return Field(
            id=f"{self.form}-{name}",
            name=name,
            label=label,
            value=value,
            hint=hint,
            problem=self.problems.at(name),
            focused=name == (self.problems.first or self.focus_on),
        )

    def choice(
        self,
        name: str,
        label: str,
        *,
        options: Sequence[tuple[str, str]],
        chosen: str | Sequence[str] = "",
        hint: str = "",
    ) -> Field:
        """Radio tiles, a list or ticks: the choices with the chosen one(s) marked."""
        marked = (chosen,) if isinstance(chosen, str) else tuple(chosen)
        field = self.line(name, label, hint=hint)
        choices = tuple(Choice(value, text, value in marked) for value, text in options)
        if field.focused and choices:
            at = next((i for i, one in enumerate(choices) if one.chosen), 0)
            choices = (*choices[:at], replace(choices[at], focused=True), *choices[at + 1 :])
        return replace(field, choices=choices)


def too_long(name: str, text: str, *, limit: int = LONGEST_LINE) -> tuple[Problem, ...]:
    """A text longer than anybody needs here is refused, and so is what no keyboard types."""
    if len(text) > limit:
        return (Problem(name, f"This is {len(text):,} characters long.", f"At most {limit:,} fit here."),)
    if any(ord(letter) < 32 and letter not in "\n\r\t" for letter in text):
        return (Problem(name, "This holds signs that cannot be shown.", "Type it again."),)
    return ()

"""What has to be worked out: contexts, columns (a context and perhaps a test) and pairs (a trigger and a column)."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar

from app.beliefs.contexts import Context
from app.beliefs.triggers import Trigger

T = TypeVar("T")

NO_TEST = -1
AS_REPORTED = 0


@dataclass(slots=True)
class Plan:
    """Grows while questions are put into it; the same thing asked twice is worked out once.

    Context 0 is the evidence as reported. A column is (context, finding tested or NO_TEST).
    `branched`: columns whose test is also wanted jointly with the states of all its parents.
    """

    triggers: list[Trigger] = field(default_factory=list)
    contexts: list[Context] = field(default_factory=lambda: [Context()])
    columns: list[tuple[int, int]] = field(default_factory=lambda: [(AS_REPORTED, NO_TEST)])
    pairs: list[tuple[int, int]] = field(default_factory=list)
    branched: list[int] = field(default_factory=list)
    sharp: set[int] = field(default_factory=set)
    _known: dict[object, int] = field(default_factory=dict)

    def context(self, context: Context) -> int:
        """The index of this context; its column without a test comes with it, for the mixing of papers."""
        if context == Context():
            return AS_REPORTED
        index = self._intern(context, self.contexts, context)
        self.column(index)
        return index

    def column(self, context: int = AS_REPORTED, test: int = NO_TEST) -> int:
        """The index of this column."""
        if (context, test) == (AS_REPORTED, NO_TEST):
            return 0
        return self._intern(("column", context, test), self.columns, (context, test))

    def trigger(self, trigger: Trigger) -> int:
        """The index given to this trigger."""
        alike = (frozenset(trigger.touches.items()), trigger.inside, trigger.event, trigger.blames)
        return self._intern(alike, self.triggers, trigger)

    def pair(self, trigger: int, column: int, *, sharp: bool = False) -> int:
        """The index of this pair; the trigger without the test comes with it.

        `sharp`: all four masses are wanted to the last digits.
        """
        context, test = self.columns[column]
        if test != NO_TEST:
            self.pair(trigger, self.column(context))
        index = self._intern(("pair", trigger, column), self.pairs, (trigger, column))
        if sharp:
            self.sharp.add(index)
        return index

    def branch(self, column: int) -> None:
        """Ask for the test of this column jointly with the states of its parents."""
        if column not in self.branched:
            self.branched.append(column)

    def _intern(self, key: object, items: list[T], item: T) -> int:
        found = self._known.get(key)
        if found is None:
            items.append(item)
            found = self._known[key] = len(items) - 1
        return found

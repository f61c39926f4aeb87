"""What was not worked out because it would have taken too long, counted by kind, and in words."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LeftOut:
    """`tests` to come, `results` to be judged, `reports` to be thought away, `parts` whose fate was asked, `steps`
    whose worth was; `set_aside`: reports not used at all.
    """

    tests: int = 0
    results: int = 0
    reports: int = 0
    parts: int = 0
    steps: int = 0
    set_aside: int = 0

    def beside(self, other: LeftOut) -> LeftOut:
        """Of two sets of questions to one network, with the same reports set aside for both."""
        return LeftOut(
            self.tests + other.tests,
            self.results + other.results,
            self.reports + other.reports,
            self.parts + other.parts,
            self.steps + other.steps,
            max(self.set_aside, other.set_aside),
        )

    def in_words(self) -> str | None:
        """A sentence or two; None: nothing was left out."""
        return " ".join(filter(None, (self._questions(), self._reports()))) or None

    def _questions(self) -> str:
        parts = [
            f"what {_count(self.tests, 'test')} would show" if self.tests else "",
            f"how {_count(self.results, 'old result')} would be judged" if self.results else "",
            f"how the chances were without {_count(self.reports, 'report')}" if self.reports else "",
            f"by what {_count(self.parts, 'part')} may have failed" if self.parts else "",
            f"the worth of {_count(self.steps, 'next step')}" if self.steps else "",
        ]
        told = "; ".join(filter(None, parts))
        return f"Left out, because it would have taken too long: {told}." if told else ""

    def _reports(self) -> str:
        if not self.set_aside:
            return ""
        reports = "1 report was" if self.set_aside == 1 else f"{self.set_aside} reports were"
        return f"{reports} set aside, because too many findings hang together to be worked out at once."


NOTHING = LeftOut()


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"

"""Vehicles whose fault came back, and was then repaired again; every story on the supplied rules."""

from __future__ import annotations

from dataclasses import replace

from app.evidence.case import Case
from tests.cases import Story, a_case

MISFIRE = ("misfire-hot-only", "cyl-3")
SHOWN = ("hot", "idle")


def came_back_twice() -> Story:
    """A coil renewed three times; it was back after 10 km, then after 25 km. The third is to be proven."""
    return (
        a_case(*MISFIRE)
        .visit("2026-03-02", 84_000)
        .complains(*MISFIRE)
        .job("renew-coil", "cyl-3")
        .visit("2026-03-05", 84_010)
        .complains(*MISFIRE)
        .job("renew-coil", "cyl-3")
        .visit("2026-03-12", 84_035)
        .complains(*MISFIRE)
        .job("renew-coil", "cyl-3")
    )


def hot_at_idle(story: Story) -> Case:
    """The same, with the conditions noted at each visit under which it showed."""
    visits = tuple(
        replace(visit, symptoms=tuple(replace(seen, conditions=SHOWN) for seen in visit.symptoms))
        for visit in story.case.visits
    )
    return replace(story.case, visits=visits)

"""What no rule names makes complaints too: as often as the rules themselves expect it."""

from __future__ import annotations

from collections.abc import Iterator

from app.network.unlisted import ALWAYS_THERE, unlisted_gives
from app.rules.causes import Cause
from app.rules.library import Rules
from app.rules.priors import unlisted_priors
from app.rules.words import CauseId, Course, SymptomId
from app.vehicle.layout import Layout, PlaceId

NOT_LISTED = CauseId("not listed")


def not_listed(lead: SymptomId, layout: Layout, rules: Rules) -> Iterator[tuple[Cause, PlaceId, float]]:
    """Each way of giving the complaint at each place, with its prior. No test shows it and no job puts it right."""
    family = rules.family_of(lead)
    for level, prior in unlisted_priors(family, lead, layout, rules).items():
        for course, part in ((Course.AT_ONCE, ALWAYS_THERE), (Course.COMES_AND_GOES, 1.0 - ALWAYS_THERE)):
            cause = Cause(
                id=NOT_LISTED,
                family=family.id,
                name="not listed",
                system="",
                acts_at={level: 1.0},
                how_common=None,
                prior=prior * part,
                why="",
                fits={},
                gives=tuple(unlisted_gives(lead, course, rules).values()),
                raised_by=(),
                damages=(),
                fixed_by=(),
                cautions=(),
                bad_part=0.0,
                comes_with_part=False,
                wears_in_over_km=rules.settings.wears_in_over_km,
                only_the_repair_tells=None,
            )
            for place in layout.places(level):
                yield cause, place, prior * part

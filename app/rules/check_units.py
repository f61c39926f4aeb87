"""Units that do not fit their quantity."""

from __future__ import annotations

from collections.abc import Iterator

from app.measurements.units import is_unit, same_dimension
from app.problem import Problem
from app.rules.library import Rules


def check_units(rules: Rules) -> Iterator[Problem]:
    for quantity in rules.quantities.values():
        kept = quantity.units.get(quantity.unit, "")
        for shown, name in quantity.units.items():
            where = rules.where("quantities", quantity.id, "units", shown)
            if not is_unit(name):
                yield Problem(where, f"“{name}” is not a unit.", "Write it as in mm, bar or newton * meter.")
            elif is_unit(kept) and not same_dimension(kept, name):
                yield Problem(
                    where,
                    f"“{shown}” cannot be turned into {quantity.unit}, so it does not fit “{quantity.name}”.",
                    "Use units of one kind.",
                )

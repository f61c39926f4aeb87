"""Leading causes that no test can tell apart are said to be so; others are not."""

from __future__ import annotations

from dataclasses import replace

from app.board.alike import told_apart_by_repair
from app.board.board import CauseGroup, Status
from app.rules.tests import Shows
from app.rules.words import CauseId
from tests.cases import real_rules


def a_group(cause: str) -> CauseGroup:
    name = real_rules().causes[CauseId(cause)].name
    return CauseGroup(CauseId(cause), name, "", 0.1, 0.1, Status.OPEN, (), "", (), ())


def test_only_twins_are_said_to_be_told_apart_by_the_repair():
    rules = real_rules()
    one, other = CauseId("module-does-not-sleep"), CauseId("accessory-draws-at-rest")
    tests = {
        name: replace(
            test,
            shows=(
                *(shows for shows in test.shows if shows.cause != other),
                *(Shows(other, shows.strength) for shows in test.shows if shows.cause == one),
            ),
            blind_when=tuple(blind for blind in test.blind_when if blind.cause not in (one, other)),
        )
        for name, test in rules.tests.items()
    }
    groups = [a_group(one), a_group(other), a_group("relay-stuck-closed")]
    said = [group.said for group in told_apart_by_repair(groups, replace(rules, tests=tests))]
    assert said[0] == (f"No test tells this from {rules.causes[other].name}: only the repair does.",)
    assert rules.causes[one].name in said[1][0]
    assert said[2] == ()
    assert all(not group.said for group in told_apart_by_repair(groups, rules))

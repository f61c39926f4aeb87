"""A defect that nobody asked about is evidence for the cause it brings, since the job named for it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.board.build import build_board
from app.evidence.case import DefectSeen, JobNamed, Source
from app.evidence.jobs import touches
from app.evidence.observe import observe
from tests.cases import Story, a_case, every_row, group, real_rules, row

ROUGH, JUDDER = "rough-running", "judder-under-braking"
OIL = "plug-well-seal-leak"


def rough() -> Story:
    return (
        a_case(ROUGH, "engine")
        .visit("2026-01-10", 80000, here=False, shop="Harbour Garage")
        .complains(ROUGH, "engine", source=Source.PAPER)
        .job("renew-coil", "cyl-3", source=Source.PAPER)
        .visit("2026-03-10", 81000)
        .code("P0303")
    )


def with_defect(story: Story, kind: str, place: str, source: Source = Source.SEEN_HERE, after=None, visit: int = -1):
    seen = DefectSeen(kind, place, source, "seen by lamp", after)
    visits = list(story.case.visits)
    visits[visit] = replace(visits[visit], defects=(*visits[visit].defects, seen))
    return replace(story.case, visits=tuple(visits))


def test_a_defect_seen_here_confirms_its_cause_at_its_place_only():
    board = build_board(with_defect(rough(), "oil-in-plug-well", "cyl-3"), real_rules())
    assert row(board, OIL, "cyl-3").status == "confirmed"
    assert row(board, OIL, "cyl-3").probability > 0.95
    others = [one for one in every_row(board) if one.id.cause == OIL and one.id.place == "cyl-5"]
    assert all(one.probability < 0.5 for one in others)


def test_it_is_open_whether_a_defect_found_is_to_blame():
    board = build_board(with_defect(rough(), "oil-in-plug-well", "cyl-5"), real_rules())
    found = row(board, OIL, "cyl-5")
    assert found.probability > 0.95 > 0.5 > found.to_blame


def test_a_defect_only_told_raises_and_confirms_nothing():
    none = group(build_board(rough().case, real_rules()), OIL).probability
    board = build_board(with_defect(rough(), "oil-in-plug-well", "cyl-3", Source.TOLD), real_rules())
    told = row(board, OIL, "cyl-3")
    assert told.probability > 2 * none
    assert told.status != "confirmed"


def test_a_defect_that_brings_no_cause_moves_nothing():
    plain = build_board(rough().case, real_rules())
    after = build_board(with_defect(rough(), "wire-trapped", "engine"), real_rules())
    assert [(r.id, r.probability) for r in every_row(plain)] == [(r.id, r.probability) for r in every_row(after)]


def test_a_defect_named_for_a_job_came_in_with_it():
    """What a job left behind cannot have given the complaint before that job."""
    named = with_defect(rough(), "oil-in-plug-well", "cyl-3", after=JobNamed(1, "renew-coil"))
    cause, rules = real_rules().causes[OIL], real_rules()
    plain = touches(cause, "cyl-3", with_defect(rough(), "oil-in-plug-well", "cyl-3"), rules, prior=0.001)
    [touch] = touches(cause, "cyl-3", named, rules, prior=0.001)
    assert plain == ()
    assert touch.job.job.operation == "renew-coil"
    assert touch.brings == pytest.approx(rules.defects["oil-in-plug-well"].how.chance)
    unnamed = build_board(with_defect(rough(), "oil-in-plug-well", "cyl-3"), rules)
    assert row(build_board(named, rules), OIL, "cyl-3").to_blame != row(unnamed, OIL, "cyl-3").to_blame


def test_a_kind_the_rules_no_longer_know_is_said_to_be_missing():
    case = with_defect(rough(), "gremlin", "cyl-3")
    assert "Kind of defect “gremlin”" in observe(case, real_rules()).missing
    assert build_board(case, real_rules()).missing


def test_a_verified_duty_does_not_make_a_defect_seen_here_impossible():
    """Eyes can miss: the two together still leave the defect confirmed rather than a contradiction."""
    story = (
        a_case(JUDDER, "front-axle")
        .visit("2026-02-01", 80000)
        .complains(JUDDER, "front-axle")
        .job("clean-hub-face", "front-left-wheel", duties={"nothing-between-faces": "verified"})
        .visit("2026-04-01", 82000)
        .complains(JUDDER, "front-axle")
    )
    board = build_board(with_defect(story, "rust-left-under-disc", "front-left-wheel"), real_rules())
    assert not board.contradiction
    assert row(board, "rust-between-hub-and-disc", "front-left-wheel").probability > 0.95


def test_the_board_names_the_defect_among_what_speaks_for_it():
    board = build_board(with_defect(rough(), "oil-in-plug-well", "cyl-3"), real_rules())
    said = [one.what for r in every_row(board) if r.id.cause == OIL for one in r.speaks_for]
    assert any(what.startswith("Found: oil standing in a plug well, cylinder 3 (visit 2") for what in said)

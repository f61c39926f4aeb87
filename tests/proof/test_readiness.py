"""Readiness and the states of codes: what a scan after the repair proves, and what not."""

from __future__ import annotations

import pytest

from app.proof.readiness import CodeSays, Ran, readiness
from app.proof.sentences import scan_says, verdict
from app.proof.standing import standing
from tests.cases import Story, a_case, real_rules

COMPLAINT = ("misfire-counted", "cyl-3")


def repaired(*codes: str) -> Story:
    story = a_case(*COMPLAINT).visit("2026-03-02", 84_000).complains(*COMPLAINT)
    return story.code(*codes).job("renew-coil", "cyl-3") if codes else story.job("renew-coil", "cyl-3")


def of(story: Story):
    return readiness(story.case, real_rules(), 1)


def test_before_its_monitor_has_run_a_scan_without_codes_proves_nothing_and_says_for_what():
    found = of(repaired("P0303").scan({"misfire": "not complete"}))
    assert not found.counts
    [said] = scan_says(found)
    assert "“misfire” has not run since codes were cleared" in said
    assert "without P0303 proves nothing" in said


def test_a_continuous_monitor_that_is_complete_counts_for_use_in_the_right_conditions_only():
    found = of(repaired("P0303").scan({"misfire": "complete"}))
    assert (found.counts, found.monitors[0].ran) == (True, Ran.RUNS_ALWAYS)
    assert "counts for the use in the right conditions, no further" in scan_says(found)[0]


@pytest.mark.parametrize(("word", "ran"), [("not supported", Ran.NOT_THERE), (None, Ran.NOT_READ)])
def test_a_monitor_that_is_not_there_or_was_not_read_proves_nothing(word, ran):
    found = of(repaired("P0303").scan({"misfire": word} if word else {"catalyst": "complete"}))
    assert (found.counts, found.monitors[0].ran) == (False, ran)


@pytest.mark.parametrize(
    ("code", "cleared", "says", "back"),
    [
        ("P0303 pending", True, CodeSays.SEEN_AGAIN, True),
        ("P0303 confirmed", True, CodeSays.BACK, True),
        ("P0303 confirmed", False, CodeSays.MAY_BE_OLD, False),
        ("P0303 pending", None, CodeSays.MAY_BE_OLD, False),
        ("P0303 permanent", True, CodeSays.ONLY_THE_VEHICLE, False),
    ],
)
def test_pending_confirmed_and_permanent_are_told_apart(code, cleared, says, back):
    """Two-drive-cycle logic and permanent codes: 13 CCR 1968.2 (d)(2), from memory."""
    found = of(repaired("P0303").scan({"misfire": "complete"}, code, cleared=cleared))
    assert (found.codes[0].says, found.back, found.counts) == (says, back, False)


def test_a_code_about_something_else_says_nothing_of_this_complaint():
    found = of(repaired("P0303").scan({"misfire": "complete"}, "P0562 confirmed"))
    assert (found.codes, found.counts) == ((), True)


def test_the_last_scan_is_the_one_that_counts():
    assert of(repaired("P0303").scan({"misfire": "not complete"}).scan({"misfire": "complete"})).counts


def test_where_a_code_stood_for_it_enough_use_alone_is_not_called_proven():
    story = repaired("P0303").visit("2026-03-05", 84_010).code("P0303").job("renew-coil", "cyl-3").run(km=90_000)
    found = standing(story.case, real_rules(), 0.9)
    assert "no scan that counts" in verdict(found, readiness(story.case, real_rules(), 2))
    scanned = story.scan({"misfire": "complete"})
    assert verdict(found, readiness(scanned.case, real_rules(), 2)) == "Proven"


def test_a_complaint_without_codes_is_not_proven_by_scans():
    story = a_case("judder-under-braking", "front-axle").visit("2026-03-02", 84_000)
    story = story.complains("judder-under-braking", "front-axle").job("replace-discs-and-pads", "front-axle")
    assert "a scan without codes proves nothing of it" in scan_says(of(story))[0]


def test_every_monitor_and_every_state_of_a_code_names_its_standard_or_regulation():
    rules = real_rules()
    rated = [*rules.monitors.values(), *rules.code_states.values()]
    assert all("J1979" in one.source and "13 CCR 1968.2" in one.source for one in rated)
    assert {one.id for one in rules.monitors.values() if one.continuous} == {
        "misfire",
        "fuel-system",
        "comprehensive-component",
    }

"""What is observed in a case: the complaint once per visit, kinds, sources, codes after clearing."""

from __future__ import annotations

from app.evidence.case import CodeState, Source
from app.evidence.moments import Phase
from app.evidence.observe import Evidence, observe
from tests.cases import FOUR, Story, a_case, real_rules

ROUGH = "rough-running"


def seen(story: Story) -> Evidence:
    return observe(story.case, real_rules())


def once_before() -> Story:
    return (
        a_case(ROUGH, "engine", FOUR)
        .visit("2026-01-10", 80000, here=False, shop="Harbour Garage")
        .complains(ROUGH, "engine", source=Source.TOLD)
        .code("P0302")
        .visit("2026-02-10", 81000)
    )


def test_a_code_stands_for_the_general_complaint_of_the_same_visit() -> None:
    complaint = seen(once_before().complains(ROUGH, "engine").code("P0302")).complaint
    assert [(d.symptom, d.place) for d in complaint.details] == [("misfire-counted", "cyl-2")]


def test_an_earlier_visit_counts_once_whatever_was_said_there() -> None:
    complaint = seen(once_before().code("P0302")).complaint
    assert [(o.at.visit, o.present) for o in complaint.once] == [(1, True)]


def test_tried_and_not_reproduced_says_nothing() -> None:
    evidence = seen(once_before().complains(ROUGH, "engine", is_="not reproduced"))
    assert evidence.complaint.details[0].at.visit == 1
    assert not evidence.complaint.once


def test_a_quiet_stretch_is_an_absence_on_the_road_after_that_visit() -> None:
    complaint = seen(once_before().quiet(ROUGH, "engine", km=600, after=1)).complaint
    quiet = [o for o in complaint.once if not o.present]
    assert [(o.at.visit, o.at.phase) for o in quiet] == [(1, Phase.ON_THE_ROAD)]


def test_a_code_that_is_gone_just_after_clearing_says_nothing() -> None:
    fresh = once_before().code("P0302", state=CodeState.ABSENT).cleared(km_ago=5)
    driven = once_before().code("P0302", state=CodeState.ABSENT).cleared(km_ago=400)
    assert seen(fresh).complaint.once == ()
    assert [(o.at.visit, o.present) for o in seen(driven).complaint.once] == [(2, False)]


def test_a_code_that_no_rule_knows_is_named_as_missing() -> None:
    assert any("P1999" in words for words in seen(once_before().code("P1999")).missing)


def test_statements_of_one_paper_share_its_switch_and_word_of_mouth_is_soft() -> None:
    story = once_before().result("leak-down", "cyl-2", "normal", source=Source.PAPER)
    story = story.result("leak-down", "cyl-1", "normal", source=Source.TOLD)
    paper, told = (r.belief for r in seen(story).results)
    assert (paper.present, paper.absent, paper.paper) == (0.0, 1.0, 2)
    assert 0.0 < told.present < told.absent < 1.0
    assert told.paper is None


def test_more_than_three_papers_leave_the_least_to_single_statements() -> None:
    story = a_case(ROUGH, "engine", FOUR)
    for month in range(1, 6):
        story = story.visit(f"2026-0{month}-10", 80000 + month, here=False, shop="Harbour Garage")
        story = story.complains(ROUGH, "engine", source=Source.TOLD)
        for cylinder in range(1, 3 if month < 4 else 2):
            story = story.result("leak-down", f"cyl-{cylinder}", "normal", source=Source.PAPER)
    evidence = seen(story)
    assert len(evidence.papers) == 3
    assert sum(r.belief.paper is None for r in evidence.results) == 2

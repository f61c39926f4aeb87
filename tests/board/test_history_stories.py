"""What jobs, sources and repeated complaints do to a board; stories of our own, orderings common practice."""

from __future__ import annotations

from dataclasses import replace

from app.board.board import Board, Row
from app.board.build import build_board
from app.evidence.case import Source
from app.rules.causes import Damages
from app.rules.library import Rules
from app.rules.words import Rated
from tests.cases import FOUR, Story, a_case, every_row, group, leaders, real_rules, row

ROUGH = "rough-running"


def one_misfire() -> Story:
    return (
        a_case(ROUGH, "engine", FOUR)
        .visit("2026-02-01", 90000, here=False, shop="Harbour Garage")
        .complains(ROUGH, "engine", source=Source.TOLD)
        .code("P0302")
    )


def back_again(story: Story) -> Story:
    return story.visit("2026-02-20", 90500).code("P0302")


def test_a_coil_replaced_in_vain_falls_and_the_new_one_stays_possible() -> None:
    before = build_board(one_misfire().case, real_rules())
    after = build_board(back_again(one_misfire().job("renew-coil", "cyl-2")).case, real_rules())
    old = next(r for r in after.earlier if r.id.cause == "coil-failing")
    assert old.probability < 0.5 * row(before, "coil-failing", "cyl-2").probability
    assert 0.005 < row(after, "coil-failing", "cyl-2").probability < 0.15
    assert any("did not explain it" in sentence for sentence in old.said)
    assert any("Renewed by job 1" in sentence for sentence in row(after, "coil-failing", "cyl-2").said)


def test_a_job_that_only_opened_the_valve_gear_leaves_the_old_fault_as_possible_as_it_was() -> None:
    plain = build_board(back_again(one_misfire()).case, real_rules())
    opened = build_board(back_again(one_misfire().job("renew-valve-cover-gasket", "engine")).case, real_rules())
    for cause in ("exhaust-lash-too-tight", "valve-spring-broken-or-soft"):
        assert abs(group(plain, cause).probability - group(opened, cause).probability) < 0.01


def test_compression_taken_before_the_heads_were_off_no_longer_speaks_and_says_so() -> None:
    story = one_misfire().result("compression-dry-cranking", "cyl-2", "normal").job("renew-head-gasket", "engine")
    (result,) = build_board(back_again(story).case, real_rules()).results
    assert not result.rules_out
    assert any("no longer speaks" in sentence and "head gasket" in sentence for sentence in result.stale)


def test_paper_moves_less_than_a_measurement_here_and_rules_nothing_out() -> None:
    def with_leak_down(source: Source) -> Story:
        return back_again(one_misfire()).result("leak-down", "cyl-2", "normal", source=source)

    burnt = ("valve-burnt-or-not-sealing", "cyl-2")
    none = row(build_board(back_again(one_misfire()).case, real_rules()), *burnt).probability
    paper = build_board(with_leak_down(Source.PAPER).case, real_rules())
    told = build_board(with_leak_down(Source.TOLD).case, real_rules())
    here = build_board(with_leak_down(Source.MEASURED_HERE).case, real_rules())
    assert row(here, *burnt).probability < row(paper, *burnt).probability < none
    assert row(here, *burnt).probability < row(told, *burnt).probability < none
    assert not paper.ruled_out
    assert any("on paper only" in sentence for sentence in row(paper, *burnt).said)


def test_six_good_figures_on_one_sheet_do_not_rule_anything_out() -> None:
    story = a_case(ROUGH, "engine").visit("2026-02-01", 90000).code("P0301", "P0303")
    for cylinder in range(1, 7):
        story = story.result("leak-down", f"cyl-{cylinder}", "normal", source=Source.PAPER)
    assert not build_board(story.case, real_rules()).ruled_out


def test_a_job_only_told_of_leaves_both_possibilities_open() -> None:
    nothing = build_board(back_again(one_misfire()).case, real_rules())
    done = build_board(back_again(one_misfire().job("renew-coil", "cyl-2")).case, real_rules())
    told = build_board(back_again(one_misfire().job("renew-coil", "cyl-2", source=Source.TOLD)).case, real_rules())
    now = [row(board, "coil-failing", "cyl-2").probability for board in (done, told, nothing)]
    assert min(now[0], now[2]) - 0.005 < now[1] < max(now[0], now[2]) + 0.005
    old = [next(r for r in board.earlier if r.id.cause == "coil-failing").probability for board in (done, told)]
    assert old[1] > 2 * old[0]
    assert any("may not have been done" in sentence for sentence in row(told, "coil-failing", "cyl-2").said)


def test_a_duty_found_wrong_confirms_the_fault_it_names() -> None:
    operation = real_rules().operations["adjust-valve-lash"]
    duty = next(d for d in operation.duties if d.brings == "exhaust-lash-too-tight")
    wrong = back_again(one_misfire().job("adjust-valve-lash", "engine", duties={duty.id: "found wrong"}))
    right = back_again(one_misfire().job("adjust-valve-lash", "engine", duties={duty.id: "verified"}))
    found = build_board(wrong.case, real_rules())
    assert any(r.id.cause == "exhaust-lash-too-tight" for r in found.confirmed)
    lowered = group(build_board(right.case, real_rules()), "exhaust-lash-too-tight").probability
    unchecked = back_again(one_misfire().job("adjust-valve-lash", "engine"))
    assert lowered < group(build_board(unchecked.case, real_rules()), "exhaust-lash-too-tight").probability


# --- the same part again -------------------------------------------------------------------------------------------


def wells_that_only_kill_coils() -> Rules:
    """The supplied rules with a plug-well leak that does not misfire by itself: it usually kills coils in 6 months."""
    rules = real_rules()
    well = rules.causes["plug-well-seal-leak"]
    gives = tuple(g for g in well.gives if g.symptom == "oil-in-plug-well")
    kills = Damages("coil-failing", Rated("usually", 0.5), within_months=6.0, within_km=None)
    prior = 0.002
    harmless = replace(well, gives=gives, damages=(kills,), how_common=None, prior=prior)
    return replace(rules, causes={**rules.causes, well.id: harmless})


def same_coil_twice(day: str, km: float) -> Story:
    return (
        one_misfire()
        .complains("oil-in-plug-well", "cyl-2")
        .job("renew-coil", "cyl-2")
        .visit(day, km)
        .code("P0302")
        .complains("oil-in-plug-well", "cyl-2")
        .result("coil-swap", "cyl-2", "abnormal")
    )


def test_a_coil_that_failed_again_within_months_points_at_what_kills_it() -> None:
    board = build_board(same_coil_twice("2026-04-15", 93000).case, wells_that_only_kill_coils())
    coil = row(board, "coil-failing", "cyl-2")
    assert coil.by_itself is not None
    assert group(board, "plug-well-seal-leak").to_blame > 2 * coil.to_blame
    assert any("killed by plug well seal" in sentence for sentence in coil.said)


def test_with_years_of_silence_between_them_it_does_not() -> None:
    board = build_board(same_coil_twice("2031-04-15", 160000).case, wells_that_only_kill_coils())
    assert row(board, "coil-failing", "cyl-2").to_blame > group(board, "plug-well-seal-leak").to_blame


# --- the same complaint told at every visit --------------------------------------------------------------------------


FLAT = "battery-flat"
JOBS = ("renew-battery", "renew-alternator", "renew-battery")


def battery_story(*, told_at_all: bool) -> Story:
    """Battery, alternator and battery renewed; then the complaint at four visits without further work."""
    story = a_case(FLAT, "vehicle")
    for day, job in zip(("2025-12-01", "2026-01-15", "2026-02-20"), JOBS, strict=True):
        story = story.visit(day, 48000, here=False, shop="Harbour Garage").job(job, "vehicle", source=Source.PAPER)
    for number, day in enumerate(("2026-05-01", "2026-05-20", "2026-06-10", "2026-07-01")):
        story = story.visit(day, 50000 + 600 * number)
        if told_at_all or number == 3:
            story = story.complains(FLAT, "vehicle", source=Source.TOLD)
    return story


def renewed_in_vain(*, told_at_all: bool) -> Story:
    """The complaint before and after each renewal, or only at the last visit."""
    story = a_case(FLAT, "vehicle")
    for number, day in enumerate(("2026-05-01", "2026-05-20", "2026-06-10", "2026-07-01")):
        story = story.visit(day, 50000 + 600 * number, here=number == 3, shop="Harbour Garage")
        if told_at_all or number == 3:
            story = story.complains(FLAT, "vehicle", source=Source.TOLD)
        if number < 3:
            story = story.job(JOBS[number], "vehicle", source=Source.PAPER)
    return story


def test_a_complaint_told_four_times_does_not_count_four_times() -> None:
    once = build_board(battery_story(told_at_all=False).case, real_rules())
    four = build_board(battery_story(told_at_all=True).case, real_rules())
    for told in every_row(four):
        other = row(once, told.id.cause, told.id.place)
        assert abs(told.to_blame - other.to_blame) <= 0.02, told.id
        assert abs(by_itself(told) - by_itself(other)) <= 0.02, told.id
    assert four.not_listed >= once.not_listed


def renewed_by(operation: str) -> set[str]:
    return {cause for cause, effect in real_rules().operations[operation].touches.items() if effect == "renews"}


def blamed_on(causes: set[str], board: Board) -> float:
    return sum(group.to_blame for group in board.groups if group.cause in causes)


def by_itself(told: Row) -> float:
    return told.probability if told.by_itself is None else told.by_itself


def test_what_was_renewed_between_two_tellings_falls_and_what_nothing_listed_explains_does_not() -> None:
    once = build_board(renewed_in_vain(told_at_all=False).case, real_rules())
    four = build_board(renewed_in_vain(told_at_all=True).case, real_rules())
    assert four.not_listed >= once.not_listed
    assert blamed_on(renewed_by("renew-alternator"), four) < blamed_on(renewed_by("renew-alternator"), once)
    assert group(four, "module-does-not-sleep").to_blame > group(once, "module-does-not-sleep").to_blame


# --- smooth, then back; or never right since ------------------------------------------------------------------------


JUDDER = "judder-under-braking"
WEARS_IT_IN = {
    "rust-between-hub-and-disc",
    "hub-flange-runout",
    "wheel-nut-torque-uneven",
    "caliper-slides-seized",
    "caliper-piston-sticking",
}


def new_discs() -> Story:
    return (
        a_case(JUDDER, "front-axle", FOUR)
        .visit("2026-01-10", 80000, here=False, shop="Harbour Garage")
        .complains(JUDDER, "front-axle", source=Source.TOLD)
        .job("replace-discs-and-pads", "front-axle", source=Source.PAPER)
    )


def smooth_then_back() -> Story:
    return new_discs().visit("2026-08-10", 89000).quiet(JUDDER, "front-axle", km=5000, after=1)


def never_right_since() -> Story:
    return new_discs().visit("2026-01-20", 80300).complains(JUDDER, "front-axle")


def test_smooth_for_thousands_of_km_points_at_what_wears_the_disc_uneven() -> None:
    board = build_board(smooth_then_back().case, real_rules())
    assert leaders(board, 1)[0] in WEARS_IT_IN
    assert len(WEARS_IT_IN & set(leaders(board, 5))) >= 3
    assert "disc-poor-quality-new" not in leaders(board, 5)


def test_never_right_since_the_discs_raises_a_disc_bad_from_new() -> None:
    smooth = group(build_board(smooth_then_back().case, real_rules()), "disc-poor-quality-new").to_blame
    board = build_board(never_right_since().case, real_rules())
    bad_disc = group(board, "disc-poor-quality-new").to_blame
    assert bad_disc >= 3 * smooth
    assert bad_disc > group(board, "disc-thickness-variation").to_blame

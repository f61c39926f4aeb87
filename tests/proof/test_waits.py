"""How soon the fault came back, as the history tells it."""

from __future__ import annotations

from app.proof.conditions import shown_under
from app.proof.measures import Measure
from app.proof.waits import History, Known, repairs, waits
from tests.cases import Story, a_case, real_rules
from tests.proof.stories import MISFIRE, came_back_twice


def waits_of(story: Story):
    case, rules = story.case, real_rules()
    return waits(History(case, rules, shown_under(case, rules), repairs(case, rules)))


def told(story: Story) -> list[tuple[float | None, bool, Known]]:
    return [(wait.use.get(Measure.KM), wait.returned, wait.known) for wait in waits_of(story)]


def test_between_a_repair_and_the_return_lie_distance_and_days():
    first, second = waits_of(came_back_twice())
    assert (first.use, second.use) == ({Measure.KM: 10, Measure.DAYS: 3}, {Measure.KM: 25, Measure.DAYS: 7})
    assert (first.returned, first.since, first.until) == (True, 1, 2)


def test_what_the_customer_tells_stands_before_the_odometer():
    story = a_case(*MISFIRE).visit("2026-03-02", 84_000).complains(*MISFIRE).job("renew-coil", "cyl-3")
    story = story.visit("2026-04-02", 86_000).quiet(*MISFIRE, km=300, after=1).complains(*MISFIRE)
    assert told(story) == [(300, True, Known.TOLD)]


def test_from_clearing_to_the_code_is_nearer_than_from_the_repair():
    story = a_case("misfire-counted", "cyl-3").visit("2026-03-02", 84_000).code("P0303").job("renew-coil", "cyl-3")
    story = story.visit("2026-04-02", 84_900).code("P0303").cleared(20)
    [wait] = waits_of(story)
    assert (wait.use[Measure.KM], wait.use[Measure.DAYS], wait.known) == (20, 31, Known.CLEARING)


def test_silence_that_ended_with_another_repair_counts_as_quiet_use():
    story = came_back_twice().visit("2026-06-01", 86_000).complains(*MISFIRE, is_="absent").job("renew-coil", "cyl-3")
    assert told(story)[-1] == (1965, False, Known.VISITS)


def test_a_visit_at_which_nobody_spoke_of_it_ends_no_wait():
    story = a_case(*MISFIRE).visit("2026-03-02", 84_000).complains(*MISFIRE).job("renew-coil", "cyl-3")
    assert told(story.visit("2026-03-20", 84_500).visit("2026-03-30", 84_700).complains(*MISFIRE)) == [
        (700, True, Known.VISITS)
    ]


def test_starts_and_drive_cycles_are_known_from_runs_that_ended_with_it():
    story = a_case(*MISFIRE).visit("2026-03-02", 84_000).complains(*MISFIRE).job("renew-coil", "cyl-3")
    story = story.run("hot", "idle", starts=4, cycles=2).run("cold", starts=90)
    story = story.run("hot", "idle", back=True, starts=3, km=5)
    [wait] = waits_of(story)
    assert wait.use == {Measure.KM: 5, Measure.STARTS: 7, Measure.CYCLES: 2}
    assert (wait.known, wait.until) == (Known.RUNS, None)


def test_a_return_at_once_counts_as_one_step_and_not_as_nothing():
    story = a_case(*MISFIRE).visit("2026-03-02", 84_000).complains(*MISFIRE).job("renew-coil", "cyl-3")
    [wait] = waits_of(story.visit("2026-03-02", 84_000).complains(*MISFIRE))
    assert wait.use == {Measure.KM: 1, Measure.DAYS: 1}


def test_work_before_the_complaint_was_there_mended_nothing_of_it():
    story = a_case(*MISFIRE).visit("2026-03-02", 84_000).complains(*MISFIRE, is_="absent").job("renew-coil", "cyl-3")
    story = story.visit("2026-05-02", 85_000).complains(*MISFIRE)
    assert repairs(story.case, real_rules()) == ()
    assert waits_of(story) == ()


def test_a_job_that_only_opens_is_no_repair():
    story = a_case(*MISFIRE).visit("2026-03-02", 84_000).complains(*MISFIRE).job("renew-coil", "cyl-3")
    story = story.visit("2026-03-05", 84_010).job("jump-start", "vehicle")
    assert repairs(story.case, real_rules()) == (1,)

"""Case files: what comes out, what is refused with its line, and that the JSON Schema agrees with the reader."""

from __future__ import annotations

import json
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.commands.case_schema import plain, schema_problems
from app.evidence.case import DutyState, Outcome, Presence, Source
from app.evidence.case_file import read_case_file
from app.rules.read import read_rules
from app.rules.tree import Notes, read_tree
from app.settings import PROJECT
from tests.evidence.example_case import EXAMPLE
from tests.rules.texts import shipped, texts

SMALL = read_rules(texts())[0]
DEMO = sorted(path for path in (PROJECT / "seed_data" / "demo").glob("*.yaml") if path.name != "workshop.yaml")


def case_of(text: str = EXAMPLE, **more):
    case, problems = read_case_file(text, "case.yaml", SMALL, **more)
    assert problems == ()
    assert case is not None
    return case


def changed(old: str, new: str) -> str:
    assert old in EXAMPLE
    return EXAMPLE.replace(old, new, 1)


DEFECT = """\
    defects:
      - {kind: lash-screw-loose, at: cyl-3, words: nut turns by hand, after job: {visit: 1, operation: adjust-lash}}
      - {kind: bolt-left-out, at: engine, source: as told, note: Third from the front.}
"""


def with_defects(old: str = "", new: str = "") -> str:
    assert old in DEFECT
    return EXAMPLE + DEFECT.replace(old, new, 1)


def test_defects_come_out_with_the_job_named_for_them():
    loose, bolt = case_of(with_defects()).visits[1].defects
    assert (loose.kind, loose.place, loose.words, loose.source) == (
        "lash-screw-loose",
        "cyl-3",
        "nut turns by hand",
        Source.SEEN_HERE,
    )
    assert (loose.after.visit, loose.after.operation) == (1, "adjust-lash")
    assert (bolt.source, bolt.after, bolt.note) == (Source.TOLD, None, "Third from the front.")
    assert schema_problems(with_defects(), "case.yaml") == ()


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("lash-screw-loose", "lash-screw-lose", "There is no kind of defect “lash-screw-lose”."),
        ("at: cyl-3", "at: vehicle", "cannot be at “vehicle”"),
        ("at: cyl-3, ", "", "does not say where"),
        ("operation: adjust-lash", "operation: replace-coil", "Visit 1 has no job “replace-coil”."),
        ("visit: 1", "visit: 3", "is not a visit up to this one"),
        ("source: as told", "source: dreamt", "There is no source “dreamt”."),
        ("words: nut", "colour: nut", "has no place for “colour”"),
    ],
)
def test_a_wrong_defect_is_refused_with_its_line(old, new, sentence):
    case, problems = read_case_file(with_defects(old, new), "case.yaml", SMALL)
    assert case is None
    assert [p for p in problems if sentence in p.sentence and p.where.startswith("case.yaml:")], problems


def test_a_case_comes_out_with_all_that_was_said():
    case = case_of()
    assert (case.vehicle.customer, case.complaint_place, case.open_covers) == ("A. Hartwell", "cyl-3", ("plugs-out",))
    first, second = case.visits
    assert (first.here, first.shop, first.day, first.odometer_km) == (
        False,
        "Harbour Garage",
        date(2026, 2, 11),
        84200.0,
    )
    assert (second.here, second.day) == (True, None)
    assert second.odometer_km == pytest.approx(53000 * 1.609344)
    assert first.symptoms[0].source is Source.PAPER
    assert first.codes[0].code == "P0303"
    assert first.codes[0].freeze_frame == {"coolant": "92 °C"}
    assert first.cleared[0].km_ago == 20.0
    assert first.jobs[0].places == ("engine",)
    assert first.jobs[0].parts[0].number == "4410"
    wrong, unchecked = first.jobs[0].duties
    assert (wrong.state, wrong.source, wrong.seen_at_visit) == (DutyState.FOUND_WRONG, Source.SEEN_HERE, 2)
    assert (unchecked.state, unchecked.source) == (DutyState.NOT_CHECKED, Source.PAPER)
    absent = second.symptoms[1]
    assert (absent.presence, absent.absent_for_km, absent.after_visit) == (Presence.ABSENT, 800.0, 1)


def test_the_tests_own_words_are_outcomes_too():
    assert [result.outcome for result in case_of().visits[0].results] == [Outcome.NORMAL, Outcome.NORMAL]


def test_a_reading_and_its_specification_tell_the_outcome():
    leak, intake, third, *swaps = case_of().visits[1].results
    assert (leak.outcome, leak.weights, leak.situations, leak.after_work) == (
        Outcome.NORMAL,
        None,
        {"engine-cold": False},
        True,
    )
    assert (intake.place, intake.outcome) == ("cyl-1", Outcome.NORMAL)
    assert third.place == "cyl-3"
    assert third.outcome is Outcome.UNCERTAIN
    assert third.reading is not None
    assert third.reading.value == pytest.approx(0.2286)
    assert third.weights == pytest.approx((1 - 0.0041 / 0.0254, 0.0041 / 0.0254))
    assert [swap.place for swap in swaps] == ["cyl-1", "cyl-2", "cyl-3", "cyl-4"]


def test_json_with_the_same_keys_says_the_same():
    as_json = json.dumps(plain(read_tree(EXAMPLE, "case.yaml", Notes())), ensure_ascii=False)
    assert case_of(as_json) == case_of()


@pytest.mark.parametrize(
    ("old", "new", "sentence", "mend"),
    [
        ("symptom: misfire, at: cylinder 3", "symptom: misfires, at: cylinder 3", "no symptom “misfires”", "misfire"),
        ("at: cylinder 3", "at: cylinder 5", "This vehicle has no cylinder “cylinder 5”.", "cyl-1, cyl-2"),
        ("at: cylinder 3", "at: bank-1", "no cylinder “bank-1”", "cyl-1"),
        ("{symptom: misfire, at: cylinder 3}", "{symptom: misfire}", "does not say where", "cyl-1"),
        ("reading: 8 %", "reading: 8", "“8” has no unit.", "%"),
        ("reading: 8 %", "reading: 800 %", "not believable", "80 %"),
        ("reading: 8 %", "reading: 8 bar", "bar is a unit of pressure", "%"),
        ("high: 20 %", "high: 20", "has no unit", "%"),
        ("specification: {high: 20 %, from: common practice}", "note: no limits", "What came out", "specification"),
        ("high: 20 %, from: common practice", "from: common practice", "has no limit", "low, high"),
        ("{high: 20 %, from: common practice}", "{high: 20 %}", "has no “from”", "Add"),
        ("outcome: stayed}", "outcome: stayed, reading: 3 V}", "Nothing is read", "outcome"),
        ("outcome: stayed", "outcome: stood", "There is no outcome “stood”.", ""),
        ("engine-cold: no", "engine-hot: no", "no situation “engine-hot”", "engine-cold"),
        ("operation: adjust-lash", "operation: adjust-lashes", "no operation “adjust-lashes”", "adjust-lash"),
        ("values-written: not checked", "values-writen: not checked", "no duty of “adjust-lash”", "values-written"),
        ("values-written: not checked", "values-written: unsure", "no state of a duty", "not checked"),
        ("at visit: 2", "at visit: 3", "There is no visit 3.", "2"),
        ("day: 2026-02-11", "day: 11.2.2026", "“11.2.2026” is not a day.", "2026-03-02"),
        ("day: 2026-02-11", "day: 2026-02-30", "is not a day", "2026-03-02"),
        ("day: vague", "day: 2026-01-11", "lies before the visit above", "order"),
        ("odometer: 53000 mi", "odometer: 83000 km", "The odometer goes backwards: 83000 km after 84200 km.", "Check"),
        ("odometer: 84200 km", "odometer: 84200", "has no unit", "km or mi"),
        ("odometer: 84200 km", "odometer: 84.200 km", "is not a distance", "84200 km"),
        ("code: p0303", "code: P303", "has not the form of a trouble code", "P0301"),
        ("state: confirmed", "state: sure", "no state of a code", "confirmed"),
        ("source: on paper", "source: seen here", "was not here", "on paper"),
        ("source: on paper\n", "source: on papers\n", "no source “on papers”", "on paper"),
        ("is: absent, absent for", "absent for", "goes with “is: absent”", "Add"),
        (", after visit: 1", "", "belong together", "after visit"),
        ("after visit: 1", "after visit: 7", "not a visit up to this one", "1 to 2"),
        ("banks: [[1, 2, 3, 4]]", "banks: [[1, 2, 2]]", "The banks are not cylinder numbers, each once.", "[[1, 2"),
        ("firing order: [1, 3, 4, 2]", "firing order: [1, 3, 4]", "does not name each cylinder once", "Check"),
        ("fuel: petrol", "fuel: peanut", "“peanut”", "petrol"),
        ("rear brakes: drum", "rear brake: drum", "no trait “rear brake”", "rear brakes"),
        ("fuel: petrol", "banks: 1", "no trait “banks”", ""),
        ("open now: [plugs-out]", "open now: [plug-out]", "no cover “plug-out”", "plugs-out"),
        ("complaint: misfire\n", "complaint: rough\n", "no symptom “rough”", "misfire"),
        ("minutes: 120", "minutes: -3", "below nought", "time"),
        ("    cost: 412.00", "    price: 412.00", "has no place for “price”", ""),
    ],
)  # fmt: skip
def test_what_is_wrong_is_refused_on_its_line(old, new, sentence, mend):
    case, problems = read_case_file(changed(old, new), "case.yaml", SMALL)
    assert case is None
    hit = next(problem for problem in problems if sentence in problem.sentence)
    assert mend in hit.mend
    file, _, line = hit.where.rpartition(":")
    assert file == "case.yaml"
    assert int(line) >= 1


def test_days_in_the_future_are_refused_where_today_is_known():
    assert case_of(today=date(2026, 2, 11))
    _, problems = read_case_file(EXAMPLE, "case.yaml", SMALL, today=date(2026, 2, 10))
    assert [problem.sentence for problem in problems] == ["2026-02-11 lies in the future."]


def test_every_demo_case_can_be_read_and_follows_the_schema():
    assert DEMO
    for path in DEMO:
        text = path.read_text("utf-8")
        case, problems = read_case_file(text, path.name, shipped())
        assert (problems, schema_problems(text, path.name)) == ((), ()), path.name
        assert case is not None


def test_the_example_follows_the_schema():
    assert schema_problems(EXAMPLE, "case.yaml") == ()


def paths(value, so_far=()):
    """Every path to a value inside nested dicts and lists."""
    yield so_far
    steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, below in steps:
        yield from paths(below, (*so_far, step))


AS_DATA = plain(read_tree(EXAMPLE, "case.yaml", Notes()))
PATHS = [path for path in paths(AS_DATA) if path]


def damaged(path, change: str):
    """The example with one value taken out, replaced, or given a key nobody knows."""
    data = json.loads(json.dumps(AS_DATA))
    *above, last = path
    holder = data
    for step in above:
        holder = holder[step]
    if change == "gone":
        del holder[last]
    elif change == "unknown key":
        holder[last] = holder[last] | {"colour": "red"} if isinstance(holder[last], dict) else {"colour": "red"}
    else:
        holder[last] = {"text": "never heard of", "list": [[["deep"]]], "empty": ""}[change]
    return json.dumps(data)


@given(st.sampled_from(PATHS), st.sampled_from(["gone", "unknown key", "text", "list", "empty"]))
def test_what_the_schema_refuses_the_reader_refuses_too(path, change):
    text = damaged(path, change)
    case, problems = read_case_file(text, "case.json", SMALL)
    if schema_problems(text, "case.json"):
        assert case is None, (path, change)
        assert problems


MUSTS = [
    "vehicle",
    "vehicle/banks",
    "complaint",
    "visits",
    "visits/0/day",
    "visits/0/shop",
    "visits/0/results/0/test",
    "visits/0/jobs/0/operation",
    "visits/0/codes/0/state",
    "visits/0/codes/0/code",
    "visits/1/results/0/specification/from",
    "visits/0/jobs/0/parts/0/name",
]


@pytest.mark.parametrize("must", MUSTS)
def test_what_must_be_there_is_missed_by_both(must):
    path = tuple(int(step) if step.isdigit() else step for step in must.split("/"))
    text = damaged(path, "gone")
    assert read_case_file(text, "case.json", SMALL)[0] is None
    assert schema_problems(text, "case.json")


@given(st.text(max_size=200))
def test_no_text_makes_the_reader_crash(text):
    case, problems = read_case_file(text, "case.yaml", SMALL)
    assert case is None
    assert problems

"""Reading rule texts: what comes out, and what is refused with file, line and a helpful sentence."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.rules.library import Rules
from app.rules.read import read_rules
from app.rules.words import Course, Effect, FamilyId
from app.vehicle.layout import Layout, Level
from tests.rules.texts import changed, texts


@pytest.fixture
def rules() -> Rules:
    read, problems = read_rules(texts())
    assert problems == ()
    assert read is not None
    return read


def test_a_cause_is_read_with_all_it_says(rules):
    cause = rules.causes["exhaust-lash-too-tight"]
    assert cause.acts_at == {Level.CYLINDER: 0.9, Level.BANK: 0.1}
    assert cause.how_common is not None
    assert cause.how_common.chance == 2.0
    assert [(g.symptom, g.how_often.chance, g.course) for g in cause.gives] == [
        ("misfire", 0.5, Course.GROWS),
        ("misfire-only-hot", 0.8, Course.AT_ONCE),
    ]
    assert cause.raised_by[0].how.chance == 0.05
    assert cause.damages[0].within_months == 6.0
    assert cause.wears_in_over_km == 1000.0
    assert cause.bad_part == 0.02


def test_a_system_a_test_cannot_show_is_spelled_out_without_what_it_shows_or_names(rules):
    test = rules.tests["leak-down"]
    assert {cannot.cause for cannot in test.cannot_show} == {"exhaust-lash-too-tight", "coil-weak"}
    assert {cannot.cause for cannot in rules.tests["coil-swap"].cannot_show} == {
        "exhaust-lash-too-tight",
        "valve-burnt",
    }


def test_operations_say_what_they_do_to_a_cause_and_how_duties_are_verified(rules):
    assert rules.operations["renew-valve"].touches == {
        "valve-burnt": Effect.RENEWS,
        "exhaust-lash-too-tight": Effect.OPENS,
    }
    measured, written = rules.operations["adjust-lash"].duties
    assert (measured.verify_by_test, measured.verify_how) == ("lash-gauge", "")
    assert (written.verify_by_test, written.verify_how) == (None, "The work sheet shows them.")


def test_every_rule_knows_its_line(rules):
    file, line = rules.where("tests", "leak-down", "shows", "valve-burnt").split(":")
    assert "valve-burnt" in texts()[file].splitlines()[int(line) - 1]
    assert rules.where("tests", "leak-down", "no-such-key") == rules.where("tests", "leak-down")


def test_the_settings_are_those_of_the_design(rules):
    settings = rules.settings
    assert settings.unlisted_share == 0.05
    assert rules.families[FamilyId("misfire")].strikes.chance == 0.05
    assert (settings.job_renews, settings.job_sets, settings.bad_part) == (0.98, 0.9, 0.02)
    assert settings.reliability["parts with a receipt"] == 0.98


@pytest.mark.parametrize(
    ("old", "new", "sentence", "mend"),
    [
        (
            "shows: {valve-burnt: strong}",
            "shows: {valve-brunt: strong}",
            "There is no cause “valve-brunt”.",
            "valve-burnt",
        ),
        ("shows: {valve-burnt: strong}", "shows: {valve-burnt: storng}", "“storng”", "strong"),
        ("gives: {misfire: usually}", "gives: {misfires: usually}", "There is no symptom “misfires”.", "misfire"),
        ("system: ignition", "system: ignitoin", "There is no system “ignitoin”.", "ignition"),
        ("acts at: cylinder", "acts at: cilinder", "There is no level “cilinder”.", "cylinder"),
        (
            "valve clearance: [screw",
            "valve clearence: [screw",
            "There is no trait “valve clearence”.",
            "valve clearance",
        ),
        ("[screw, shim]", "[screw, shims]", "“shims”", "shim"),
        ("quantity: leak-rate", "quantity: leakrate", "There is no quantity “leakrate”.", "leak-rate"),
        ("needs open: [plugs-out]", "needs open: [plug-out]", "There is no cover “plug-out”.", "plugs-out"),
        ("engine-cold: {valve", "engine-warm: {valve", "There is no situation “engine-warm”.", "engine-cold"),
        (
            "fixed by: {replace-coil",
            "fixed by: {replace-coils",
            "There is no operation “replace-coils”.",
            "replace-coil",
        ),
        ("duty: measured-cold", "duty: measured-hot", "duty of “adjust-lash”", "measured-cold"),
        ("verify by: lash-gauge", "verify by: lash-guage", "There is no test “lash-guage”.", "lash-gauge"),
        ("kind of: misfire", "kind of: misfir", "There is no symptom “misfir”.", "misfire"),
        ("    how common: common\n", "", "neither “how common” nor “prior”", "Say"),
        ("how common: common", "how commen: common", "has no place for “how commen”", "how common"),
        (
            "    why: The coil no longer reaches the voltage that the gap asks for under load.\n",
            "",
            "has no “why”",
            "Add",
        ),
        ("name: valve burnt", "name: valve burnt\n    name: valve burned", "stands here twice", "Keep one"),
        ("renews, exhaust", "renewed, exhaust", "There is no effect “renewed”.", "renews"),
        ("P0301: cyl-1", "P031: cyl-1", "“P031” has not the form of a trouble code.", "P0301"),
        ("P0301: cyl-1", "P0301: cylinder one", "“cylinder one” is not a place.", "cyl-1"),
        ("each place: 8", "each place: soon", "“soon” is not a number.", "digits"),
        ("within months: 6", "within weeks: 6", "has no place for “within weeks”", "within months"),
        ("kind of: misfire\n", "kind of: misfire-only-hot\n", "is a kind of itself", "circle"),
        ("lead: [misfire]", "lead: []", "has no “lead”", "Add"),
        ("plausible: [0, 100]", "plausible: [100, 0]", "must be a low and a high value", "low"),
        ("unit: mm,", "unit: cm,", "“cm”", "mm"),
        ("certain: {chance: 0.99, from", "certain: {chance: 0.99, form", "has no place for “form”", "from"),
        ("on paper: {", "on papers: {", "has no “on paper”", "Add"),
    ],
)
def test_what_is_wrong_is_refused_with_its_line_and_a_mend(old, new, sentence, mend):
    broken = changed(old, new)
    rules, problems = read_rules(broken)
    assert rules is None
    hit = next(problem for problem in problems if sentence in problem.sentence)
    assert mend in hit.mend
    file, _, line = hit.where.rpartition(":")
    assert file in broken
    assert 1 <= int(line) <= len(broken[file].splitlines())


def test_the_line_named_is_the_line_that_was_changed():
    broken = changed("system: ignition", "system: ignitoin")
    _, problems = read_rules(broken)
    line = broken["families/misfire.yaml"].splitlines().index("    system: ignitoin") + 1
    assert f"families/misfire.yaml:{line}" in [problem.where for problem in problems]


def test_all_problems_are_told_at_once():
    broken = changed("system: ignition", "system: ignitoin")
    broken["teardown.yaml"] = broken["teardown.yaml"].replace("reach minutes: 10", "reach minutes: ten")
    _, problems = read_rules(broken)
    assert {problem.where.split(":")[0] for problem in problems} == {"families/misfire.yaml", "teardown.yaml"}


def test_the_same_id_in_two_families_is_refused():
    twice = texts() | {"families/other.yaml": texts()["families/misfire.yaml"]}
    _, problems = read_rules(twice)
    assert any("already defined at families/misfire.yaml" in problem.sentence for problem in problems)


def test_an_unquoted_comma_inside_braces_is_explained():
    _, problems = read_rules(changed('why: "A cold valve may still seat, if only just."', "why: It seats, if cold."))
    assert any("comma" in problem.mend for problem in problems)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "- a list",
        "just words",
        "a: [1, 2",
        "a: &x [*x]",
        "x: &a [1]\ny: *a",
        "a: \x00",
        "[" * 5000,
        "a:\n\tb: 1",
        "? [a]\n: b",
    ],
)
def test_texts_that_are_no_rule_file_are_refused_without_a_crash(text):
    rules, problems = read_rules(texts() | {"families/misfire.yaml": text})
    assert rules is None
    assert any(problem.where.startswith("families/misfire.yaml:") for problem in problems)


def test_a_missing_and_an_unknown_file_are_named():
    given_texts = {name: text for name, text in texts().items() if name != "shared.yaml"} | {"quantites.yaml": "a: b"}
    _, problems = read_rules(given_texts)
    said = " ".join(str(problem) for problem in problems)
    assert "shared.yaml is missing" in said
    assert "No rule file is called “quantites.yaml”. Did you mean “quantities”?" in said


def test_the_version_changes_with_any_text_and_with_nothing_else(rules):
    again, _ = read_rules(dict(reversed(list(texts().items()))))
    other, _ = read_rules(changed("runs rough", "runs rougher"))
    assert again is not None
    assert other is not None
    assert rules.version == again.version != other.version


@given(st.text(max_size=200))
def test_no_text_makes_the_reader_crash(text):
    rules, problems = read_rules(texts() | {"families/misfire.yaml": text})
    assert rules is None
    assert problems


def test_a_cause_the_test_shows_is_excepted_from_its_system():
    given_texts = changed("      ignition: The gauge sees", "      valve gear: Never.\n      ignition: The gauge sees")
    rules, problems = read_rules(given_texts)
    assert problems == ()
    assert rules is not None
    assert "exhaust-lash-too-tight" not in {cannot.cause for cannot in rules.tests["lash-gauge"].cannot_show}


OTHER_FAMILY = """\
name: hard start
scope: The engine starts late.
lead: [starts-late]
strikes: often
symptoms:
  starts-late: {name: starts late, at: engine, sense: felt}
causes:
  ignition-switch-worn:
    name: ignition switch worn
    system: ignition
    acts at: vehicle
    how common: rare
    why: Its contact opens while the engine is cranked.
    gives: {starts-late: usually}
    fixed by: {replace-coil: []}
"""


def test_a_system_is_spelled_out_within_the_family_of_the_test_only():
    given_texts = texts() | {"families/hard-start.yaml": OTHER_FAMILY}
    rules, problems = read_rules(given_texts)
    assert problems == ()
    assert rules is not None
    assert "ignition-switch-worn" not in {cannot.cause for cannot in rules.tests["leak-down"].cannot_show}


ALSO = """\
also causes:
  coil-weak:
    gives: {starts-late: sometimes}
also tests:
  leak-down:
    shows: {ignition-switch-worn: weak}
  lash-gauge:
    cannot show:
      ignition: A feeler gauge reads a gap and no current.
"""


def with_hard_start(also: str) -> dict[str, str]:
    return texts() | {"families/hard-start.yaml": OTHER_FAMILY + also}


def test_a_family_adds_links_to_causes_and_tests_at_home_elsewhere():
    rules, problems = read_rules(with_hard_start(ALSO))
    assert problems == ()
    assert rules is not None
    assert {g.symptom: g.how_often.word for g in rules.causes["coil-weak"].gives}["starts-late"] == "sometimes"
    assert rules.families["hard-start"].causes == ("ignition-switch-worn", "coil-weak")
    assert rules.tests["leak-down"].families == ("misfire", "hard-start")
    assert "ignition-switch-worn" in {shows.cause for shows in rules.tests["leak-down"].shows}
    reasons = {cannot.cause: cannot.reason for cannot in rules.tests["lash-gauge"].cannot_show}
    assert reasons["ignition-switch-worn"] == "A feeler gauge reads a gap and no current."
    assert reasons["coil-weak"] != reasons["ignition-switch-worn"]  # the misfire family's own sentence stays
    assert rules.where("tests", "leak-down", "shows", "ignition-switch-worn").startswith("families/hard-start.yaml:")


@pytest.mark.parametrize(
    ("also", "sentence"),
    [
        ("also causes:\n  coil-week:\n    gives: {starts-late: often}\n", "There is no “coil-week” to add to."),
        ("also causes:\n  coil-weak:\n    gives: {misfire: often}\n", "“misfire” stands already at"),
        ("also causes:\n  coil-weak:\n    why: Because.\n", "“why” cannot be added to a rule of another file."),
        ("also causes:\n  ignition-switch-worn:\n    gives: {misfire: rarely}\n", "is at home here anyway"),
        ("also causes:\n  coil-weak: often\n", "An addition must have keys of its own."),
        ("also tests:\n  leak-down:\n    shows: [coil-weak]\n", "has another form than the rule it adds to"),
    ],
)
def test_an_addition_that_fits_nothing_is_refused_on_its_own_line(also, sentence):
    problems = read_rules(with_hard_start(also))[1]
    assert any(sentence in p.sentence and p.where.startswith("families/hard-start.yaml:") for p in problems)


def test_an_operations_file_adds_to_operations_of_another():
    more = "also:\n  replace-coil:\n    touches: {ignition-switch-worn: opens}\n"
    rules, problems = read_rules(with_hard_start("") | {"operations/more.yaml": more})
    assert problems == ()
    assert rules is not None
    assert rules.operations["replace-coil"].touches["ignition-switch-worn"] == "opens"


def test_what_gives_a_kind_gives_the_general_symptom_too():
    rules, _ = read_rules(changed("gives: {misfire: often, misfire-only-hot: ", "gives: {misfire-only-hot: "))
    assert rules is not None
    given = {g.symptom: g.how_often.word for g in rules.causes["exhaust-lash-too-tight"].gives}
    assert given == {"misfire-only-hot": "usually", "misfire": "usually"}


def test_a_cover_takes_longer_on_the_build_that_says_so():
    given_texts = texts()
    given_texts["teardown.yaml"] += (
        "head-off: {name: head off, reach minutes: 30, restore minutes: 35, "
        "on: {V crosswise: {reach minutes: 80, restore minutes: 90}}}\n"
    )
    rules, problems = read_rules(given_texts)
    assert problems == ()
    assert rules is not None
    two, one = ((1, 3, 5), (2, 4, 6)), ((1, 2, 3, 4),)
    plugs = rules.covers["head-off"]
    assert plugs.minutes_on(Layout(two, traits={"engine lies": "crosswise"})) == (80.0, 90.0)
    assert plugs.minutes_on(Layout(one, traits={"engine lies": "crosswise"})) == (30.0, 35.0)
    assert plugs.minutes_on(Layout(two)) == (30.0, 35.0)
    wrong = given_texts | {"teardown.yaml": given_texts["teardown.yaml"].replace("V crosswise", "V upright")}
    assert any("no build “V upright”" in problem.sentence for problem in read_rules(wrong)[1])


def test_kinds_of_defect_come_out_with_what_they_bring():
    rules, problems = read_rules(texts())
    assert problems == ()
    kind = rules.defects["lash-screw-loose"]
    assert (kind.brings, kind.how.word, kind.cautions) == (
        "exhaust-lash-too-tight",
        "rarely",
        ("Do not run the engine with a loose screw.",),
    )
    assert rules.defects["bolt-left-out"].brings is None


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("brings: exhaust-lash-too-tight\n  how", "brings: exhaust-lash-to-tight\n  how", "There is no cause"),
        ("  how: rarely\n  cautions", "  how: now and then\n  cautions", "“now and then”"),
        ("  how: rarely\n  cautions", "  cautions", "has no “how”"),
        ("  brings: exhaust-lash-too-tight\n  how", "  how", "“how” belongs to “brings”."),
        ("means: The joint can work loose.", "meant: The joint can work loose.", "has no “means”"),
    ],
)
def test_a_wrong_kind_of_defect_is_refused_with_its_line(old, new, sentence):
    found = [p for p in read_rules(changed(old, new))[1] if sentence in p.sentence]
    assert found
    assert all(p.where.startswith("findings.yaml:") for p in found)


def test_a_test_is_not_done_on_a_vehicle_it_does_not_fit():
    rules, problems = read_rules(
        changed("    at: cylinder\n    measures", "    at: cylinder\n    fits: {fuel: [petrol]}\n    measures")
    )
    assert problems == ()
    assert rules is not None
    leak_down = rules.tests["leak-down"]
    one = ((1, 2, 3, 4),)
    assert leak_down.can_be_done_at(Layout(one, traits={"fuel": "diesel"})) == ()
    assert len(leak_down.can_be_done_at(Layout(one))) == 4

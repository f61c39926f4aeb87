"""The rules browser and the shop's own changes: shown as ours, checked, overtaken, taken back, exported."""

from __future__ import annotations

import pytest
import yaml

from app.settings import Settings
from app.web.rule_book import RuleBook

TEST = "/rules/tests/leak-down"
CAUSE = "/rules/causes/exhaust-lash-too-tight"
SYMPTOM = "/rules/symptoms/rough-running"


@pytest.fixture
def own(ida, tmp_path):
    """Ida's browser on an app whose own rules lie in an empty folder."""
    first = ida.app.state.rule_book
    ida.app.state.rule_book = RuleBook(Settings().rules_dir, tmp_path / "rules", read=first.supplied)
    yield ida
    ida.app.state.rule_book = first


def version(page) -> str:
    return page.root.all("input", name="seen")[0].attributes["value"]


def speaks(own, **fields: str) -> dict[str, str]:
    return {"what": "speaks", "seen": version(own.get(TEST)), **fields}


def test_rules_are_looked_up_by_name_code_and_customers_words(ida):
    for typed, found in [
        ("leak down", "Cylinder leak-down"),
        ("lash tight", "Exhaust valve lash too tight"),
        ("P0300", "Random misfire over several cylinders"),
        ("keeps going flat", "Battery flat or too weak to start"),
        ("exaust lash", "Exhaust valve lash too tight"),
    ]:
        page = ida.get(f"/rules?q={typed}", part=True)
        assert found in page.text, typed
    assert "Nothing is called that" in ida.get("/rules?q=zzzzqqq", part=True).text


def test_a_family_leads_to_its_causes_tests_and_symptoms(ida):
    page = ida.get("/rules/families/misfire-rough-running")
    assert page.heading == "Misfire and rough running"
    assert CAUSE in [link.attributes["href"] for link in page.root.all("a")]
    assert TEST in [link.attributes["href"] for link in page.root.all("a")]


def test_a_cause_says_what_it_gives_what_raises_it_and_what_cannot_show_it(ida):
    page = ida.get(CAUSE)
    headings = [one.text for one in page.root.all("h2")]
    for title in ("Gives", "Raised by earlier work", "Shown by", "Tests that cannot show it", "Destroys", "Fixed by"):
        assert any(heading.startswith(title) for heading in headings), title
    assert "At top dead centre" in page.text


@pytest.mark.parametrize("address", ["/rules/causes/unknown", "/rules/nothing/leak-down", "/rules/families/none"])
def test_what_is_not_there_is_a_404(ida, address):
    assert ida.get(address).status == 404


def test_a_changed_strength_is_used_shown_as_ours_and_taken_back(own):
    sent = speaks(own, cause="valve-burnt-or-not-sealing", says="weak")
    page = own.post(f"{TEST}/change", sent, part=True)
    assert page.status == 200
    assert "Changed: cylinder leak-down: shows" in page.text
    book = own.app.state.rule_book
    shown = {s.cause: s.strength.word for s in book.rules.tests["leak-down"].shows}
    assert shown["valve-burnt-or-not-sealing"] == "weak"
    line = next(li for li in own.get(TEST).root.all("li") if "supplied: " in li.text)
    assert "Ours; supplied: " in line.text
    listed = own.get("/rules")
    assert "Cylinder leak-down" in listed.text
    assert "Ida Lorne" in listed.text
    back = {"seen": version(own.get(TEST)), "path": "shows/valve-burnt-or-not-sealing"}
    assert own.post(f"{TEST}/take-back", back).status == 303
    assert own.app.state.rule_book.rules.version == book.supplied.version
    assert "Ours; supplied" not in own.get(TEST).text
    assert "taken back" in own.get("/rules").text


def test_a_test_can_be_said_to_be_blind_to_what_it_showed(own):
    reason = "The valve is held shut by the spring alone."
    page = own.post(
        f"{TEST}/change", speaks(own, cause="valve-burnt-or-not-sealing", says="cannot show", reason=reason), part=True
    )
    assert page.status == 200
    test = own.app.state.rule_book.rules.tests["leak-down"]
    assert "valve-burnt-or-not-sealing" not in {s.cause for s in test.shows}
    assert {c.cause: c.reason for c in test.cannot_show}["valve-burnt-or-not-sealing"] == reason


def test_a_blind_situation_is_added(own):
    sent = speaks(
        own,
        cause="valve-burnt-or-not-sealing",
        says="blind",
        situation="not-under-load",
        share="rarely",
        reason="Without load the valve still seats.",
    )
    assert own.post(f"{TEST}/change", sent, part=True).status == 200
    test = own.app.state.rule_book.rules.tests["leak-down"]
    assert ("not-under-load", "valve-burnt-or-not-sealing") in {(b.situation, b.cause) for b in test.blind_when}


def test_customers_words_are_added_and_found(own):
    sent = {"what": "words", "seen": version(own.get(SYMPTOM)), "words": "wobbles like a jelly"}
    assert own.post(f"{SYMPTOM}/change", sent, part=True).status == 200
    assert "wobbles like a jelly" in own.get("/rules?q=jelly wobbles", part=True).text
    again = own.post(f"{SYMPTOM}/change", sent | {"seen": version(own.get(SYMPTOM))}, part=True)
    assert again.status == 422
    assert "on the list already" in again.problem_at("How a customer says it")


@pytest.mark.parametrize(
    ("fields", "label", "sentence"),
    [
        ({"cause": "nothing", "says": "weak"}, "Cause", "No cause is chosen"),
        ({"cause": "valve-burnt-or-not-sealing", "says": "maybe"}, "The test", "not chosen"),
        ({"cause": "valve-burnt-or-not-sealing", "says": "cannot show"}, "Why", "The reason is missing"),
        ({"cause": "valve-burnt-or-not-sealing", "says": "cannot show", "reason": "x" * 300}, "Why", "characters long"),
        ({"cause": "valve-burnt-or-not-sealing", "says": "blind", "reason": "So."}, "Situation", "No situation"),
    ],
)
def test_a_wrong_change_gets_its_sentence_and_writes_nothing(own, fields, label, sentence):
    page = own.post(f"{TEST}/change", speaks(own, **fields), part=True)
    assert page.status == 422
    assert sentence in page.problem_at(label)
    assert own.app.state.rule_book.own() == {}


def test_a_change_that_contradicts_another_rule_is_refused_with_the_checkers_sentence(own):
    """A torn boot gives nothing but grease on the rim; without that it would have a share of no complaint."""
    boot = "/rules/causes/cv-boot-torn"
    sent = {"what": "gives", "seen": version(own.get(boot)), "symptom": "grease-on-rim-inside", "how": "removed"}
    page = own.post(f"{boot}/change", sent, part=True)
    assert page.status == 422
    assert "does not give the lead complaint" in page.text
    assert own.app.state.rule_book.own() == {}


def test_a_change_made_on_an_older_state_is_refused_and_what_was_typed_is_kept(own):
    old = speaks(own, cause="valve-burnt-or-not-sealing", says="fair")
    assert own.post(f"{TEST}/change", old | {"says": "weak"}, part=True).status == 200
    page = own.post(f"{TEST}/change", old, part=True)
    assert page.status == 422
    assert "changed since this page was opened" in page.text
    assert "Ida Lorne" in page.text
    chosen = [one.attributes["value"] for one in page.root.all("option") if "selected" in one.attributes]
    assert "fair" in chosen


def test_nobody_changes_rules_without_a_name(stranger):
    assert stranger.post(f"{TEST}/change", {"what": "alarm", "alarm": "often"}).status == 403


NEW_CAUSE = {
    "name": "spark plug gap beaten shut",
    "family": "misfire-rough-running",
    "level": "cylinder",
    "system": "ignition",
    "common": "rare",
    "why": "A dropped plug fires across a closed gap.",
    "symptom": "misfire-counted",
    "how": "usually",
    "shown_by": "plug-inspection",
    "strength": "certain",
    "operation": "renew-spark-plugs",
    "parts": "spark plug",
}


def test_a_cause_of_our_own_is_added_and_ranked(own):
    seen = version(own.get("/rules/new/causes"))
    page = own.post("/rules/new/causes", NEW_CAUSE | {"seen": seen})
    assert page.headers.get("location") == "/rules/causes/spark-plug-gap-beaten-shut", page.text
    shown = own.get("/rules/causes/spark-plug-gap-beaten-shut")
    assert shown.heading == "Spark plug gap beaten shut"
    assert "Ours; the supplied rule says nothing here" in shown.text
    twice = own.post("/rules/new/causes", NEW_CAUSE | {"seen": version(own.get("/rules/new/causes"))})
    assert "there already" in twice.problem_at("Name")
    exported = list(yaml.safe_load_all(own.get("/rules/own.yaml").response.text))
    assert any("spark-plug-gap-beaten-shut" in (one.get("causes") or {}) for one in exported)


def test_a_test_of_our_own_is_added(own):
    sent = {
        "name": "plug heard with a tube",
        "family": "misfire-rough-running",
        "level": "cylinder",
        "measures": "sound of the spark",
        "way": "Listen at each plug with a tube.",
        "good_when": "Even ticking.",
        "source": "Common practice.",
        "set_up": "5",
        "each": "1",
        "cause": "coil-failing",
        "strength": "fair",
        "alarm": "often",
        "alarm_why": "noise of the injectors",
        "caution": "Keep clear of rotating parts and high voltage.",
        "seen": version(own.get("/rules/new/tests")),
    }
    wrong = own.post("/rules/new/tests", sent | {"each": "soon", "measures": ""})
    assert wrong.status == 422
    assert "no number of minutes" in wrong.problem_at("Minutes at each place")
    assert wrong.field("Name").attributes["value"] == "plug heard with a tube"
    assert own.post("/rules/new/tests", sent).headers.get("location") == "/rules/tests/plug-heard-with-a-tube"
    assert "Keep clear" in own.get("/rules/tests/plug-heard-with-a-tube/sheet").text


def test_the_sheet_says_how_what_it_shows_and_what_it_cannot(ida):
    page = ida.get(f"{TEST}/sheet")
    assert "It can show" in page.text
    assert "It cannot show" in page.text
    assert "Caution" in page.text

"""The audit page: one touch per duty, refused with what was typed kept; defects and photos; visits outside the case."""

from __future__ import annotations

from datetime import date

import pytest

from app.evidence.case import DutyState, Job, Source
from app.history.values import PROGRAM, At, EntryKind, Stay
from tests.cases import V6
from tests.web.story import NOW

PNG = b"\x89PNG\r\n\x1a\n" + b"picture"


@pytest.fixture
def base(story) -> str:
    return f"/cases/{story.case}"


@pytest.fixture
def touch(ida, story, base):
    def send(state: str = "verified", part: bool = True, files=None, **change):
        duty = {"job": story.job, "duty": "connector-latched", "state": state, "source": "seen here", **change}
        more = {"files": files} if files else {}
        return ida.post(f"{base}/earlier-work", duty, part=part, **more)

    return send


@pytest.fixture
def duty(app) -> str:
    """A duty of the coil job, as the rules name it."""
    return app.state.rule_book.rules.operations["renew-coil"].duties[0].id


def duties(history, story):
    return [done for visit in history.case(story.case).visits for job in visit.jobs for done in job.duties]


def test_every_job_opens_its_duties_as_not_known(ida, base, app):
    page = ida.get(f"{base}/earlier-work")
    assert page.status == 200
    wanted = app.state.rule_book.rules.operations["renew-coil"].duties
    assert all(one.text[0].upper() + one.text[1:] in page.text for one in wanted)
    assert f"0 of {len(wanted)} proven, 0 found wrong, {len(wanted)} not known" in page.text
    assert f"1 job on file with {len(wanted)} duties to verify." in page.text


def test_board_and_vehicle_lead_to_the_audit(ida, base, story):
    assert ida.get(base).links()["Earlier work"] == f"{base}/earlier-work"
    links = ida.get(f"/vehicles/{story.vehicle}").links()
    assert f"{base}/earlier-work" in links.values()


def test_somebody_who_has_not_said_who_is_working_can_look(stranger, base):
    assert stranger.get(f"{base}/earlier-work").status == 200


@pytest.mark.parametrize("state", ["verified", "found wrong", "not applicable"])
def test_one_touch_sets_the_state_and_names_who_and_when(touch, history, story, duty, state):
    page = touch(state, duty=duty, note="Looked with a lamp.")
    assert page.status == 200
    [done] = duties(history, story)
    assert (done.state, done.source, done.note) == (DutyState(state), Source.SEEN_HERE, "Looked with a lamp.")
    assert "Ida Lorne" in page.id(f"duty-{story.job}-{duty}").text


def test_without_script_the_touch_leads_back_to_its_duty(touch, base, story, duty):
    page = touch(part=False, duty=duty)
    assert (page.status, page.headers["location"]) == (303, f"{base}/earlier-work#duty-{story.job}-{duty}")


def test_the_counts_follow_at_once(touch, duty):
    page = touch("found wrong", duty=duty)
    assert ", 1 found wrong," in page.text


def test_sent_twice_it_is_recorded_once(touch, history, story, duty, fresh_id):
    assert touch(duty=duty, entry_id=fresh_id).status == 200
    assert touch(duty=duty, entry_id=fresh_id).status == 200
    assert len(duties(history, story)) == 1


def test_a_touch_can_be_taken_back(touch, history, story, duty):
    touch(duty=duty)
    seen = duties(history, story)[0].entry
    page = touch("not checked", duty=duty, seen=seen)
    assert page.status == 200
    assert ", 0 found wrong," in page.text
    assert [done.state.value for done in duties(history, story)] == ["verified", "not checked"]


WRONG = [
    ({"state": ""}, "not said how it was found"),
    ({"state": "splendid"}, "not said how it was found"),
    ({"source": ""}, "not said how this is known"),
    ({"note": "x" * 5000}, "characters long"),
    ({"note": "a\x00b"}, "cannot be shown"),
]


@pytest.mark.parametrize(("change", "sentence"), WRONG)
def test_what_is_wrong_gets_its_sentence_and_nothing_is_lost(touch, history, story, duty, change, sentence):
    page = touch(**{"duty": duty, "note": "kept as typed", **change})
    assert page.status == 422
    assert sentence in page.id(f"duty-{story.job}-{duty}").text
    typed = [one.attributes.get("value") for one in page.root.all("input", name="note")]
    assert change.get("note", "kept as typed") in typed
    assert duties(history, story) == []


def test_somebody_else_s_word_meanwhile_is_shown_beside_yours(touch, history, story, duty):
    touch("found wrong", duty=duty)
    page = touch("verified", duty=duty, note="mine")
    assert page.status == 409
    block = page.id(f"duty-{story.job}-{duty}")
    assert "Somebody else has just said of this: found wrong" in block.text
    assert "mine" in [one.attributes.get("value") for one in block.all("input", name="note")]
    again = {one.attributes["name"]: one.attributes["value"] for one in block.all("input", type="hidden")}
    assert touch("verified", duty=duty, note="mine", seen=again["seen"]).status == 200


def test_a_duty_of_a_struck_out_job_is_refused_with_the_note_kept(touch, history, story, duty):
    with history.write(PROGRAM, NOW) as desk:
        desk.void(EntryKind.JOB, story.job, seen=1, why="other vehicle")
    page = touch(duty=duty, note="Boot was swollen.")
    assert page.status == 422
    assert "struck out by" in page.text
    assert "other vehicle" in page.text
    assert "Boot was swollen." in page.text


def test_a_duty_that_the_rules_no_longer_have_is_refused(touch):
    page = touch(duty="sing-a-song", note="la")
    assert page.status == 422
    assert "not in the rules any more" in page.text
    assert "Your note: la" in page.text


def test_a_job_of_no_vehicle_is_not_here(touch):
    assert touch(job="0000").status == 404


def test_a_photo_is_kept_by_its_content_and_shown(touch, ida, history, story, duty, app):
    page = touch(duty=duty, files={"photo": ("boot.exe", PNG)})
    assert page.status == 200
    name = duties(history, story)[0].photo
    assert name.endswith(".png")
    assert [one.attributes["src"] for one in page.root.all("img")] == [f"/photos/{name}"]
    sent = ida.get(f"/photos/{name}")
    assert (sent.response.content, sent.headers["content-type"]) == (PNG, "image/png")
    assert sent.headers["x-content-type-options"] == "nosniff"
    assert ida.get("/photos/..%2Fproofbay.db").status == 404
    assert ida.get(f"/photos/{'0' * 64}.png").status == 404


def test_what_is_no_picture_is_refused_at_its_field(touch, history, story, duty):
    page = touch(duty=duty, note="kept", files={"photo": ("note.jpg", b"<script>alert(1)</script>")})
    assert page.status == 422
    assert "not a picture" in page.id(f"duty-{story.job}-{duty}").text
    assert duties(history, story) == []


def test_a_picture_too_large_is_refused(touch, duty):
    assert "At most 10 MB" in touch(duty=duty, files={"photo": ("big.png", PNG + b"0" * 10_000_001)}).text
    assert touch(duty=duty, files={"photo": ("huge.png", PNG + b"0" * 12_000_001)}).status == 413


def test_a_picture_is_not_lost_when_something_else_is_wrong(touch, history, story, duty):
    page = touch("", duty=duty, files={"photo": ("boot.png", PNG)})
    assert page.status == 422
    block = page.id(f"duty-{story.job}-{duty}")
    assert "picture you sent is kept" in block.text
    picture = block.one("input", name="picture").attributes["value"]
    assert touch(duty=duty, picture=picture).status == 200
    assert duties(history, story)[0].photo == picture


@pytest.fixture
def outside(history, story) -> tuple[str, str]:
    """A visit elsewhere with a job that nobody joined to the case."""
    with history.write(PROGRAM, NOW) as desk:
        stay = Stay(False, "Harbour Garage", day=date(2025, 11, 3))
        visit = desk.add_visit(story.vehicle, stay, today=NOW.date())
        job = desk.record_job(At(visit), Job("adjust-valve-lash", ("engine",), Source.PAPER))
    return visit, job


def test_a_job_of_a_visit_outside_the_case_is_audited_and_can_be_counted_in(ida, history, base, story, outside):
    visit, job = outside
    page = ida.get(f"{base}/earlier-work")
    assert "not part of the case" in page.id(f"job-{job}").text
    joined = ida.post(f"{base}/earlier-work/join", {"visit": visit}, part=True)
    assert "not part of the case" not in joined.id(f"job-{job}").text
    assert visit in history.case_on_file(story.case).visits
    assert ida.post(f"{base}/earlier-work/join", {"visit": "elsewhere"}).status == 404


def test_jobs_stand_newest_first(ida, base, story, outside):
    page = ida.get(f"{base}/earlier-work")
    order = [
        one.attributes["id"] for one in page.root.all("section") if one.attributes.get("id", "").startswith("job-")
    ]
    assert order == [f"job-{story.job}", f"job-{outside[1]}"]


DEFECT = {"kind": "oil-in-plug-well", "place": "cyl-3", "words": "Well full of oil", "source": "seen here"}


@pytest.fixture
def defect(ida, base):
    def send(part: bool = True, files=None, **change):
        more = {"files": files} if files else {}
        return ida.post(f"{base}/defect", {**DEFECT, **change}, part=part, **more)

    return send


def defects(history, story):
    return [one for visit in history.case(story.case).visits for one in visit.defects]


def test_a_defect_is_recorded_linked_to_its_job_and_the_board_follows(defect, ida, history, story, base):
    page = defect(job=story.job, note="Boot swollen.", files={"photo": ("well.png", PNG)})
    assert page.status == 200
    [found] = defects(history, story)
    assert (found.kind, found.place, found.words) == ("oil-in-plug-well", "cyl-3", "Well full of oil")
    assert (found.after.visit, found.after.operation) == (1, "renew-coil")
    assert any("What changed" in heading for heading in page.headings())
    assert "Plug well seal of the valve cover leaks" in page.text
    audit = ida.get(f"{base}/earlier-work")
    assert "Oil standing in a plug well" in audit.text or "oil standing in a plug well" in audit.text
    assert [one.attributes["src"] for one in audit.root.all("img")] == [f"/photos/{found.photo}"]


def test_a_defect_can_be_struck_out_like_any_entry(defect, ida, history, story):
    defect()
    [found] = defects(history, story)
    page = ida.post(
        f"/vehicles/{story.vehicle}/entries/defect/{found.entry}/void", {"why": "other engine", "version": "1"}
    )
    assert page.status == 303
    assert defects(history, story) == []


def test_a_defect_whose_job_was_struck_out_stays_without_it(defect, history, story):
    defect(job=story.job)
    with history.write(PROGRAM, NOW) as desk:
        desk.void(EntryKind.JOB, story.job, seen=1, why="other vehicle")
    [found] = defects(history, story)
    assert found.after is None


@pytest.mark.parametrize(
    ("change", "label", "sentence"),
    [
        ({"place": ""}, "Where?", "place is missing"),
        ({"place": "cyl-9"}, "Where?", "cannot be there"),
        ({"place": "vehicle"}, "Where?", "cannot be there"),
        ({"job": "nobody"}, "Likely left behind by which job?", "no longer on file"),
        ({"words": "x" * 5000}, "What was seen?", "characters long"),
        ({"visit": "nowhere"}, "Visit", "not part of the case"),
    ],
)
def test_a_defect_that_says_too_little_is_refused_with_what_was_typed(defect, history, story, change, label, sentence):
    page = defect(**{"note": "kept", **change})
    assert page.status == 422
    assert sentence in page.problem_at(label)
    assert page.field("Note").attributes["value"] == "kept"
    assert defects(history, story) == []


def test_a_kind_of_no_rule_leads_to_the_list(defect):
    page = defect(kind="gremlin")
    assert page.status == 422
    assert "fastener left out" in page.text


def test_kinds_this_vehicle_cannot_have_are_not_offered(ida, base, app):
    offered = ida.get(f"{base}?record=defect").text
    assert "wire trapped under a cover" in offered
    rules = app.state.rule_book.rules
    nowhere = [k.name for k in rules.defects.values() if k.brings and not rules.causes[k.brings].can_act_at(V6)]
    assert not any(name in offered for name in nowhere)

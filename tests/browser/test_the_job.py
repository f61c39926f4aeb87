"""The main job in a browser: from the search to a recorded result, and what people see on the way."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect


def open_board(page: Page, vehicle: str = "white van") -> None:
    page.goto("/")
    page.get_by_role("link", name=re.compile(vehicle)).first.click()
    expect(page.get_by_role("heading", name="What to do next")).to_be_visible()


def record_leak_down(page: Page, place: str, outcome: str) -> None:
    page.get_by_role("link", name="Result of a test").click()
    page.get_by_text("All others").click()
    page.get_by_role("link", name="cylinder leak-down").click()
    page.get_by_role("radio", name=place).check()
    page.get_by_role("button", name=outcome, exact=True).click()


def mark_this_load(page: Page) -> None:
    """A mark that a page load would wipe out."""
    page.evaluate("window.notLoadedAnew = true")


def was_not_loaded_anew(page: Page) -> bool:
    return page.evaluate("window.notLoadedAnew === true")


def test_from_the_search_to_a_recorded_result(page: Page):
    page.goto("/")
    page.get_by_label("Plate, VIN, customer or repair order").press_sequentially("pb50", delay=40)
    expect(page.get_by_text("1 vehicle found.")).to_be_visible()
    page.get_by_role("link", name=re.compile("PB 5031.*found by plate")).click()
    expect(page.get_by_role("heading", name="PB 5031, white van")).to_be_visible()
    page.get_by_role("region", name="Open cases").get_by_role("link").click()
    first_step = page.locator(".step").first
    test = first_step.get_by_role("heading").inner_text().split(". ", 1)[1].split(",")[0]
    mark_this_load(page)
    first_step.get_by_role("link", name=re.compile("Record the result")).click()
    form = page.locator("#entry")
    expect(form.get_by_role("heading", level=3, name=re.compile(re.escape(test)))).to_be_visible()
    outcomes = form.locator(".outcomes button:visible")
    if form.get_by_role("group", name="Where?").count():
        form.get_by_role("group", name="Where?").get_by_role("radio").first.check()
    outcomes.filter(has_not_text=re.compile("Judge|all")).nth(1).click()
    expect(form.get_by_text("Recorded:")).to_be_visible()
    expect(page.get_by_role("heading", name="What changed with the last entry")).to_be_visible()
    assert was_not_loaded_anew(page)
    assert "Recorded:" in page.locator("#live").inner_text()


def test_a_result_lands_among_the_entries_and_can_be_struck_out_again(page: Page):
    open_board(page)
    record_leak_down(page, "cylinder 2", "within limits")
    expect(page.locator("#entry .saved")).to_contain_text(
        "cylinder leak-down, cylinder 2: within limits".capitalize()[1:]
    )
    entry = page.locator("#board .timeline-entry").filter(has_text="leak-down, cylinder 2: within limits").last
    entry.get_by_role("link", name=re.compile("Strike out")).click()
    page.get_by_label("Why is it wrong?").fill("wrong cylinder")
    page.get_by_role("button", name="Strike out").click()
    struck = page.locator(".timeline-entry").filter(has_text="wrong cylinder")
    expect(struck.locator("s")).to_contain_text("leak-down, cylinder 2")
    expect(struck).to_contain_text("Struck out by Ida Lorne")


def test_all_others_clean_is_one_touch(page: Page):
    open_board(page, "blue van")
    page.get_by_role("link", name="Result of a test").click()
    page.get_by_text("All others").click()
    page.get_by_role("link", name="cylinder leak-down").click()
    page.get_by_role("radio", name="cylinder 1").check()
    page.get_by_role("button", name=re.compile("leaks; all others")).click()
    expect(page.locator("#entry .saved")).to_contain_text("The other")


def test_a_wrong_reading_gets_its_sentence_at_the_field_and_the_focus(page: Page, provoked):
    provoked.append("422")
    open_board(page)
    page.get_by_role("link", name="Result of a test").click()
    page.get_by_text("All others").click()
    page.get_by_role("link", name="cylinder leak-down").click()
    page.get_by_role("radio", name="cylinder 1").check()
    page.get_by_label("Reading: leak-down loss").fill("340")
    page.get_by_label("Note").fill("kept as typed")
    page.get_by_role("button", name="within limits", exact=True).click()
    reading = page.get_by_label("Reading: leak-down loss")
    expect(reading).to_have_attribute("aria-invalid", "true")
    expect(page.get_by_text("not believable for leak-down loss")).to_be_visible()
    expect(reading).to_be_focused()
    expect(page.get_by_label("Note")).to_have_value("kept as typed")


def test_without_a_network_nothing_typed_is_lost(page: Page, context, provoked):
    provoked.append("offline")
    open_board(page)
    page.get_by_role("link", name="Trouble code", exact=True).click()
    page.get_by_label("Code", exact=True).fill("P0302")
    page.get_by_role("radio", name="confirmed").check()
    context.set_offline(True)
    page.get_by_role("button", name="Record the code").click()
    expect(page.get_by_role("alert")).to_contain_text("No connection")
    expect(page.get_by_label("Code", exact=True)).to_have_value("P0302")
    context.set_offline(False)
    page.get_by_role("button", name="Record the code").click()
    expect(page.locator("#entry .saved")).to_contain_text("P0302 confirmed")
    expect(page.locator("#notice")).to_be_empty()


def test_two_fast_touches_record_once(page: Page):
    open_board(page)
    page.get_by_role("link", name="Trouble code", exact=True).click()
    page.get_by_label("Code", exact=True).fill("P0304")
    page.get_by_role("radio", name="pending").check()
    page.get_by_role("button", name="Record the code").dblclick()
    expect(page.locator("#entry .saved")).to_contain_text("P0304")
    page.reload()
    expect(page.locator("#board .timeline-entry").filter(has_text="P0304 pending")).to_have_count(1)


def test_what_was_unfolded_stays_unfolded_when_the_board_is_renewed(page: Page):
    open_board(page)
    page.get_by_text("Less likely causes").click()
    expect(page.locator("#less-likely")).to_have_attribute("open", "")
    record_leak_down(page, "cylinder 3", "within limits")
    expect(page.locator("#entry .saved")).to_be_visible()
    expect(page.locator("#less-likely")).to_have_attribute("open", "")


def test_the_back_button_shows_whole_pages(page: Page):
    page.goto("/")
    page.get_by_label("Plate, VIN, customer or repair order").press_sequentially("PB", delay=40)
    expect(page.get_by_text("vehicles found.")).to_be_visible()
    page.get_by_role("link", name=re.compile("PB 5031.*found by plate")).click()
    expect(page.get_by_role("heading", name="PB 5031, white van")).to_be_visible()
    page.go_back()
    expect(page.get_by_role("heading", name="Find a vehicle")).to_be_visible()
    expect(page.get_by_role("link", name="Closed cases")).to_be_visible()


def test_a_case_is_opened_from_the_customers_words(page: Page):
    page.goto("/")
    page.get_by_label("Plate, VIN, customer or repair order").fill("PB 1204")
    page.get_by_role("link", name=re.compile("PB 1204.*found by")).click()
    page.get_by_role("link", name="Open a case").click()
    page.get_by_label("The complaint in the customer’s words").fill("")
    page.get_by_label("The complaint in the customer’s words").press_sequentially(
        "steering wheel shakes when braking", delay=10
    )
    suggestion = page.locator(".suggestion").filter(has_text="judder").first
    suggestion.get_by_role("radio").check()
    if suggestion.get_by_label("Where?").count():
        suggestion.get_by_label("Where?").select_option(index=1)
    page.get_by_role("group", name="Was it reproduced here?").get_by_role("radio", name="not tried yet").check()
    page.get_by_role("group", name=re.compile("brakes pull")).get_by_role("radio", name="yes").check()
    page.get_by_role("button", name="Open the case").click()
    expect(page.get_by_role("heading", name="Still possible")).to_be_visible()
    expect(page.get_by_role("heading", name="May it be driven?")).to_be_visible()
    expect(page.get_by_text("until the brakes have been checked")).to_be_visible()


def test_a_visit_filled_in_wrong_comes_back_with_its_sentences_and_all_that_was_typed(page: Page, provoked):
    provoked.append("422")
    page.goto("/?q=PB 1204")
    page.get_by_role("link", name=re.compile("PB 1204.*found by")).click()
    page.get_by_role("link", name="New visit").click()
    page.get_by_label("Odometer").fill("12")
    page.get_by_label("Complaint, in the customer’s words").fill("kept as typed")
    page.get_by_role("button", name="Add the visit").click()
    expect(page.get_by_text("It is not said where it was.")).to_be_visible()
    expect(page.get_by_label("Complaint, in the customer’s words")).to_have_value("kept as typed")
    page.get_by_role("radio", name="our workshop").check()
    page.get_by_label("Odometer").fill("")
    page.get_by_role("button", name="Add the visit").click()
    expect(page.get_by_text("kept as typed")).to_be_visible()
    expect(page).to_have_url(re.compile("/vehicles/[^/]+$"))


def test_a_job_with_its_part_is_recorded_and_changes_the_board(page: Page):
    open_board(page, "blue van")
    page.get_by_role("link", name="Job and parts").click()
    page.get_by_role("link", name="renew ignition coil", exact=True).click()
    page.get_by_role("group", name="Where?").get_by_role("checkbox").first.check()
    page.get_by_label("Part 1").fill("ignition coil")
    page.get_by_label("Date code").first.fill("2647")
    page.get_by_role("button", name="Record the job").click()
    expect(page.locator("#entry .saved")).to_contain_text("date code 2647")
    expect(page.get_by_role("heading", name="What changed with the last entry")).to_be_visible()


@pytest.mark.parametrize("size", [(1024, 768), (820, 1180), (1440, 900)], ids=["tablet", "tablet upright", "desk"])
def test_only_the_matrix_scrolls_sideways_and_its_heads_stay_in_sight(page: Page, size):
    page.set_viewport_size({"width": size[0], "height": size[1]})
    open_board(page)
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    box = page.get_by_role("region", name="Table of tests and causes, scrolls")
    box.scroll_into_view_if_needed()
    box.evaluate("one => one.scrollTo(200, 200)")
    corner = box.locator(".matrix-corner").bounding_box()
    inside = box.bounding_box()
    assert abs(corner["x"] - inside["x"]) < 3
    assert abs(corner["y"] - inside["y"]) < 3


def test_what_is_touched_is_at_least_44_pixels_high(page: Page):
    """44 by 44 CSS pixels: WCAG 2.2, success criterion 2.5.5 (enhanced); links inside sentences are excepted there."""
    open_board(page)
    for address in (
        page.url,
        f"{page.url}?record=result&test=leak-down",
        f"{page.url}?record=job&operation=renew-coil",
    ):
        page.goto(address)
        small = page.evaluate(
            """() => ["a", "button", "input:not([type=hidden])", "select", "summary"]
            .flatMap(kind => [...document.querySelectorAll("main " + kind)])
            .filter(one => !one.closest("table") && !one.classList.contains("unseen"))
            .filter(one => one.tagName !== "A" || getComputedStyle(one).display !== "inline")
            .map(one => one.closest("label.tile") ?? one)
            .filter(one => { const box = one.getBoundingClientRect(); return box.height > 0 && box.height < 44; })
            .map(one => one.textContent.trim())"""
        )
        assert small == []


def test_the_half_page_prints_without_what_is_for_the_screen(page: Page):
    open_board(page)
    page.get_by_role("link", name="Where we stand").click()
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 718, "height": 1015})
    expect(page.get_by_role("link", name="Find a vehicle")).to_be_hidden()
    expect(page.get_by_role("button", name="Print")).to_be_hidden()
    assert page.locator(".standing").bounding_box()["height"] < 1015 / 2

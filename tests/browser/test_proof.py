"""Proof of repair in a browser: from the repair through runs and a scan to the return that opens the case again."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser.test_the_job import mark_this_load, open_board, was_not_loaded_anew


def mend_the_coil(page: Page) -> None:
    page.get_by_role("link", name="Job and parts").click()
    page.get_by_role("link", name="renew ignition coil", exact=True).click()
    page.get_by_role("group", name="Where?").get_by_role("checkbox").first.check()
    page.get_by_role("button", name="Record the job").click()
    expect(page.locator("#entry .saved")).to_be_visible()


def test_a_repair_is_proven_by_runs_and_disproved_by_a_return(page: Page, provoked):
    provoked.append("422")
    open_board(page, "blue van")
    mend_the_coil(page)
    page.get_by_role("link", name="Proof of repair").click()
    expect(page.get_by_role("heading", name="Proof of repair")).to_be_visible()
    page.get_by_label("What was mended?").select_option(index=1)
    page.get_by_role("button", name="Put it under proof").click()
    expect(page.get_by_text("The case is under proof since")).to_be_visible()
    mark_this_load(page)
    run = page.locator("#proof_run")
    run.get_by_label("Distance driven").fill("-60")
    run.get_by_label("Route").fill("over the hill")
    run.get_by_role("radio", name="as the customer usually drives").check()
    run.get_by_role("button", name="it stayed away").click()
    expect(run.get_by_text("is less than nothing")).to_be_visible()
    expect(run.get_by_label("Distance driven")).to_be_focused()
    expect(run.get_by_label("Route")).to_have_value("over the hill")
    run.get_by_label("Distance driven").fill("60")
    run.get_by_role("button", name="it stayed away").click()
    expect(run.locator(".saved")).to_contain_text("60 km; driven as usual; over the hill: it stayed away")
    expect(page.locator("#proof")).to_contain_text("silent for 60 km")
    scan = page.locator("#proof_scan")
    scan.get_by_role("group", name="Misfire", exact=True).get_by_role("radio", name="not complete").check()
    scan.get_by_role("button", name="Record the scan").click()
    expect(page.locator("#proof")).to_contain_text("has not run since codes were cleared")
    run.get_by_label("Distance driven").fill("12")
    run.get_by_role("button", name="it came back").click()
    expect(page.locator("#proof").get_by_role("heading", name="It came back")).to_be_visible()
    expect(page.locator("#proof")).to_contain_text(
        re.compile("It came back while the case was under proof.*proved wrong")
    )
    expect(page.locator("#proof_start")).to_contain_text("It can go under proof after the next one.")
    assert was_not_loaded_anew(page)


def test_the_note_for_the_driver_prints_on_one_page(page: Page):
    open_board(page, "blue van")
    page.goto(f"{page.url.split('?')[0]}/drivers-note")
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 718, "height": 1015})
    expect(page.get_by_role("heading", name="Please drive it and tell us")).to_be_visible()
    expect(page.get_by_role("button", name="Print")).to_be_hidden()
    assert page.locator(".standing").bounding_box()["height"] < 1015


def test_what_is_touched_on_the_proof_page_is_at_least_44_pixels_high_and_nothing_scrolls_sideways(page: Page):
    """44 by 44 CSS pixels: WCAG 2.2, success criterion 2.5.5 (enhanced)."""
    open_board(page, "blue van")
    page.goto(f"{page.url.split('?')[0]}/proof")
    small = page.evaluate(
        """() => ["a", "button", "input:not([type=hidden])", "select", "summary"]
        .flatMap(kind => [...document.querySelectorAll("main " + kind)])
        .filter(one => !one.classList.contains("unseen"))
        .map(one => one.closest("label.tile") ?? one)
        .filter(one => { const box = one.getBoundingClientRect(); return box.height > 0 && box.height < 44; })
        .map(one => one.textContent.trim())"""
    )
    assert small == []
    for width in (820, 1024, 1440):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")

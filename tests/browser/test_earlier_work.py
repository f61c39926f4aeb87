"""The whole path: audit a job, find a defect with its photo, put everything back, close with nothing left open."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

PNG = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c4890000000d49444154789c6360606060000000050001"
    "a5f645400000000049454e44ae426082"
)


def open_case(page: Page, vehicle: str) -> None:
    page.goto("/")
    page.get_by_role("link", name=re.compile(vehicle)).first.click()
    expect(page.get_by_role("heading", name="What to do next")).to_be_visible()


def test_from_the_audit_to_everything_put_back(page: Page):
    open_case(page, "yellow pickup")
    page.get_by_role("link", name="Earlier work", exact=True).click()
    expect(page.get_by_role("heading", name="How far the earlier work can be relied on")).to_be_visible()
    duty = page.locator(".duty").first
    page.evaluate("window.notLoadedAnew = true")
    duty.get_by_text("Note, photo").click()
    duty.get_by_label("Note").fill("looked at with a lamp")
    duty.get_by_label("Photo").set_input_files({"name": "lamp.png", "mimeType": "image/png", "buffer": PNG})
    duty.get_by_role("button", name=re.compile("^Verified")).click()
    expect(page.locator(".saved")).to_contain_text("Recorded: Verified.")
    expect(duty.locator(".status")).to_contain_text("proven")
    expect(duty).to_contain_text("looked at with a lamp")
    expect(duty).to_contain_text("Ida Lorne")
    picture = duty.get_by_role("img", name=re.compile("Photo:"))
    expect(picture).to_be_visible()
    assert picture.evaluate("one => one.naturalWidth") == 1
    duty.get_by_text("Note, photo").click()
    expect(duty.get_by_label("Note")).to_have_value("")
    assert page.evaluate("window.notLoadedAnew === true")


def test_a_defect_is_found_and_the_board_follows(page: Page):
    open_case(page, "brown van")
    page.get_by_role("link", name="Earlier work", exact=True).click()
    page.get_by_role("link", name=re.compile("Record a defect it left")).first.click()
    page.get_by_role("link", name="wheel nuts found unevenly tight").click()
    page.get_by_label("What was seen?").fill("two nuts at 60, the others at 140")
    page.get_by_label("Where?").select_option("front-left-wheel")
    expect(page.get_by_label("Likely left behind by which job?")).not_to_have_value("")
    page.get_by_label("Photo").set_input_files({"name": "nut.png", "mimeType": "image/png", "buffer": PNG})
    page.get_by_role("button", name="Record the defect").click()
    expect(page.locator("#entry .saved")).to_contain_text("two nuts at 60")
    expect(page.get_by_role("heading", name="What changed with the last entry")).to_be_visible()
    expect(page.locator("section", has=page.locator("#confirmed-head"))).to_contain_text(re.compile("wheel nuts", re.I))
    page.get_by_role("link", name="Earlier work", exact=True).click()
    defects = page.locator("section", has=page.locator("#defects-head"))
    expect(defects).to_contain_text("two nuts at 60")
    expect(defects.get_by_role("img")).to_be_visible()


def test_what_is_open_is_put_back_before_the_case_is_closed(page: Page, provoked):
    provoked.append("422")
    open_case(page, "blue van")
    page.get_by_role("link", name="Off or open now").click()
    page.get_by_role("checkbox", name="spark plugs out").check()
    page.get_by_role("button", name="Record what is open").click()
    expect(page.locator("#entry .saved")).to_be_visible()
    page.get_by_role("link", name="Close the case").click()
    page.get_by_label("What was it?").select_option("nothing")
    page.get_by_label("Note").fill("kept as typed")
    page.get_by_role("button", name="Close the case").click()
    expect(page.get_by_text("still open. Say why")).to_be_visible()
    expect(page.get_by_label("Note")).to_have_value("kept as typed")
    page.get_by_role("link", name="Tick what is done").click()
    while page.get_by_role("button", name=re.compile(r"^(Put back|Done)\b")).count():
        before = page.get_by_role("button", name=re.compile(r"^(Put back|Done)\b")).count()
        page.get_by_role("button", name=re.compile(r"^(Put back|Done)\b")).first.click()
        expect(page.get_by_role("button", name=re.compile(r"^(Put back|Done)\b"))).to_have_count(before - 1)
    expect(page.get_by_text("Everything is put back and ticked.")).to_be_visible()
    expect(page.get_by_text(re.compile("Put back by Ida Lorne"))).to_be_visible()
    page.get_by_role("link", name="Close the case").click()
    expect(page.get_by_text("Still open on this visit")).to_have_count(0)

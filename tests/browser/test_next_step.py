"""The next step by expected cost in a browser: loaded with the board, following what is off, and the shop's prices."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser.test_the_job import open_board


def the_figure(page: Page) -> int:
    said = page.locator("#advice").get_by_text(re.compile("Expected cost from here")).inner_text()
    return int(re.search(r"here: ([\d,]+) ", said).group(1).replace(",", ""))


def test_the_advice_follows_what_is_off_and_what_the_shop_says(page: Page):
    open_board(page, "white van")
    advice = page.locator("#advice")
    expect(advice.locator(".advice-head")).to_contain_text(re.compile("Do this next|Repair now|Nothing in these rules"))
    shut = the_figure(page)
    advice.get_by_text("Steps and their costs").click()
    expect(advice.get_by_text("on average at most this")).to_be_visible()
    advice.get_by_role("link", name="Say what is off").click()
    for name in ("timing cover off", "valve cover off"):
        page.locator("#entry").get_by_text(name, exact=True).click()
    page.locator("#entry").get_by_role("button", name=re.compile("Record")).last.click()
    expect(page.locator("#entry .saved")).to_contain_text("Recorded what is off or open")
    expect(advice.get_by_role("heading", name="While it is open")).to_be_visible()
    assert the_figure(page) < shut
    as_manager(page)
    set_rate(page, "180")
    page.go_back()
    open_board(page, "white van")
    expect(page.locator("#advice").get_by_text("180 EUR an hour")).to_be_visible()


def as_manager(page: Page) -> None:
    page.goto("/who")
    page.get_by_role("button", name="Rufus Amberly").click()


def set_rate(page: Page, rate: str) -> None:
    page.get_by_role("link", name="Settings").click()
    page.get_by_label("What is it?").select_option("labour rate")
    page.get_by_role("textbox", name="Figure").fill(rate)
    page.get_by_role("button", name="Set", exact=True).click()
    expect(page.locator(".saved")).to_contain_text("Set: labour rate")
    expect(page.get_by_role("button", name="Take back Labour rate")).to_be_visible()

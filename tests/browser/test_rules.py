"""The rules browser in a browser: looked up in a customer's words, changed for the shop, and taken back."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from tests.browser.test_next_step import as_manager

RULES_READ_ANEW = 30_000
"""Milliseconds: a change reads and checks all rules again, some seconds, more while other tests run."""


def test_a_rule_is_looked_up_changed_and_taken_back(page: Page):
    as_manager(page)
    page.get_by_role("link", name="Rules", exact=True).click()
    page.get_by_label("Look up a cause, test, operation, symptom or code").fill("shakes at the lights when warm")
    expect(page.get_by_text("“shakes at the lights when warm”")).to_be_visible()
    page.goto("/rules?q=ignition+coil+breaks+down")
    page.get_by_role("link", name="Ignition coil breaks down").first.click()
    expect(page.get_by_role("heading", name="Shown by")).to_be_visible()
    page.get_by_text("How common it is", exact=True).click()
    change = page.locator("details", has_text="How common it is")
    change.get_by_role("combobox").first.select_option("rare")
    change.get_by_role("button").click()
    ours = page.locator(".panel-changed")
    expect(ours).to_contain_text("how common", timeout=RULES_READ_ANEW)
    page.get_by_role("link", name="Rules", exact=True).click()
    expect(page.get_by_role("link", name="Our rules as YAML")).to_be_visible()
    expect(page.locator("main")).to_contain_text("Ignition coil breaks down")
    page.goto("/rules/causes/coil-failing")
    ours.get_by_role("button", name="Take back").click()
    expect(ours).to_have_count(0, timeout=RULES_READ_ANEW)

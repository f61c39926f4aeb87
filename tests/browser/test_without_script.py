"""Everything works without JavaScript too."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect


@pytest.fixture(scope="session")
def browser_context_args(browser_context_args):
    return {**browser_context_args, "java_script_enabled": False}


def test_search_and_record_without_script(page: Page):
    page.goto("/")
    page.get_by_label("Plate, VIN, customer or repair order").fill("PB 8410")
    page.get_by_role("button", name="Find", exact=True).click()
    page.get_by_role("link", name=re.compile("PB 8410.*found by plate")).click()
    page.get_by_role("region", name="Open cases").get_by_role("link").click()
    page.get_by_role("link", name="Trouble code", exact=True).click()
    page.get_by_label("Code", exact=True).fill("C0035")
    page.get_by_role("radio", name="confirmed").check()
    page.get_by_role("button", name="Record the code").click()
    expect(page.locator("#board .timeline-entry").filter(has_text="C0035 confirmed")).to_have_count(1)


def test_a_refused_form_comes_back_whole_with_what_was_typed(page: Page, provoked):
    provoked.append("422")
    page.goto("/vehicles/new")
    page.get_by_label("What people call it").fill("old pickup")
    page.get_by_role("button", name="Add the vehicle").click()
    expect(page.get_by_text("The cylinders are missing.")).to_be_visible()
    expect(page.get_by_label("What people call it")).to_have_value("old pickup")
    expect(page.get_by_role("link", name="Closed cases")).to_be_visible()


def test_symptoms_are_suggested_by_a_button(page: Page):
    page.goto("/?q=PB+1204")
    page.get_by_role("link", name=re.compile("PB 1204.*found by")).click()
    page.get_by_role("link", name="Open a case").click()
    page.get_by_label("The complaint in the customer’s words").fill("battery dead in the morning")
    page.get_by_role("button", name="Suggest symptoms").click()
    expect(page.get_by_role("radio", name=re.compile("battery flat")).first).to_be_visible()


def test_a_duty_is_touched_without_script(page: Page):
    page.goto("/?q=PB+5031")
    page.get_by_role("link", name=re.compile("PB 5031.*found by")).click()
    page.get_by_role("link", name=re.compile("Earlier work: what is proven")).click()
    duty = page.locator(".duty").first
    duty.get_by_role("button", name=re.compile("^Found wrong")).click()
    expect(page.locator(".duty").first.locator(".status")).to_contain_text("found wrong")
    expect(page.locator(".duty").first).to_contain_text("Ida Lorne")

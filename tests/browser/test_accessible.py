"""axe-core finds nothing on any page, light and dark."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

PLAIN = ["/", "/?q=PB", "/who", "/vehicles/new", "/closed", "/settings", "/components", "/nothing-here"]
RULES = [
    "/rules",
    "/rules?q=leak-down",
    "/rules/families/brake-judder",
    "/rules/causes/coil-failing",
    "/rules/tests/leak-down",
    "/rules/tests/leak-down/sheet",
    "/rules/operations/renew-coil",
    "/rules/symptoms/rough-running",
    "/rules/new/causes",
    "/rules/new/tests",
]
OF_A_CASE = [
    "",
    "/advice",
    "?record=result",
    "?record=result&test=leak-down&place=cyl-2",
    "?record=symptom",
    "?record=symptom&symptom=rough-running",
    "?record=code",
    "?record=cleared",
    "?record=job",
    "?record=job&operation=renew-coil",
    "?record=duty",
    "?record=defect",
    "?record=defect&kind=wire-trapped",
    "?record=covers",
    "?record=first",
    "/tests/leak-down",
    "/where-we-stand",
    "/proof",
    "/drivers-note",
    "/earlier-work",
    "/putting-back",
    "/close",
    "/snapshots",
]
OF_A_VEHICLE = ["", "/visits/new", "/cases/new"]


def first_link(page: Page, start: str, pattern: str) -> str:
    page.goto(start)
    address = page.locator(f"main a[href^='{pattern}']").first.get_attribute("href")
    assert address
    return address


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_violation_on_any_page(page: Page, provoked, scheme):
    provoked.append("404")
    page.emulate_media(color_scheme=scheme)
    case = first_link(page, "/", "/cases/")
    vehicle = first_link(page, "/?q=PB", "/vehicles/0")
    void = first_link(page, vehicle, f"{vehicle}/entries")
    addresses = [*PLAIN, *RULES, *(case + end for end in OF_A_CASE), *(vehicle + end for end in OF_A_VEHICLE), void]
    found = {address: violations(page, address) for address in addresses}
    assert {address: some for address, some in found.items() if some} == {}


def violations(page: Page, address: str) -> list[str]:
    """Of the entry forms only the form is looked at: the board beside it has been looked at already."""
    page.goto(address)
    results = Axe().run(page, context="#entry" if "?record=" in address else None)
    return [f"{one['id']}: {one['nodes'][0]['html'][:120]}" for one in results.response["violations"]]


def test_axe_would_find_something(page: Page):
    page.goto("/components")
    page.evaluate("document.querySelector('main').insertAdjacentHTML('beforeend', '<input type=text>')")
    found = [one["id"] for one in Axe().run(page).response["violations"]]
    assert re.search("label", " ".join(found))

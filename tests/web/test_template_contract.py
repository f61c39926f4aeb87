"""Templates ask only for what their view has, and every field of a view is shown somewhere."""

from __future__ import annotations

import dataclasses
import hashlib
import re

import pytest

from app.settings import PROJECT
from app.web.errors import ErrorPage
from app.web.routes.rule_new import NewRulePage
from app.web.routes.rules import SheetPage
from app.web.routes.void import VoidPage
from app.web.showing import make_environment
from app.web.views.advice_view import AdvicePage
from app.web.views.case_page import CasePage
from app.web.views.closing_page import ClosedPage, ClosePage, SnapshotsPage
from app.web.views.components_page import ComponentsPage
from app.web.views.drivers_note import DriversNote
from app.web.views.earlier_work_page import EarlierWorkPage
from app.web.views.find_view import FindPage
from app.web.views.matrix import MatrixPage
from app.web.views.proof_page import ProofPage
from app.web.views.putting_back_page import PuttingBackPage
from app.web.views.rule_page import RulePage
from app.web.views.rules_page import FamilyPage, RulesPage
from app.web.views.settings_page import SettingsPage
from app.web.views.standing import StandingPage
from app.web.views.test_page import TestPage as OneTestPage
from app.web.views.vehicle_page import NewCasePage, NewVehiclePage, NewVisitPage, VehiclePage
from app.web.views.who_page import WhoPage
from tests.web.template_types import Walker, reachable

TEMPLATES = PROJECT / "templates"
PAGES = {
    "advice": AdvicePage,
    "board": CasePage,
    "close": ClosePage,
    "closed": ClosedPage,
    "components": ComponentsPage,
    "drivers_note": DriversNote,
    "earlier_work": EarlierWorkPage,
    "error": ErrorPage,
    "find": FindPage,
    "matrix": MatrixPage,
    "new_case": NewCasePage,
    "new_rule": NewRulePage,
    "new_vehicle": NewVehiclePage,
    "new_visit": NewVisitPage,
    "proof": ProofPage,
    "putting_back": PuttingBackPage,
    "rule": RulePage,
    "rules": RulesPage,
    "rules_family": FamilyPage,
    "settings": SettingsPage,
    "snapshots": SnapshotsPage,
    "test": OneTestPage,
    "test_sheet": SheetPage,
    "vehicle": VehiclePage,
    "void": VoidPage,
    "where_we_stand": StandingPage,
    "who": WhoPage,
}


@pytest.fixture(scope="module")
def walked() -> dict[str, Walker]:
    walkers = {}
    for name, view in PAGES.items():
        walkers[name] = Walker(make_environment())
        walkers[name].page(f"pages/{name}.html", view)
    return walkers


def test_every_page_has_its_view():
    assert {path.stem for path in (TEMPLATES / "pages").glob("*.html")} == set(PAGES)


@pytest.mark.parametrize("name", PAGES)
def test_a_template_asks_only_for_fields_its_view_has(walked, name):
    assert walked[name].wrong == []


def test_every_field_of_every_view_is_shown_somewhere(walked):
    asked = {pair for walker in walked.values() for pair in walker.asked}
    views = {one for view in PAGES.values() for one in reachable(view)}
    unshown = sorted(
        f"{view.__name__}.{field.name}"
        for view in views
        for field in dataclasses.fields(view)
        if (view, field.name) not in asked
    )
    assert unshown == []


def test_the_walker_sees_a_field_that_is_not_there():
    walker = Walker(make_environment())
    walker.page("pages/who.html", FindPage)
    assert any("FindPage has no people" in wrong for wrong in walker.wrong)


def test_every_part_has_one_root_named_after_it():
    for path in (TEMPLATES / "parts").glob("*.html"):
        assert len(re.findall(rf'id="{path.stem}"', path.read_text())) == 1, path.name


def test_no_word_of_htmx_2_stands_in_a_template_or_script():
    """What people know by heart from htmx 2 is silently ignored, or worse, by htmx 4 (its own upgrade guide)."""
    old = re.compile(
        r"hx-disabled-elt|hx-ext|hx-swap-oob|hx-on|js:|htmx:[a-z]+[A-Z]|hx-vars|hx-params|hx-prompt|hx-inherit"
    )
    for path in [*TEMPLATES.rglob("*.html"), PROJECT / "static" / "proofbay.js"]:
        assert not old.findall(path.read_text()), path.name


def test_every_element_that_names_a_target_sends_something_itself():
    """In htmx 4 nothing is inherited: a target on an element that sends nothing does nothing."""
    for path in TEMPLATES.rglob("*.html"):
        for tag in re.findall(r"<\w+[^>]*\bhx-target=[^>]*>", path.read_text()):
            assert re.search(r"\bhx-(get|post)=", tag), f"{path.name}: {tag[:80]}"
            assert "hx-swap=" in tag, f"{path.name}: {tag[:80]}"


def test_no_field_is_named_like_something_a_form_element_does():
    """A field called "before" hides form.before(), and htmx can then put nothing beside the form."""
    hidden = {"action", "after", "append", "before", "children", "closest", "elements", "id", "insertBefore", "matches",
              "method", "parentElement", "parentNode", "prepend", "querySelector", "remove", "replaceWith", "reset",
              "submit", "target"}  # fmt: skip
    forms = [path.read_text() for path in (PROJECT / "app" / "web" / "forms").glob("*.py")]
    names = {name for text in forms for name in re.findall(r'^    (\w+): str = ""', text, flags=re.MULTILINE)}
    assert len(names) > 40
    assert not names & hidden


def test_nothing_is_styled_or_scripted_inside_a_page():
    for path in TEMPLATES.rglob("*.html"):
        text = path.read_text()
        assert not re.search(r'\sstyle="|<style|\son\w+="|<script(?![^>]*\bsrc=)', text), path.name
        assert "|safe" not in text.replace(" ", ""), path.name


def test_htmx_is_as_published():
    """SHA-256 of dist/htmx.min.js of the npm package htmx.org 4.0.1."""
    vendored = PROJECT / "static" / "vendor" / "htmx-4.0.1.min.js"
    digest = hashlib.sha256(vendored.read_bytes()).hexdigest()
    assert digest == "a0abb04f2f45a1f89d1d4844023245537e5e6014c87b144553e0607b4cc32130"

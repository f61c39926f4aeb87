"""What cannot be answered as asked, and what every answer carries."""

from __future__ import annotations

import base64
import hashlib
import logging
import re

import pytest

ADDRESSES = ["/", "/who", "/closed", "/components", "/vehicles/new"]


@pytest.mark.parametrize(
    "address",
    ["/nothing-here", "/cases/none", "/vehicles/none", "/cases/none/where-we-stand", "/cases/none/board.json"],
)
def test_what_is_not_there_is_a_page_that_says_so(ida, address):
    page = ida.get(address)
    assert (page.status, page.heading) == (404, "Not here")
    assert page.links()["Find a vehicle"] == "/"


@pytest.mark.parametrize("part", [False, True])
@pytest.mark.parametrize("address", ADDRESSES)
def test_every_answer_is_kept_out_of_caches_and_framed_by_the_policy(ida, address, part):
    page = ida.get(address, part=part)
    assert page.headers["cache-control"] == "no-store"
    assert "HX-Request-Type" in page.headers["vary"]
    assert "Accept" in page.headers["vary"]
    policy = page.headers["content-security-policy"]
    assert policy.startswith("default-src 'self'")
    assert "unsafe-inline" not in policy
    assert "unsafe-eval" not in policy
    assert re.findall("'sha256-([^']+)'", policy) == [base64.b64encode(hashlib.sha256(b"").digest()).decode()]
    assert page.headers["x-content-type-options"] == "nosniff"


def test_static_files_may_be_kept_because_their_address_follows_their_content(ida):
    page = ida.get("/")
    sheet = next(link.attributes["href"] for link in page.root.all("link", rel="stylesheet"))
    assert "?v=" in sheet
    assert "immutable" in ida.get(sheet).headers["cache-control"]


def test_a_field_of_over_a_megabyte_is_refused_with_a_page(ida):
    page = ida.post("/vehicles/new", {"plate": "x" * 1_200_000})
    assert page.status == 400
    assert page.heading == "Not taken"


def test_ten_megabytes_are_refused_before_they_are_read(ida, history):
    page = ida.post("/vehicles/new", {"name": "x" * 10_000_000, "plate": "BIG 1", "engine": "1 2 3 4"})
    assert (page.status, page.heading) == (413, "Too long")
    assert not history.find("BIG 1")


def test_a_file_in_a_text_field_is_refused_with_a_page(ida):
    page = ida.post("/vehicles/new", files={"plate": ("x.txt", b"BAY 1")})
    assert (page.status, page.heading) == (422, "Refused")


def test_a_wrong_method_is_a_page_too(ida):
    assert (ida.post("/closed").status, ida.post("/closed").heading) == (405, "Not taken")


@pytest.mark.parametrize(
    "headers", [{"origin": "http://elsewhere.example"}, {"sec-fetch-site": "cross-site"}, {"origin": "null"}]
)
def test_a_post_from_another_site_is_not_taken(ida, history, headers):
    page = ida.post("/vehicles/new", {"plate": "NEW 2", "engine": "1 2 3 4"}, headers=headers)
    assert page.status == 403
    assert not history.find("NEW 2")


def test_a_post_from_our_own_page_is_taken(ida):
    page = ida.post("/vehicles/new", {"plate": "NEW 3", "engine": "1 2 3 4"}, headers={"origin": "http://bay"})
    assert page.status == 303


def test_for_htmx_an_error_goes_into_the_notice_and_leaves_the_form_alone(ida):
    page = ida.get("/cases/none", part=True)
    assert page.headers["hx-retarget"] == "#notice"
    assert page.id("error")
    assert not page.root.all("html")


def test_what_breaks_has_a_number_that_is_also_in_the_log(ida, history, story, caplog):
    with history.engine.begin() as connection:
        connection.exec_driver_sql("alter table snapshots rename to lost")
    with caplog.at_level(logging.ERROR, "proofbay.web"):
        page = ida.get(f"/cases/{story.case}/snapshots")
    number = page.root.one("strong").text
    assert page.status == 500
    assert number in caplog.text
    assert "Traceback" not in page.text


def test_no_room_on_the_disk_is_said_and_the_form_kept_by_htmx(ida, history):
    """A real full database: SQLite's own page limit (pragma max_page_count)."""
    raw = history.engine.raw_connection()
    pages = raw.driver_connection.execute("pragma page_count").fetchone()[0]
    raw.driver_connection.execute(f"pragma max_page_count={pages}")
    raw.close()
    statuses = {
        ida.post(
            "/vehicles/new", {"plate": f"F {n}", "name": "x" * 80, "customer": "y" * 80, "engine": "1 2 3 4"}
        ).status
        for n in range(40)
    }
    assert 507 in statuses
    assert statuses <= {303, 507}


@pytest.mark.parametrize("id", ["..%2f..%2fetc", "a b", "%3Cscript%3E", "x" * 100])
def test_a_bad_id_in_the_address_is_a_page(ida, id):
    assert ida.get(f"/cases/{id}").status in (404, 422)
    assert ida.get(f"/cases/{id}").heading in ("Not here", "Refused")

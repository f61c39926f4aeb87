"""The next step by expected cost: as a page, as a part of the board, and after saying what is open."""

from __future__ import annotations


def test_the_board_loads_its_next_step_from_an_address_of_its_own(ida, story):
    board = ida.get(f"/cases/{story.case}")
    [link] = [a for a in board.root.all("a") if a.attributes.get("href", "").endswith("/advice")]
    part = ida.get(link.attributes["href"], part=True)
    assert part.status == 200
    assert part.id("advice").text
    assert not part.root.all("html")


def test_the_page_says_what_to_do_why_and_what_the_figure_means(ida, story):
    page = ida.get(f"/cases/{story.case}/advice")
    text = page.id("advice").text
    assert any(
        begin in text for begin in ("Do this next:", "Repair now:", "Nothing in these rules separates the rest.")
    )
    assert "Expected cost from here:" in text
    assert "on average at most this" in text
    assert "A single case can cost more." in text
    assert "tells in 10 min" in text


def test_without_anything_open_it_asks_and_with_something_open_it_lists_what_lies_behind(ida, story):
    before = ida.get(f"/cases/{story.case}/advice").text
    assert "Nothing is said to be off or open." in before
    version = ida.get(f"/cases/{story.case}?record=covers").hidden("version")
    ida.post(f"/cases/{story.case}/covers", {"cover_plugs-out": "yes", "version": version})
    after = ida.get(f"/cases/{story.case}/advice").id("advice").text
    assert "While it is open" in after
    assert "min more" in after


def test_an_unknown_case_is_not_here(ida):
    assert ida.get("/cases/nothing/advice").status == 404

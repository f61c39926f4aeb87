"""A report on the console, as JSON and as a page."""

from __future__ import annotations

import json
from xml.etree import ElementTree

from app.bench.machine import ONE_THREAD, described
from app.bench.page import untimed, write
from app.bench.plot import drawn
from app.bench.report import Goal, Plot, Report, Table, Taken, short
from app.bench.run import NAMES, bench, here
from tests.bench.small import SMALL

PLOT = Plot("time & size", "size", "ms", {"whole <board>": [(60, 5.0), (1000, 400.0)], "memory": [(60, 0.4)]})
TABLE = Table("Times <here>", ("network", "time", "differences"), (("small", Taken(12.345), 0),), "One run.")
REPORT = Report("speed", (TABLE,), (PLOT,), (Goal("time (ms)", Taken(12.3), most=10.0),), ("a peer is not there",))


def test_the_console_shows_tables_goals_and_what_is_missing():
    said = "\n".join(REPORT.lines())
    assert "small    12.3 ms" in said
    assert "Missing: a peer is not there" in said
    assert "time (ms): 12.3 ms (goal at most 10): NOT MET." in said


def test_only_a_binding_goal_that_is_missed_fails():
    assert not REPORT.failed
    assert Report("x", (), goals=(Goal("differences", 1, most=0, binding=True),)).failed
    assert not Report("x", (), goals=(Goal("gain", Taken(30.0, "x"), least=20.0, binding=True),)).failed


def test_json_keeps_numbers_and_the_page_holds_everything(tmp_path):
    data, page = write(tmp_path / "new", [REPORT], described(), seed=7)
    found = json.loads(data.read_text("utf-8"))
    assert found["seed"] == 7
    assert found["benches"][0]["tables"][0]["rows"] == [["small", {"value": 12.345, "unit": "ms"}, 0]]
    assert found["benches"][0]["goals"][0]["met"] is False
    assert {"processor", "cores", "Python", "NumPy", "threads"} <= found["machine"].keys()
    text = page.read_text("utf-8")
    assert "Times &lt;here&gt;" in text
    assert "<script" not in text
    assert "http" not in text.replace("http-equiv", "")


def test_a_plot_is_well_formed_and_names_its_lines():
    root = ElementTree.fromstring(drawn(PLOT))
    words = {node.text for node in root.iter("text")}
    assert {"time & size", "whole <board>", "memory", "size", "ms"} <= words
    assert root.get("aria-label") == "time & size"
    assert len(list(root.iter("polyline"))) == 2


def test_what_depends_on_the_moment_is_left_out_when_runs_are_compared():
    assert untimed(REPORT) == [[["small", None, 0]]]


def test_numbers_have_three_digits():
    said = [short(value) for value in (0.0, 1.23456, 12345.6, 1e-15, 99.96, 0.25)]
    assert said == ["0", "1.23", "12346", "1.0e-15", "100", "0.25"]


def test_every_name_is_a_bench_that_runs_and_writes(tmp_path, monkeypatch):
    assert all(callable(bench(name)) for name in NAMES)
    from dataclasses import replace

    said: list[str] = []
    assert here(["advice"], replace(SMALL, out=str(tmp_path)), said.append) == 0
    assert "== advice ==" in "\n".join(said)
    assert (tmp_path / "bench.html").exists()


def test_whether_one_thread_was_asked_for_is_said(monkeypatch):
    for name in ONE_THREAD:
        monkeypatch.setenv(name, "1")
    assert described()["threads"].startswith("one ")
    monkeypatch.setenv("OPENBLAS_NUM_THREADS", "2")
    assert described()["threads"] == "not pinned"

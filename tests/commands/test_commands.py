"""The console commands, as a person meets them."""

from __future__ import annotations

import json
import socket
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

from app.commands.main import app
from app.settings import PROJECT
from tests.evidence.example_case import EXAMPLE
from tests.rules.texts import changed, texts


def run(*words: str):
    return CliRunner().invoke(app, [str(word) for word in words])


def write(texts_by_name: dict[str, str], folder: Path) -> Path:
    for name, text in texts_by_name.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def test_rules_check_says_that_the_shipped_rules_are_in_order():
    done = run("rules", "check")
    assert (done.exit_code, done.stderr) == (0, "")
    assert "The rules are in order" in done.stdout


def test_rules_check_names_file_and_line_and_exits_with_2(tmp_path, monkeypatch):
    folder = write(changed("shows: {valve-burnt: strong}", "shows: {valve-brunt: strong}"), tmp_path)
    monkeypatch.setenv("PROOFBAY_RULES_DIR", str(folder))
    done = run("rules", "check")
    assert done.exit_code == 2
    assert "families/misfire.yaml:" in done.stderr
    assert "Did you mean “valve-burnt”?" in done.stderr
    assert done.stdout == ""


def test_rules_list_lists_every_kind_as_lines_and_as_json(tmp_path, monkeypatch):
    monkeypatch.setenv("PROOFBAY_RULES_DIR", str(write(texts(), tmp_path)))
    for kind, id in (
        ("causes", "coil-weak"),
        ("symptoms", "misfire"),
        ("tests", "leak-down"),
        ("operations", "adjust-lash"),
    ):
        assert id in run("rules", "list", kind).stdout
        assert id in [line["id"] for line in json.loads(run("rules", "list", kind, "--json").stdout)]


def test_rank_prints_a_board_and_the_same_as_json(tmp_path, monkeypatch):
    monkeypatch.setenv("PROOFBAY_RULES_DIR", str(write(texts(), tmp_path / "rules")))
    file = tmp_path / "case.yaml"
    file.write_text(EXAMPLE, "utf-8")
    done, as_json = run("rank", file), run("rank", file, "--json")
    assert (done.exit_code, as_json.exit_code) == (0, 0)
    board = json.loads(as_json.stdout)
    assert "exhaust valve lash too tight" in done.stdout
    assert "At top dead centre any lash left lets the valve rest closed." in done.stdout
    assert "Not explained by anything listed" in done.stdout
    assert {row["cause"] for row in board["hypotheses"]} >= {"coil-weak", "exhaust-lash-too-tight", "valve-burnt"}
    assert 0.0 <= board["not_in_rules"] <= 1.0


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "The file is empty."),
        (b"vehicle: {}", "has no"),
        (b"\xff\xfe", "is not text in UTF-8"),
        (b"a: [1, 2", "This is not readable YAML"),
        (b"[" * 3000, "case.yaml:1"),
    ],
)
def test_rank_refuses_a_wrong_file_with_sentences_and_exit_code_2(tmp_path, content, says):
    file = tmp_path / "case.yaml"
    file.write_bytes(content)
    done = run("rank", file)
    assert done.exit_code == 2
    assert says in done.stderr
    assert "Traceback" not in done.stderr


def test_rank_says_what_it_cannot_read(tmp_path):
    assert "cannot be read" in run("rank", tmp_path / "nowhere.yaml").stderr
    assert run("rank", tmp_path).exit_code == 2


def test_serve_says_so_when_the_port_is_taken_and_touches_nothing(tmp_path, monkeypatch):
    monkeypatch.setenv("PROOFBAY_DATA_DIR", str(tmp_path / "data"))
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        done = run("serve", "--port", str(taken.getsockname()[1]))
    assert done.exit_code == 2
    assert "Nothing can listen at" in done.stderr
    assert not (tmp_path / "data").exists()


def test_a_setting_without_meaning_is_named(monkeypatch):
    monkeypatch.setenv("PROOFBAY_PORT", "abc")
    done = run("serve")
    assert done.exit_code == 2
    assert done.stderr.startswith("PROOFBAY_PORT: ")


def test_the_installed_command_ends_without_a_traceback(tmp_path):
    done = subprocess.run(
        [sys.executable, "-c", "from app.commands.main import app; app()", "rank", str(tmp_path / "none.yaml")],
        capture_output=True,
        text=True,
        cwd=PROJECT,
        check=False,
    )
    assert done.returncode == 2
    assert "Traceback" not in done.stderr


def test_rank_as_json_says_the_next_step_by_expected_cost():
    case = PROJECT / "seed_data" / "demo" / "yellow-pickup.yaml"
    advice = json.loads(run("rank", case, "--json").stdout)["advice"]
    assert advice["kind"] in {"test", "repair", "nothing separates", "search on", "gone", "nothing"}
    assert advice["expected_cost"] <= advice["plain_order_cost"]
    assert "Next step by expected cost" in run("rank", case).stdout


def test_bench_advice_says_how_far_from_the_optimum_it_is(tmp_path):
    sizes = ("--problems", 3, "--faults", 3, "--tests", 3, "--processes", 1, "--out", tmp_path)
    done = run("bench", "advice", *sizes)
    assert done.exit_code == 0
    assert "Several faults, 3 problems: cost above the cheapest policy there is" in done.stdout
    assert "several faults: advice dearer than the figure it showed: 0 (goal at most 0): met." in done.stdout
    assert "one (OMP_NUM_THREADS and its like set to 1 before NumPy is loaded)" in done.stdout
    assert {path.name for path in tmp_path.iterdir()} == {"bench.json", "bench.html"}


def test_simulate_says_what_the_advice_saves():
    done = run("simulate", "--cost", "--cases", 1, "--family", "brake-judder", "--processes", 1)
    assert done.exit_code == 0
    assert "All families: 1 cases, advice" in done.stdout
    assert "95 % interval" in done.stdout

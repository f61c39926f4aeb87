"""`proofbay bench`: how it ends."""

from __future__ import annotations

from subprocess import CalledProcessError

import pytest
from typer.testing import CliRunner

from app.bench.run import NAMES
from app.commands import bench
from app.commands.main import app


def ended(code):
    def apart(names, sizes):
        yield f"measuring {', '.join(names)}"
        raise CalledProcessError(code, "bench")

    return apart


def test_without_a_name_everything_is_measured(monkeypatch):
    monkeypatch.setattr(bench, "apart", lambda names, sizes: iter([" ".join(names)]))
    assert CliRunner().invoke(app, ["bench"]).stdout.split() == list(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_a_binding_goal_that_is_missed_ends_with_its_code(name, monkeypatch):
    monkeypatch.setattr(bench, "apart", ended(1))
    done = CliRunner().invoke(app, ["bench", name])
    assert done.exit_code == 1
    assert done.stdout == f"measuring {name}\n"


def test_a_process_ended_from_outside_is_said(monkeypatch):
    monkeypatch.setattr(bench, "apart", ended(-9))
    done = CliRunner().invoke(app, ["bench", "growth"])
    assert done.exit_code == 2
    assert "was ended from outside (signal 9)" in done.stderr

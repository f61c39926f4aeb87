"""A real database for each test: a copy of one that was made once."""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest

from app.history.engine import open_history
from app.history.history import History
from app.history.migrate import migrate
from tests.history.workshop import Filed, a_case


@pytest.fixture(scope="session")
def template(tmp_path_factory):
    path = tmp_path_factory.mktemp("template") / "history.db"
    migrate(f"sqlite:///{path}")
    return path


@pytest.fixture
def history(template, tmp_path) -> Iterator[History]:
    path = shutil.copy(template, tmp_path / "history.db")
    opened = open_history(f"sqlite:///{path}", "bay")
    yield opened
    opened.engine.dispose()


@pytest.fixture
def filed(history) -> Filed:
    return a_case(history)

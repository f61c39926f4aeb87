"""The real app on a real database: a copy of one that was migrated and filled once."""

from __future__ import annotations

import asyncio
import shutil
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from uuid import uuid4

import httpx
import pytest

from app.history.engine import open_history
from app.history.migrate import migrate
from app.settings import Settings
from app.web.main import create_app
from tests.web.reading import Page
from tests.web.story import Story, tell

WORKER = ThreadPoolExecutor(1)
"""Requests run in a thread of their own: in the tests' thread the browser tests may keep an event loop running."""


@pytest.fixture(scope="session")
def template(tmp_path_factory) -> tuple[Path, Story]:
    path = tmp_path_factory.mktemp("template") / "proofbay.db"
    migrate(f"sqlite:///{path}")
    history = open_history(f"sqlite:///{path}", "main")
    story = tell(history)
    history.engine.dispose()
    return path, story


@pytest.fixture
def story(template) -> Story:
    return template[1]


@dataclass
class Browser:
    """Asks the app without a socket. `script`: as htmx would, for parts; else as a browser without script."""

    app: object
    cookies: dict[str, str] = field(default_factory=dict)

    def get(self, address: str, *, part: bool = False, **headers: str) -> Page:
        return self._ask("GET", address, part=part, headers=headers)

    def post(self, address: str, data: dict[str, str] | None = None, *, part: bool = False, **more) -> Page:
        return self._ask("POST", address, part=part, data=data or {}, **more)

    def _ask(self, method: str, address: str, *, part: bool, headers: dict[str, str] | None = None, **more) -> Page:
        sent = {**({"HX-Request-Type": "partial"} if part else {}), **(headers or {})}

        async def ask() -> httpx.Response:
            transport = httpx.ASGITransport(app=self.app, raise_app_exceptions=False)
            async with httpx.AsyncClient(transport=transport, base_url="http://bay", cookies=self.cookies) as client:
                return await client.request(method, address, headers=sent, **more)

        return Page(WORKER.submit(asyncio.run, ask()).result())


@pytest.fixture
def history(template, tmp_path):
    path = shutil.copy(template[0], tmp_path / "proofbay.db")
    opened = open_history(f"sqlite:///{path}", "main")
    yield opened
    opened.engine.dispose()


@pytest.fixture(scope="session")
def app(template):
    """Made once, for reading the rules takes a while; each test gives it a history of its own."""
    made = create_app(Settings(data_dir=template[0].parent))
    yield made
    made.state.history.engine.dispose()


@pytest.fixture
def ida(app, history, story) -> Iterator[Browser]:
    """Ida Lorne's browser."""
    first = app.state.history
    app.state.history = history
    yield Browser(app, {"proofbay_person": story.person})
    app.state.history = first


@pytest.fixture
def stranger(ida) -> Browser:
    """A browser in which nobody has said who is working."""
    return Browser(ida.app)


@pytest.fixture
def fresh_id() -> str:
    return str(uuid4())


@pytest.fixture
def record(ida, story):
    """Sends one entry of this case."""

    def send(kind: str, sent: dict[str, str], *, part: bool = True):
        return ida.post(f"/cases/{story.case}/{kind}", sent, part=part)

    return send

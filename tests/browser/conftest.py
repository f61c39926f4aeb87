"""A real Chromium on the real program: started on a free port with an empty data folder and the demo."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from urllib.error import URLError
from urllib.request import urlopen

import pytest
from playwright.sync_api import Page, expect

QUIET = [
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
START = "from app.commands.main import app; app()"
PATIENCE = 30.0
TABLET = {"width": 1024, "height": 768}


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args):
    chromium = shutil.which("chromium")
    assert chromium, "The browser tests need Chromium. On Debian: sudo apt install chromium"
    return {**browser_type_launch_args, "executable_path": chromium, "args": QUIET}


@pytest.fixture(scope="session")
def browser_context_args(browser_context_args):
    return {**browser_context_args, "viewport": TABLET, "has_touch": True}


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture(scope="session")
def base_url(tmp_path_factory) -> Iterator[str]:
    port, data = free_port(), tmp_path_factory.mktemp("data")
    surroundings = {**os.environ, "PROOFBAY_DATA_DIR": str(data)}
    server = subprocess.Popen([sys.executable, "-c", START, "serve", "--demo", "--port", str(port)], env=surroundings)
    address = f"http://127.0.0.1:{port}"
    try:
        wait_until_it_answers(address, server)
        yield address
    finally:
        server.terminate()
        server.wait(timeout=10)


def wait_until_it_answers(address: str, server: subprocess.Popen[bytes]) -> None:
    until = time.monotonic() + PATIENCE
    while time.monotonic() < until:
        assert server.poll() is None, "The server ended by itself; its words stand above."
        try:
            with urlopen(f"{address}/who", timeout=1):
                return
        except (URLError, OSError):
            time.sleep(0.1)
    raise AssertionError(f"The server did not answer within {PATIENCE:.0f} s.")


@pytest.fixture
def provoked() -> list[str]:
    """Statuses that a test provokes on purpose ("422"); "offline" where it takes the network away."""
    return []


@pytest.fixture
def page(page: Page, provoked: list[str]) -> Iterator[Page]:
    """A page of the demo's technician; any page or console error that was not provoked fails the test."""
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(f"page: {error}"))
    page.on("console", lambda message: errors.append(message.text) if message.type == "error" else None)
    page.set_default_timeout(8000)
    page.goto("/who")
    page.get_by_role("button", name="Ida Lorne").click()
    expect(page.get_by_role("link", name="Working: Ida Lorne")).to_be_visible()
    yield page
    assert [error for error in errors if not _was_provoked(error, provoked)] == []


def _was_provoked(error: str, provoked: list[str]) -> bool:
    if "offline" in provoked and ("ERR_INTERNET_DISCONNECTED" in error or "Failed to fetch" in error):
        return True
    return any(error.startswith("Failed to load resource") and f"status of {status}" in error for status in provoked)

"""Runs benches in a process of their own that is held to one thread, and writes what they found."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict
from importlib import import_module
from pathlib import Path

from app.bench.machine import ONE_THREAD, described
from app.bench.page import write
from app.bench.report import Report
from app.bench.sizes import Sizes
from app.settings import PROJECT

NAMES = ("exactness", "speed", "growth", "boards", "advice")
"""Each is a module of this room with a function of the same name."""
MISSED = 1


def apart(names: Sequence[str], sizes: Sizes) -> Iterator[str]:
    """The lines that a process of its own prints; raises `CalledProcessError` where a binding goal was missed."""
    command = [sys.executable, "-m", "app.bench", json.dumps(asdict(sizes)), *names]
    environment = {**os.environ, **ONE_THREAD, "PYTHONPATH": str(PROJECT), "PYTHONUNBUFFERED": "1"}
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, encoding="utf-8", env=environment) as process:
        assert process.stdout is not None
        for line in process.stdout:
            yield line.rstrip("\n")
    if process.returncode:
        raise subprocess.CalledProcessError(process.returncode, command)


def here(names: Sequence[str], sizes: Sizes, say: Callable[[str], object]) -> int:
    """Runs the benches in this process, says what they find, writes the files; the exit code."""
    machine = described()
    say("; ".join(f"{name}: {value}" for name, value in machine.items()) + f"; seed {sizes.seed}.")
    reports = []
    for name in names:
        report = bench(name)(sizes)
        reports.append(report)
        say(f"\n== {name} ==")
        for line in report.lines():
            say(line)
    data, page = write(Path(sizes.out), reports, machine, seed=sizes.seed)
    say(f"\nWritten: {data} and {page}.")
    return MISSED if any(report.failed for report in reports) else 0


def bench(name: str) -> Callable[[Sizes], Report]:
    """Loaded when it is run, so that no bench waits for what another needs."""
    found: Callable[[Sizes], Report] = getattr(import_module(f"app.bench.{name}"), name)
    return found

"""The reports as one page that needs nothing else, and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from html import escape
from pathlib import Path

from app.bench.plot import drawn
from app.bench.report import Goal, Report, Table, Taken, text

STYLE = """
body { font: 16px/1.5 system-ui, sans-serif; max-width: 72rem; margin: 2rem auto; padding: 0 1rem; color: #1c1c1c;
  background: #fff }
table { border-collapse: collapse; margin: .5rem 0 } .wide { overflow-x: auto }
th, td { padding: .2rem .8rem; text-align: right; border-bottom: 1px solid #ccc }
th:first-child, td:first-child { text-align: left }
.missed { font-weight: bold }
svg { max-width: 100%; height: auto }
"""


def write(folder: Path, reports: Sequence[Report], machine: Mapping[str, str], *, seed: int) -> tuple[Path, Path]:
    """`bench.json` and `bench.html`, over those of an earlier run."""
    folder.mkdir(parents=True, exist_ok=True)
    data, page = folder / "bench.json", folder / "bench.html"
    data.write_text(as_json(reports, machine, seed=seed), encoding="utf-8")
    page.write_text("\n".join(_page(reports, machine, seed)), encoding="utf-8")
    return data, page


def as_json(reports: Sequence[Report], machine: Mapping[str, str], *, seed: int) -> str:
    """Numbers as they are; what depends on the machine and the moment as {value, unit}."""
    found = [{**asdict(one), "goals": [_goal(goal) for goal in one.goals]} for one in reports]
    return json.dumps({"machine": machine, "seed": seed, "benches": found}, indent=1)


def _goal(goal: Goal) -> dict[str, object]:
    return {**asdict(goal), "met": goal.met}


def _page(reports: Sequence[Report], machine: Mapping[str, str], seed: int) -> Iterator[str]:
    yield '<!doctype html><html lang="en"><head><meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width"><title>Proofbay, measured</title>'
    yield f"<style>{STYLE}</style></head><body><main><h1>Proofbay, measured</h1>"
    said = "; ".join(f"{name}: {value}" for name, value in machine.items())
    yield f"<p>{escape(said)}. Seed {seed}.</p>"
    for report in reports:
        yield f"<h2>{escape(report.name.capitalize())}</h2>"
        yield from (f"<p>Missing: {escape(one)}</p>" for one in report.missing)
        yield from _goals(report.goals)
        for table in report.tables:
            yield from _table(table)
        yield from (drawn(plot) for plot in report.plots)
    yield "</main></body></html>"


def _goals(goals: Sequence[Goal]) -> Iterator[str]:
    if goals:
        yield "<ul>"
        for goal in goals:
            yield f"<li{'' if goal.met else ' class=missed'}>{escape(goal.in_words())}</li>"
        yield "</ul>"


def _table(table: Table) -> Iterator[str]:
    yield f'<h3>{escape(table.title)}</h3><div class="wide"><table><thead><tr>'
    yield "".join(f'<th scope="col">{escape(one)}</th>' for one in table.head)
    yield "</tr></thead><tbody>"
    for row in table.rows:
        yield f"<tr>{''.join(f'<td>{escape(text(cell))}</td>' for cell in row)}</tr>"
    yield f"</tbody></table></div><p>{escape(table.note)}</p>"


def untimed(report: Report) -> list[object]:
    """What must be the same for the same seed: every table without what depends on machine and moment."""
    return [[[None if isinstance(cell, Taken) else cell for cell in row] for row in t.rows] for t in report.tables]

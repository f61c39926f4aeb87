"""A plot as SVG: lines over one axis, both axes logarithmic."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from math import ceil, floor, log10

from app.bench.report import Plot, short

WIDE, HIGH, LEFT, BELOW, ABOVE, RIGHT = 640, 360, 70, 50, 30, 190
DASHES = ("", "8 4", "2 4", "10 3 2 3", "1 6")
INKS = ("#1b4f72", "#a04000", "#1e6b3a", "#6c3483", "#5f6a6a")


def drawn(plot: Plot) -> str:
    """The picture, with its name for those who cannot see it; lines differ by dashes and marks as well as by colour."""
    return "\n".join(_lines(plot))


class _Scale:
    """From values to places on one side of the picture."""

    def __init__(self, values: list[float], first: float, last: float) -> None:
        low, high = log10(min(values)), log10(max(values))
        self.low, self.high = (low, high) if high - low > 0.05 else (low - 0.5, high + 0.5)
        self.first, self.last = first, last

    def at(self, value: float) -> float:
        return self.first + (log10(value) - self.low) / (self.high - self.low) * (self.last - self.first)

    def ticks(self) -> Iterator[float]:
        steps = (1, 2, 5) if self.high - self.low < 2.5 else (1,)
        for power in range(floor(self.low), ceil(self.high) + 1):
            for step in steps:
                if self.low - 1e-9 <= log10(step * 10.0**power) <= self.high + 1e-9:
                    yield step * 10.0**power


def _lines(plot: Plot) -> Iterator[str]:
    points = [(x, y) for line in plot.lines.values() for x, y in line if x > 0.0 and y > 0.0]
    if not points:
        return
    across = _Scale([x for x, _ in points], LEFT, WIDE - RIGHT)
    up = _Scale([y for _, y in points], HIGH - BELOW, ABOVE)
    name = escape(plot.title)
    yield f'<svg viewBox="0 0 {WIDE} {HIGH}" width="{WIDE}" role="img" aria-label="{name}" font-size="12">'
    yield f'<text x="{LEFT}" y="18" font-weight="bold">{name}</text>'
    yield from _axes(plot, across, up)
    for number, (label, line) in enumerate(plot.lines.items()):
        ink, dash = INKS[number % len(INKS)], DASHES[number % len(DASHES)]
        places = [(across.at(x), up.at(y)) for x, y in line if x > 0.0 and y > 0.0]
        joined = " ".join(f"{x:.1f},{y:.1f}" for x, y in places)
        yield f'<polyline points="{joined}" fill="none" stroke="{ink}" stroke-width="2" stroke-dasharray="{dash}"/>'
        yield from (f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{ink}"/>' for x, y in places)
        level, begin = ABOVE + 20 * number + 10, WIDE - RIGHT + 15
        yield (
            f'<line x1="{begin}" x2="{begin + 30}" y1="{level}" y2="{level}" stroke="{ink}" stroke-width="2" '
            f'stroke-dasharray="{dash}"/><text x="{begin + 36}" y="{level + 4}">{escape(label)}</text>'
        )
    yield "</svg>"


def _axes(plot: Plot, across: _Scale, up: _Scale) -> Iterator[str]:
    floor_level = HIGH - BELOW
    for value in across.ticks():
        x = across.at(value)
        yield f'<line x1="{x:.1f}" x2="{x:.1f}" y1="{ABOVE}" y2="{floor_level}" stroke="#ddd"/>'
        yield f'<text x="{x:.1f}" y="{floor_level + 16}" text-anchor="middle">{short(value)}</text>'
    for value in up.ticks():
        y = up.at(value)
        yield f'<line x1="{LEFT}" x2="{WIDE - RIGHT}" y1="{y:.1f}" y2="{y:.1f}" stroke="#ddd"/>'
        yield f'<text x="{LEFT - 6}" y="{y + 4:.1f}" text-anchor="end">{short(value)}</text>'
    middle = (LEFT + WIDE - RIGHT) / 2
    yield f'<text x="{middle:.0f}" y="{HIGH - 12}" text-anchor="middle">{escape(plot.across)}</text>'
    yield (
        f'<text x="16" y="{(ABOVE + floor_level) / 2:.0f}" text-anchor="middle" '
        f'transform="rotate(-90 16 {(ABOVE + floor_level) / 2:.0f})">{escape(plot.up)}</text>'
    )

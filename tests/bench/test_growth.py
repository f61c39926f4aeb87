"""The bench of growth at its smallest sizes; no times are asserted."""

from __future__ import annotations

from app.bench import growth as bench
from app.bench.growth import MEASURES, growth
from app.bench.large_networks import Size, large, posteriors_only, width
from app.bench.page import untimed
from tests.bench.small import SMALL


def test_every_measure_has_a_table_and_a_plot_and_the_same_seed_gives_the_same_tables(monkeypatch):
    monkeypatch.setattr(bench, "USUAL", Size(60, 10, 5, 5))
    report = growth(SMALL)
    assert [table.head[0] for table in report.tables] == list(MEASURES)
    assert [plot.across for plot in report.plots] == list(MEASURES)
    assert untimed(growth(SMALL)) == untimed(report)


def test_the_further_findings_reach_the_more_must_be_kept_in_mind():
    def widest(reach: float) -> int:
        return width(large(0, Size(120, 0, 12, 5, reach=reach, parents=(16, 24))), posteriors_only())

    assert widest(1) <= 2
    assert widest(4) < widest(12) <= 12

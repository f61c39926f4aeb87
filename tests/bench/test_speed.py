"""The bench of speed: peers say the same as the engine, and one that is not there is named. No times are asserted."""

from __future__ import annotations

import sys

import pytest

from app.bench import speed as bench
from app.bench.agrum import Agrum
from app.bench.large_networks import Size, large
from app.bench.page import untimed
from app.bench.peers import Missing, peer
from app.bench.speed import agrum_times, our_times, pgm_times, speed
from tests.bench.small import SMALL

LITTLE = Size(16, 6, 4, 3, reach=4, parents=(2, 4))
PGM = ("pgmpy.inference", "pgmpy.models", "pgmpy.factors.discrete")


@pytest.fixture(autouse=True)
def _small(monkeypatch):
    monkeypatch.setattr(bench, "NAMED", dict.fromkeys(bench.NAMED, LITTLE))
    monkeypatch.setattr(bench, "FAULTS", 4)
    monkeypatch.setattr(bench, "ACTIONS", 4)


@pytest.mark.parametrize("chains", [False, True], ids=["its own noisy-OR", "chains by hand"])
@pytest.mark.parametrize("seed", range(3))
def test_pyagrum_says_the_same_in_both_ways(seed, chains):
    gum = peer("pyagrum")
    assert not isinstance(gum, Missing)
    network = large(seed, LITTLE)
    asked = agrum_times(gum, our_times(network, SMALL), SMALL, chains=chains)
    assert asked.apart < 1e-10
    assert Agrum(gum, network, chains=chains).inside


def test_pgmpy_says_the_same():
    pgmpy = peer("pgmpy", *PGM)
    assert not isinstance(pgmpy, Missing)
    assert pgm_times(pgmpy, our_times(large(1, LITTLE), SMALL), SMALL).apart < 1e-10


def test_the_same_seed_gives_the_same_tables():
    report = speed(SMALL)
    assert not report.missing
    assert untimed(speed(SMALL)) == untimed(report)
    peers = [row[1] for row in report.tables[1].rows]
    assert sum("pyAgrum" in name for name in peers) == 6
    assert sum("pgmpy" in name for name in peers) == 1


@pytest.mark.parametrize("name", ["pyagrum", "pgmpy"])
def test_a_peer_that_is_not_there_is_named(name, monkeypatch):
    monkeypatch.setitem(sys.modules, name, None)
    report = speed(SMALL)
    assert len(report.missing) == 1
    assert report.missing[0].startswith(f"{name} cannot be measured against: ")
    assert f"Missing: {report.missing[0]}" in list(report.lines())


def test_a_network_too_tight_for_a_peer_is_named_with_the_reason(monkeypatch):
    monkeypatch.setattr(bench, "LARGEST_CLIQUE", 1)
    report = speed(SMALL)
    reasons = [str(row[-1]) for row in report.tables[1].rows if "pyAgrum" in row[1]]
    assert all(reason.startswith("cannot: a table of 2^") for reason in reasons)

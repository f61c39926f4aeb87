"""Monitors as rules: which stands behind a code, and what is refused."""

from __future__ import annotations

import pytest

from app.rules.check import check_rules
from app.rules.monitors import watcher_of
from app.rules.read import read_rules
from tests.rules.texts import shipped, texts


@pytest.mark.parametrize(
    ("code", "monitor"),
    [
        ("P0300", "misfire"),
        ("P0171", "fuel-system"),
        ("P0420", "catalyst"),
        ("P0442", "evaporative-system"),
        ("P0135", "oxygen-sensor-heater"),
        ("P0401", "egr-and-vvt"),
        ("P0562", "comprehensive-component"),
        ("C0035", None),
        ("U0100", None),
    ],
)
def test_the_monitor_behind_a_code(code, monitor):
    """Groups of SAE J2012 / ISO 15031-6, from memory; body, chassis and network codes have no readiness."""
    found = watcher_of(code, shipped().monitors.values())
    assert (found.id if found else None) == monitor


def refused(old: str, new: str) -> str:
    changed = texts()
    assert old in changed["monitors.yaml"]
    changed["monitors.yaml"] = changed["monitors.yaml"].replace(old, new, 1)
    rules, problems = read_rules(changed)
    assert rules is None
    return " ".join(str(problem) for problem in problems)


def test_what_is_wrong_with_a_monitor_is_said_with_its_line():
    assert "monitors.yaml:10: “P0316-P0300” is not a code or a range" in refused("P0300-P0316", "P0316-P0300")
    assert "no trait “fule”" in refused("fits: {fuel", "fits: {fule")
    assert "Both “misfire” and “comprehensive-component” watch the rest" in refused(
        "    watches: [P0300-P0316]\n", "    the rest: yes\n"
    )
    assert "has no “source”" in refused("    source: SAE J1979", "    soruce: SAE J1979")
    assert "has no “permanent”" in refused("  permanent:", "  permament:")


def test_a_proof_setting_that_proves_nothing_is_refused():
    changed = texts()
    changed["strengths.yaml"] = changed["strengths.yaml"].replace(
        "proof still there at most: {value: 0.03", "proof still there at most: {value: 0.9"
    )
    rules, _ = read_rules(changed)
    assert any("leaves 0.9 is none" in str(problem) for problem in check_rules(rules))

"""The engine against the exact answers of the oracle files (rational arithmetic, sharing no code with any engine)."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.beliefs.beliefs import Beliefs, Contradiction
from app.beliefs.infer import infer
from app.beliefs.oracle_answers import flat_answer, grouped_answer
from app.network.oracle_form import FLAT, read_bare_network

FOLDER = Path(__file__).parent.parent / "oracle"
FLAT_FILES = sorted(FOLDER.glob("*.json"))
GROUPED_FILES = sorted((FOLDER / "grouped").glob("*.json"))

# What the oracle's own readme asks of a float64 product.
SAME = {"rel": 1e-12, "abs": 0.0}
RATIO = {"rel": 1e-10, "abs": 0.0}
BITS = {"rel": 0.0, "abs": 1e-12}


def named(path: Path) -> str:
    return path.stem


def solved(path: Path):
    data = json.loads(path.read_text())
    bare = read_bare_network(data)
    beliefs = infer(bare.network, bare.questions)
    answer = flat_answer if bare.schema == FLAT else grouped_answer
    return beliefs, answer(bare.network, bare.questions, beliefs), data["expected"]


def agree(found, expected, tolerance):
    if expected is None:
        assert found is None
    else:
        assert found == pytest.approx(expected, **tolerance)


def agree_all(found, expected, tolerance):
    for one, other in zip(found, expected, strict=True):
        agree(one, other, tolerance)


def test_every_oracle_file_is_here():
    assert len(FLAT_FILES) == 20
    assert len(GROUPED_FILES) == 14


@pytest.mark.parametrize("path", FLAT_FILES, ids=named)
def test_flat_networks_agree_with_exact_arithmetic(path):
    beliefs, found, expected = solved(path)
    assert isinstance(beliefs, Beliefs)
    agree(found["log_evidence"], expected["log_evidence"], BITS)
    agree_all(found["posteriors"], expected["posteriors"], SAME)
    for test, right in zip(found["tests"], expected["tests"], strict=True):
        agree(test["p_negative"], right["p_negative"], SAME)
        agree(test["p_positive"], right["p_positive"], SAME)
        agree_all(test["lr_plus"], right["lr_plus"], RATIO)
        agree_all(test["lr_minus"], right["lr_minus"], RATIO)
        assert test["joint_exact"]
        agree(test["mutual_information_joint_bits"], right["mutual_information_joint_bits"], BITS)


@pytest.mark.parametrize("path", GROUPED_FILES, ids=named)
def test_networks_with_groups_and_papers_agree_with_exact_arithmetic(path):
    beliefs, found, expected = solved(path)
    if expected["states"] is None:
        assert isinstance(beliefs, Contradiction)
        assert found["states"] is None
        return
    agree(found["log_evidence"], expected["log_evidence"], BITS)
    for states, right in zip(found["states"], expected["states"], strict=True):
        agree_all(states, right, SAME)
    agree_all(found["events"], expected["events"], SAME)
    agree_all(found["documents"], expected["documents"], SAME)
    agree_all(found["blame"]["by_hypothesis"], expected["blame"]["by_hypothesis"], SAME)
    agree(found["blame"]["nothing_listed"], expected["blame"]["nothing_listed"], SAME)
    for test, right in zip(found["tests"], expected["tests"], strict=True):
        agree_test(test, right)


def agree_test(test, right):
    agree(test["p_present"], right["p_present"], SAME)
    agree(test["p_absent"], right["p_absent"], SAME)
    for event, other in zip(test["events"], right["events"], strict=True):
        agree(event["posterior_if_present"], other["posterior_if_present"], SAME)
        agree(event["posterior_if_absent"], other["posterior_if_absent"], SAME)
        agree(event["lr_plus"], other["lr_plus"], RATIO)
        agree(event["lr_minus"], other["lr_minus"], RATIO)
        agree(event["mutual_information_bits"], other["mutual_information_bits"], BITS)


@pytest.mark.parametrize("path", [*FLAT_FILES, *GROUPED_FILES], ids=named)
def test_the_complement_of_an_event_is_summed_by_itself(path):
    beliefs, _, expected = solved(path)
    if isinstance(beliefs, Contradiction):
        return
    exact = expected.get("events_exact") or expected["posteriors_exact"]
    for chance, text in zip(beliefs.events, exact, strict=True):
        num, den = (int(part) for part in text.split("/"))
        assert chance.no == pytest.approx((den - num) / den, rel=1e-12, abs=0.0)

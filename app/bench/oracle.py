"""The stored networks with exact answers (their readme says how those were had), compared figure by figure."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from app.beliefs.beliefs import Contradiction
from app.beliefs.infer import infer
from app.beliefs.oracle_answers import flat_answer, grouped_answer
from app.bench.differences import Worst
from app.network.oracle_form import FLAT, read_bare_network

Answers = Mapping[str, Any]


def compare_with_oracle(files: Iterable[Path]) -> Worst:
    """Every figure of every file."""
    worst = Worst()
    for path in files:
        data = json.loads(path.read_text(encoding="utf-8"))
        bare = read_bare_network(data)
        beliefs = infer(bare.network, bare.questions)
        expected = data["expected"]
        flat = bare.schema == FLAT
        possible = expected["posteriors" if flat else "states"] is not None
        worst.networks += 1
        worst.contradiction(possible != isinstance(beliefs, Contradiction))
        if not possible or isinstance(beliefs, Contradiction):
            continue
        found = (flat_answer if flat else grouped_answer)(bare.network, bare.questions, beliefs)
        worst.bit(beliefs.log_evidence, expected["log_evidence"])
        (_compare_flat if flat else _compare_grouped)(found, expected, worst)
    return worst


def _compare_flat(found: Answers, expected: Answers, worst: Worst) -> None:
    worst.all_chances(found["posteriors"], expected["posteriors"])
    for test, right in zip(found["tests"], expected["tests"], strict=True):
        worst.chance(test["p_negative"], right["p_negative"])
        worst.chance(test["p_positive"], right["p_positive"])
        worst.all_ratios(test["lr_plus"], right["lr_plus"])
        worst.all_ratios(test["lr_minus"], right["lr_minus"])
        worst.bit(test["mutual_information_joint_bits"], right["mutual_information_joint_bits"])


def _compare_grouped(found: Answers, expected: Answers, worst: Worst) -> None:
    for states, right in zip(found["states"], expected["states"], strict=True):
        worst.all_chances(states, right)
    worst.all_chances(found["events"], expected["events"])
    worst.all_chances(found["documents"], expected["documents"])
    worst.all_chances(found["blame"]["by_hypothesis"], expected["blame"]["by_hypothesis"])
    worst.chance(found["blame"]["nothing_listed"], expected["blame"]["nothing_listed"])
    for test, right in zip(found["tests"], expected["tests"], strict=True):
        worst.chance(test["p_present"], right["p_present"])
        worst.chance(test["p_absent"], right["p_absent"])
        for event, other in zip(test["events"], right["events"], strict=True):
            worst.chance(event["posterior_if_present"], other["posterior_if_present"])
            worst.chance(event["posterior_if_absent"], other["posterior_if_absent"])
            worst.ratio(event["lr_plus"], other["lr_plus"])
            worst.ratio(event["lr_minus"], other["lr_minus"])
            worst.bit(event["mutual_information_bits"], other["mutual_information_bits"])

"""Beliefs about a bare network in the shape of the oracle's answers."""

from __future__ import annotations

import numpy as np

from app.beliefs.beliefs import Beliefs, Contradiction, Masses, Numbers
from app.beliefs.information import mutual_bits
from app.network.noisy_or import NoisyOr, Questions

Answer = dict[str, object]


def flat_answer(network: NoisyOr, questions: Questions, beliefs: Beliefs | Contradiction) -> Answer:
    """The fields of schema 1: lists per hypothesis, null where undefined."""
    if isinstance(beliefs, Contradiction):
        return _contradictory(beliefs, ("posteriors", "tests"))
    hypotheses = range(len(network.hypotheses))
    return {
        "log_evidence": beliefs.log_evidence,
        "posteriors": [float(states[1]) for states in beliefs.states],
        "tests": [
            {
                "finding": test,
                "p_negative": beliefs.tests[test].no,
                "p_positive": beliefs.tests[test].yes,
                "lr_plus": [beliefs.masses[test, h].lr_plus for h in hypotheses],
                "lr_minus": [beliefs.masses[test, h].lr_minus for h in hypotheses],
                "mutual_information_joint_bits": information.bits,
                "joint_exact": information.exact,
            }
            for test, information in zip(questions.tests, beliefs.informing, strict=True)
        ],
    }


def grouped_answer(network: NoisyOr, questions: Questions, beliefs: Beliefs | Contradiction) -> Answer:
    """The fields of schema 2."""
    if isinstance(beliefs, Contradiction):
        return _contradictory(beliefs, ("states", "events", "documents", "tests", "blame"))
    return {
        "log_evidence": beliefs.log_evidence,
        "states": [[float(chance) for chance in states] for states in beliefs.states],
        "events": [chance.yes for chance in beliefs.events],
        "documents": list(beliefs.documents),
        "tests": [
            {
                "finding": test,
                "p_present": beliefs.tests[test].yes,
                "p_absent": beliefs.tests[test].no,
                "events": [_scores(beliefs.masses[test, event]) for event in range(len(network.events))],
            }
            for test in questions.tests
        ],
        "blame": {
            "by_hypothesis": [chance.yes for chance in beliefs.blamed[:-1]],
            "nothing_listed": beliefs.blamed[-1].no,
        },
    }


def _scores(masses: Masses) -> Answer:
    return {
        "posterior_if_present": _share(masses.on_present, masses.off_present),
        "posterior_if_absent": _share(masses.on_absent, masses.off_absent),
        "lr_plus": masses.lr_plus,
        "lr_minus": masses.lr_minus,
        "mutual_information_bits": mutual_bits(_table(masses)),
    }


def _table(masses: Masses) -> Numbers:
    return np.array([[masses.on_present, masses.on_absent], [masses.off_present, masses.off_absent]])


def _share(on: float, off: float) -> float | None:
    return on / (on + off) if on + off > 0.0 else None


def _contradictory(found: Contradiction, undefined: tuple[str, ...]) -> Answer:
    return {"log_evidence": None, **dict.fromkeys(undefined), "contradiction": list(found.findings)}

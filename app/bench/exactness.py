"""How exact the engine is: against stored exact answers, visiting every combination, and a sum with many digits."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import localcontext
from math import log
from pathlib import Path
from random import Random

from app.beliefs.beliefs import Beliefs, Contradiction
from app.beliefs.infer import infer
from app.bench.differences import POSTERIORS, RATIOS, Worst
from app.bench.large_networks import Size, large, rare, whole_board
from app.bench.networks import grouped
from app.bench.oracle import compare_with_oracle
from app.bench.report import Goal, Report, Table
from app.bench.signed_sum import DIGITS, SignedSum
from app.bench.sizes import Sizes
from app.bench.visiting import Visited
from app.network.noisy_or import NoisyOr, Questions

LARGEST = 14
"""Hypotheses of the networks that are visited whole."""
RICH = 4
EVERY = 10
"""The ratios of every so many tests of a large network are compared: each test is a sum of its own with many digits."""
FULL = Size()
RARE_DIGITS = 320
PAIRS = (11, 13)


def exactness(sizes: Sizes) -> Report:
    """Four kinds of networks, each with the largest difference found."""
    stored = [(kind, compare_with_oracle(files)) for kind, files in oracle_files(sizes.oracle).items()]
    visited, (full, _), (rarest, chances) = _visited(sizes), _full(sizes), _rare(sizes)
    rows = (
        *((f"stored exact answers, {kind}", one) for kind, one in stored),
        (f"groups and states, up to {LARGEST} hypotheses, visited whole", visited),
        (f"{FULL}, {DIGITS} digits", full),
        (f"rare reports, P down to 1e{min(chances, default=0.0):.0f}, {RARE_DIGITS} digits", rarest),
    )
    table = Table(
        "Exactness: largest relative difference",
        ("networks", "number", "figures", "posteriors and chances", "ratios", "bits (absolute)", "beyond tolerance"),
        tuple((n, w.networks, w.compared, w.chances, w.ratios, w.bits, w.beyond) for n, w in rows),
        f"Tolerances: {POSTERIORS:g} posteriors and chances, {RATIOS:g} likelihood ratios, 1e-12 bits.",
    )
    goals = (
        Goal("differences above the tolerances", sum(w.beyond for _, w in rows), most=0, binding=True),
        Goal("largest difference of a posterior", max(w.chances for _, w in rows), most=POSTERIORS, binding=True),
        Goal("largest difference of a ratio", max(w.ratios for _, w in rows), most=RATIOS, binding=True),
    )
    return Report("exactness", (table,), goals=goals)


def oracle_files(folder: str) -> dict[str, list[Path]]:
    """The files of both schemas; refused where there are none."""
    found = {
        "schema 1": sorted(Path(folder).glob("*.json")),
        "schema 2": sorted(Path(folder, "grouped").glob("*.json")),
    }
    for kind, files in found.items():
        if not files:
            raise FileNotFoundError(
                f"There are no networks with exact answers ({kind}) in {folder}: give their folder."
            )
    return found


def _visited(sizes: Sizes) -> Worst:
    worst = Worst()
    for number in range(sizes.networks):
        more = Random(sizes.seed + number).randint(0, LARGEST - RICH)
        network, questions = grouped(sizes.seed + number, more)
        worst.networks += 1
        _compare_visited(network, questions, worst)
    return worst


def _compare_visited(network: NoisyOr, questions: Questions, worst: Worst) -> None:
    visited, beliefs = Visited(network), infer(network, questions)
    whole = visited.chance()
    worst.contradiction(isinstance(beliefs, Contradiction) == (whole == 0.0))
    if isinstance(beliefs, Contradiction) or whole == 0.0:
        return
    for h, states in enumerate(beliefs.states):
        worst.all_chances(states, (visited.chance(state=(h, s)) / whole for s in range(len(states))))
    for e, event in enumerate(beliefs.events):
        worst.chance(event.yes, visited.chance(event=e) / whole)
        worst.chance(event.no, visited.chance(not_event=e) / whole)
    worst.all_chances(beliefs.documents, (visited.chance(true=d) / whole for d in range(len(network.documents))))
    for blamed, chance in zip(questions.blamed, beliefs.blamed, strict=True):
        worst.chance(chance.no, visited.nobody_fires(frozenset(blamed), questions.complaint) / whole)
    for test in questions.tests:
        worst.chance(beliefs.tests[test].no, visited.chance(test=test) / whole)
        worst.chance(beliefs.tests[test].yes, visited.chance(test=test, present=True) / whole)
        _compare_ratios(visited, beliefs, test, worst=worst)


def _compare_ratios(visited: Visited, beliefs: Beliefs, test: int, *, worst: Worst) -> None:
    for e in range(len(visited.network.events)):
        masses = beliefs.masses[test, e]
        on = [visited.chance(event=e, test=test, present=present) for present in (True, False)]
        off = [visited.chance(not_event=e, test=test, present=present) for present in (True, False)]
        for found, this in ((masses.lr_plus, 0), (masses.lr_minus, 1)):
            defined = sum(on) > 0.0 and sum(off) > 0.0 and off[this] > 0.0
            worst.ratio(found, (on[this] / sum(on)) / (off[this] / sum(off)) if defined else None)


def _full(sizes: Sizes) -> tuple[Worst, list[float]]:
    return _summed(lambda seed: large(seed, FULL), sizes.full, digits=DIGITS, sizes=sizes)


def rare_chances(sizes: Sizes) -> list[float]:
    """Logarithms to the base 10 of the chances of the reports of the rare networks."""
    return _rare(sizes)[1]


def _rare(sizes: Sizes) -> tuple[Worst, list[float]]:
    def draw(seed: int) -> NoisyOr:
        return rare(seed, Random(seed).randint(*PAIRS))

    return _summed(draw, sizes.rare, digits=RARE_DIGITS, sizes=sizes)


def _summed(draw: Callable[[int], NoisyOr], count: int, *, digits: int, sizes: Sizes) -> tuple[Worst, list[float]]:
    """Against the signed sum; and the logarithms to the base 10 of the chances of the reports."""
    worst, chances = Worst(), []
    for network in _drawn(draw, count, sizes):
        questions = whole_board(network)
        beliefs = infer(network, questions)
        assert isinstance(beliefs, Beliefs)
        worst.networks += 1
        chances.append(beliefs.log_evidence / log(10.0))
        with localcontext(prec=digits):
            _compare_summed(SignedSum(network), beliefs, questions, worst=worst)
    return worst, chances


def _drawn(draw: Callable[[int], NoisyOr], count: int, sizes: Sizes) -> Iterator[NoisyOr]:
    return (draw(sizes.seed + number) for number in range(count))


def _compare_summed(exact: SignedSum, beliefs: Beliefs, questions: Questions, *, worst: Worst) -> None:
    worst.bit(beliefs.log_evidence, float(exact.evidence().ln()))
    for h, states in enumerate(beliefs.states):
        worst.chance(float(states[1]), exact.posterior(h))
    for test in questions.tests[::EVERY]:
        for h, joint in exact.joints(test):
            masses = beliefs.masses[test, h]
            worst.ratio(masses.lr_plus, joint.lr_plus)
            worst.ratio(masses.lr_minus, joint.lr_minus)

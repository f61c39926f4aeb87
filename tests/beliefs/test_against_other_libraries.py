"""The engine against general Bayesian-network libraries: pyAgrum 3.3.1 and pgmpy 1.1.2, on random flat networks.

pyAgrum's `addNoisyORNet(variable, leak)` has our meaning: P(absent) = (1 - leak) · product of (1 - strength).
pgmpy has no noisy-OR for inference, so each finding's full table is written out.
"""

from __future__ import annotations

import warnings
from itertools import product
from math import log, prod

import pytest

from app.beliefs.beliefs import Beliefs
from app.beliefs.infer import infer
from app.bench.networks import flat
from app.network.noisy_or import NoisyOr, Report

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # a warning raised as an error while it loads would end the interpreter
    import pyagrum as gum


def parents_of(network: NoisyOr, finding: int) -> dict[int, float]:
    return {
        h: leaf.strength
        for h, hypothesis in enumerate(network.hypotheses)
        for leaf in hypothesis.states[1].effects
        if leaf.finding == finding
    }


def reported(network: NoisyOr) -> dict[int, int]:
    return {f: int(x.report is Report.PRESENT) for f, x in enumerate(network.findings) if x.report is not None}


@pytest.mark.parametrize(("seed", "hypotheses", "findings", "parents"), [(1, 12, 9, 5), (2, 20, 12, 5), (3, 30, 14, 4)])
def test_posteriors_tests_and_evidence_agree_with_pyagrum(seed, hypotheses, findings, parents):
    network, questions = flat(seed, hypotheses, findings, parents)
    net = gum.BayesNet()
    for h in range(hypotheses):
        net.add(gum.LabelizedVariable(f"h{h}", "", 2))
    for f, finding in enumerate(network.findings):
        net.addNoisyORNet(gum.LabelizedVariable(f"f{f}", "", 2), finding.leak)
        for h, strength in parents_of(network, f).items():
            net.addWeightedArc(f"h{h}", f"f{f}", strength)
    for h, hypothesis in enumerate(network.hypotheses):
        net.cpt(f"h{h}").fillWith([state.weight for state in hypothesis.states])
    inference = gum.LazyPropagation(net)
    inference.setEvidence({f"f{f}": value for f, value in reported(network).items()})
    inference.makeInference()
    beliefs = infer(network, questions)
    assert isinstance(beliefs, Beliefs)
    assert beliefs.log_evidence == pytest.approx(log(inference.evidenceProbability()), abs=1e-9)
    for h in range(hypotheses):
        assert beliefs.states[h][1] == pytest.approx(inference.posterior(f"h{h}")[1], rel=1e-9)
    for test in questions.tests:
        assert beliefs.tests[test].yes == pytest.approx(inference.posterior(f"f{test}")[1], rel=1e-9)


@pytest.mark.parametrize("seed", [4, 5])
def test_posteriors_agree_with_pgmpy(seed):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # its own imports warn of what is to come in its dependencies
        from pgmpy.factors.discrete import TabularCPD
        from pgmpy.inference import VariableElimination
        from pgmpy.models import DiscreteBayesianNetwork

        network, _ = flat(seed, hypotheses=8, findings=6, parents=4)
        links = {f: parents_of(network, f) for f in range(len(network.findings))}
        net = DiscreteBayesianNetwork([(f"h{h}", f"f{f}") for f, parents in links.items() for h in parents])
        net.add_nodes_from([f"h{h}" for h in range(8)])
        for h, hypothesis in enumerate(network.hypotheses):
            net.add_cpds(TabularCPD(f"h{h}", 2, [[state.weight] for state in hypothesis.states]))
        for f, parents in links.items():
            net.add_cpds(full_table(TabularCPD, f, network.findings[f].leak, parents))
        inference = VariableElimination(net)
        evidence = {f"f{f}": value for f, value in reported(network).items()}
        expected = [inference.query([f"h{h}"], evidence=evidence, show_progress=False).values[1] for h in range(8)]
    beliefs = infer(network)
    assert isinstance(beliefs, Beliefs)
    assert [float(states[1]) for states in beliefs.states] == pytest.approx(expected, rel=1e-9)


def full_table(table, finding, leak, parents):
    rows = list(product((0, 1), repeat=len(parents)))
    strengths = list(parents.values())
    absent = [(1 - leak) * prod(1 - q for q, on in zip(strengths, row, strict=True) if on) for row in rows]
    present = [1 - chance for chance in absent]
    names = [f"h{h}" for h in parents]
    return table(f"f{finding}", 2, [absent, present], evidence=names, evidence_card=[2] * len(names))

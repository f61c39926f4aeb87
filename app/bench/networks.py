"""Random small networks and questions, from a seed: flat ones, and ones with everything a network can hold."""

from __future__ import annotations

from random import Random

from app.network.noisy_or import (
    Document,
    Event,
    Finding,
    Group,
    Hypothesis,
    Leaf,
    NoisyOr,
    Questions,
    Report,
    Soft,
    State,
)

MANY = 6


def flat(seed: int, hypotheses: int = 10, findings: int = 9, parents: int = 5) -> tuple[NoisyOr, Questions]:
    """Binary hypotheses with direct leaves only."""
    dice = Random(seed)
    leaves: list[list[Leaf]] = [[] for _ in range(hypotheses)]
    for finding in range(findings):
        for h in dice.sample(range(hypotheses), min(parents, hypotheses)):
            leaves[h].append(Leaf(finding, round(dice.uniform(0.05, 0.99), 2)))
    reports = [dice.choice([Report.PRESENT, Report.PRESENT, Report.ABSENT, None]) for _ in range(findings)]
    priors = [round(dice.uniform(0.01, 0.4), 3) for _ in range(hypotheses)]
    network = NoisyOr(
        tuple(Finding(round(dice.uniform(0.001, 0.05), 3), report) for report in reports),
        tuple(Hypothesis((State(1.0 - p), State(p, tuple(some)))) for p, some in zip(priors, leaves, strict=True)),
        events=tuple(Event(((h, 1),)) for h in range(hypotheses)),
    )
    tests = tuple(f for f, report in enumerate(reports) if report is None)
    return network, Questions(tests, informing=tuple((t,) for t in tests))


def grouped(seed: int, more: int = 0) -> tuple[NoisyOr, Questions]:
    """States, nested groups that turn events on, soft reports, a document, every kind of question.

    `more`: plain hypotheses of two states beside the three or four with everything (two where many are added).
    """
    dice = Random(seed)
    findings, rich, events = 8, dice.randint(3, 4) if more < MANY else 2, 4
    states = (
        *(Hypothesis(tuple(_state(dice, findings, events) for _ in range(dice.randint(1, 3)))) for _ in range(rich)),
        *(_plain(dice, findings) for _ in range(more)),
    )
    hypotheses = len(states)
    reports: list[Report | Soft | None] = [Report.PRESENT, Report.PRESENT]
    for _ in range(findings - 2):
        soft = Soft(round(dice.uniform(0, 1.5), 2), round(dice.uniform(0, 1.5), 2))
        reports.append(dice.choice([Report.PRESENT, Report.ABSENT, Report.ABSENT, soft, None, None]))
    hard = [f for f in range(2, findings) if isinstance(reports[f], Report)]
    documents: tuple[Document, ...] = ()
    if len(hard) >= 2 and dice.random() < 0.7:
        documents = (Document(round(dice.uniform(0.3, 0.95), 2), 0.9, tuple(hard[: dice.randint(1, 3)])),)
    network = NoisyOr(
        tuple(Finding(dice.choice([0.001, 0.02, 0.1]), report) for report in reports),
        states,
        documents,
        tuple(_event(dice, states) for _ in range(events)),
    )
    return network, _questions(dice, network, hypotheses)


def _questions(dice: Random, network: NoisyOr, hypotheses: int) -> Questions:
    reported = [f for f, finding in enumerate(network.findings) if finding.report is not None]
    tests = tuple(f for f, finding in enumerate(network.findings) if finding.report is None)
    retests = tuple(tuple(sorted(dice.sample(reported, dice.randint(1, 3)))) for _ in range(3))
    everybody = tuple(range(hypotheses))
    blamed = (*((h,) for h in everybody), everybody[:2], everybody)
    return Questions(tests, retests, None, (0, 1), blamed, (*((t,) for t in tests), tests[:3]) if tests else ())


def _state(dice: Random, findings: int, events: int) -> State:
    leaves = [_leaf(dice, findings) for _ in range(dice.randint(0, 3))]
    groups = [_group(dice, findings, events, 0) for _ in range(dice.choice([0, 1, 1]))]
    return State(dice.choice([0.0, 0.05, 0.3, 1.0, 1.0]), (*leaves, *groups))


def _plain(dice: Random, findings: int) -> Hypothesis:
    prior = round(dice.uniform(0.01, 0.3), 3)
    return Hypothesis(
        (State(1.0 - prior), State(prior, tuple(_leaf(dice, findings) for _ in range(dice.randint(1, 3)))))
    )


def _leaf(dice: Random, findings: int) -> Leaf:
    return Leaf(dice.randrange(findings), dice.choice([1.0, round(dice.uniform(0.1, 0.95), 2)]))


def _group(dice: Random, findings: int, events: int, depth: int) -> Group:
    inside: list[Leaf | Group] = [_leaf(dice, findings) for _ in range(dice.randint(1, 3))]
    if depth == 0 and dice.random() < 0.4:
        inside.append(_group(dice, findings, events, 1))
    turns_on = (dice.randrange(events),) if dice.random() < 0.4 else ()
    return Group(dice.choice([0.0, 1.0, 0.3, 0.7, 0.9]), tuple(inside), turns_on)


def _event(dice: Random, hypotheses: tuple[Hypothesis, ...]) -> Event:
    pairs = [(h, s) for h, hypothesis in enumerate(hypotheses) for s in range(len(hypothesis.states))]
    return Event(tuple(dice.sample(pairs, dice.randint(0, min(3, len(pairs))))))

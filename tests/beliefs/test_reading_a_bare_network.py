"""A bare network from JSON: what is taken, and what is refused with a sentence."""

from __future__ import annotations

import json

import pytest
import typer
from typer.testing import CliRunner

from app.commands.infer import infer_command
from app.network.oracle_form import FLAT, GROUPED, read_bare_network
from app.problem import Refused


def flat_network(**changes):
    network = {
        "schema": FLAT,
        "priors": ["0.1", "0.2"],
        "findings": [
            {"leak": "0.01", "links": [{"h": 0, "q": "0.5"}, {"h": 1, "q": 0.25}]},
            {"leak": "0", "links": []},
        ],
        "evidence": {"positive": [0], "negative": [], "soft_lr": {"1": "2"}},
        "tests": [1],
    }
    return network | changes


def grouped_network(**changes):
    states = [{"weight": "0.9", "effects": []}, {"weight": "0.1", "effects": [{"finding": 0, "q": "0.5"}]}]
    network = {
        "findings": [{"leak": "0.01", "report": "present"}, {"leak": "0.1", "report": None}],
        "hypotheses": [{"states": states}],
        "documents": [],
        "tests": [1],
        "events": [{"any_of": [[0, 1]]}],
        "complaint": 0,
    }
    return {"schema": GROUPED, "input": network | changes}


def refusals(data) -> str:
    with pytest.raises(Refused) as refused:
        read_bare_network(data)
    return str(refused.value)


def test_a_likelihood_ratio_goes_into_the_weight():
    network = read_bare_network(flat_network()).network
    assert [state.weight for state in network.hypotheses[1].states] == [0.8, 0.4]


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        ([], "The schema “None” is not known."),
        (flat_network(schema="other/3"), "The schema “other/3” is not known."),
        (flat_network(priors=["1.5", "0.2"]), "priors[0]: 1.5 is out of range. It must be between 0 and 1."),
        (flat_network(priors=["x", "0.2"]), "“x” is not a number."),
        (flat_network(priors=["nan", "0.2"]), "out of range"),
        (flat_network(tests=[7]), "tests[0]: “7” is not the index of anything. Use a whole number from 0 to 1."),
        (flat_network(tests=[0]), "Finding 0 already has a report."),
        (flat_network(evidence={"positive": [0], "negative": [0]}), "Finding 0 is both positive and negative."),
        (flat_network(findings="none"), "There is no list “findings”."),
        (grouped_network(complaint=1), "Finding 1 is not reported present."),
        (grouped_network(hypotheses=[{"states": [{"weight": "-1", "effects": []}]}]), "It must be 0 or more."),
        (grouped_network(findings=[{"leak": "0.1", "report": "maybe"}]), "“maybe” is not a report."),
        (grouped_network(events=[{"any_of": [[0, 9]]}]), "“9” is not the index of anything."),
        (
            grouped_network(documents=[{"reliability": "0.5", "normal_if_invented": "0.9", "findings": [1]}]),
            "Finding 1 has no hard report.",
        ),
    ],
)
def test_malformed_networks_are_refused_with_a_sentence(data, sentence):
    assert sentence in refusals(data)


def test_every_problem_is_named_not_only_the_first():
    assert len(refusals(flat_network(priors=["x", "y"], tests=[9])).splitlines()) == 3


def test_groups_nested_without_end_are_refused():
    effects: list = []
    for _ in range(200):
        effects = [{"acts": "0.5", "effects": effects}]
    assert "nested" in refusals(grouped_network(hypotheses=[{"states": [{"weight": "1", "effects": effects}]}]))


def run(tmp_path, text: str, *options: str):
    path = tmp_path / "network.json"
    path.write_text(text)
    command = typer.Typer()
    command.command()(infer_command)
    return CliRunner().invoke(command, [str(path), *options])


def test_the_command_prints_every_figure_as_json(tmp_path):
    result = run(tmp_path, json.dumps(flat_network()), "--json")
    assert result.exit_code == 0
    answer = json.loads(result.stdout)
    # By hand: weights 0.9 and 0.1, 0.8 and 0.4; finding 0 present unless leak, 0.5 and 0.25 all fail.
    present = {(a, b): 1 - 0.99 * (0.5 if a else 1) * (0.75 if b else 1) for a in (0, 1) for b in (0, 1)}
    weight = {(a, b): (0.1 if a else 0.9) * (0.4 if b else 0.8) * present[a, b] for a, b in present}
    whole = sum(weight.values())
    assert answer["posteriors"][0] == pytest.approx((weight[1, 0] + weight[1, 1]) / whole, rel=1e-12)
    assert answer["tests"][0]["p_positive"] == 0.0
    assert answer["tests"][0]["lr_plus"] == [None, None]


def test_the_command_prints_a_table_for_people(tmp_path):
    result = run(tmp_path, json.dumps(grouped_network()))
    assert result.exit_code == 0
    assert "to blame" in result.stdout


@pytest.mark.parametrize(
    ("text", "sentence"), [("[1", "This is not JSON"), ("{}", "is not known"), ("1" * 5000, "JSON")]
)
def test_the_command_refuses_a_bad_file_with_a_sentence(tmp_path, text, sentence):
    result = run(tmp_path, text)
    assert result.exit_code == 2
    assert sentence in result.stderr
    assert result.stdout == ""

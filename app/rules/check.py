"""Whether rules that could be read also make sense: every contradiction and gap, with file and line."""

from __future__ import annotations

from app.problem import Problem
from app.rules.check_chances import check_chances
from app.rules.check_doubles import check_doubles
from app.rules.check_families import check_families
from app.rules.check_pairs import check_pairs
from app.rules.check_sentences import check_sentences
from app.rules.check_units import check_units
from app.rules.check_use import check_use
from app.rules.check_work import check_work
from app.rules.library import Rules

CHECKS = (
    check_chances,
    check_sentences,
    check_doubles,
    check_units,
    check_families,
    check_use,
    check_pairs,
    check_work,
)


def check_rules(rules: Rules) -> tuple[Problem, ...]:
    """Every problem in rules that could be read, in the order of files and lines; none: the rules may be used."""
    found = [problem for check in CHECKS for problem in check(rules)]
    return tuple(sorted(dict.fromkeys(found), key=_place_in_files))


def _place_in_files(problem: Problem) -> tuple[str, int]:
    file, _, line = problem.where.rpartition(":")
    return file, int(line) if line.isdigit() else 0

"""Reads the rules folder from disk."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from app.problem import Problem, Refused
from app.rules.library import Rules
from app.rules.read import read_rules


def read_texts(folder: Path) -> Mapping[str, str]:
    """Every rule file's text by its name relative to the folder; raises `Refused` where one cannot be read."""
    if not folder.is_dir():
        raise Refused([Problem(str(folder), "There is no such rules folder.", "Check PROOFBAY_RULES_DIR.")])
    texts, problems = {}, []
    for path in sorted(folder.rglob("*.yaml")):
        name = path.relative_to(folder).as_posix()
        try:
            texts[name] = path.read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError) as error:
            problems.append(Problem(name, f"The file cannot be read: {error}.", "Save it as UTF-8 text."))
    if problems:
        raise Refused(problems)
    return texts


def load_rules(folder: Path) -> Rules:
    """The rules of this folder; raises `Refused` with every problem, each with file and line."""
    rules, problems = read_rules(read_texts(folder))
    if rules is None:
        raise Refused(problems)
    return rules

"""Reads the rules folder from disk."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from app.problem import Problem, Refused
from app.rules.library import Rules
from app.rules.read import NOTHING, read_rules

CHANGES = "changes.txt"


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


def load_rules(folder: Path, own: Path | None = None) -> Rules:
    """The rules of this folder with the shop's own laid over them; raises `Refused` with every problem."""
    rules, problems = read_rules(read_texts(folder), own_texts(own) if own else NOTHING)
    if rules is None:
        raise Refused(problems)
    return rules


def own_texts(folder: Path) -> Mapping[str, str]:
    """The shop's own rule files; none where the shop has changed nothing yet."""
    return read_texts(folder) if folder.is_dir() else NOTHING


def write_own(folder: Path, texts: Mapping[str, str], said: str) -> None:
    """Replaces the shop's own rule files whole, one by one; `said` is one line for the list of changes."""
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if not text:
            path.unlink(missing_ok=True)
            continue
        fresh = path.with_suffix(".new")
        fresh.write_text(text, encoding="utf-8")
        fresh.replace(path)
    folder.mkdir(parents=True, exist_ok=True)
    with (folder / CHANGES).open("a", encoding="utf-8") as changes:
        changes.write(" ".join(said.split()) + "\n")


def own_changes(folder: Path) -> tuple[str, ...]:
    """What was changed, when and by whom, the newest first."""
    path = folder / CHANGES
    return tuple(reversed(path.read_text(encoding="utf-8").splitlines())) if path.is_file() else ()

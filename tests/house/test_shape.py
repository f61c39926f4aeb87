"""What a linter of imports cannot see: sizes, names, and no clock, file or dice in the pure rooms."""

import ast
from pathlib import Path

import pytest

PROJECT = Path(__file__).parents[2]
APP = PROJECT / "app"
PURE = (
    "vehicle",
    "measurements",
    "rules",
    "evidence",
    "network",
    "beliefs",
    "advice",
    "proof",
    "board",
    "earlier_work",
)
FORBIDDEN_NAMES = {"utils", "helpers", "common", "misc", "base", "core", "manager", "service", "handler"}
FORBIDDEN_CALLS = {"today", "now", "utcnow", "time", "open", "random", "default_rng", "getenv"}
TOP_LEVEL = {
    "README.md", "DEVELOPERS.md", "pyproject.toml", "LICENSE", "Makefile",
    "app", "templates", "static", "migrations", "tests", "seed_data",
}  # fmt: skip

FILES = sorted(APP.rglob("*.py"))


def functions(tree: ast.AST) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    return [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]


def test_there_are_files_to_look_at() -> None:
    assert len(FILES) > 50


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(PROJECT)))
def test_no_file_is_over_400_lines_and_no_function_over_40(path: Path) -> None:
    text = path.read_text()
    assert text.count("\n") <= 400
    long = [f.name for f in functions(ast.parse(text)) if (f.end_lineno or 0) - f.lineno + 1 > 40]
    assert not long, f"functions over 40 lines: {long}"


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(PROJECT)))
def test_nothing_is_called_a_dump(path: Path) -> None:
    names = {part.removesuffix(".py") for part in path.relative_to(APP).parts}
    assert not names & FORBIDDEN_NAMES


@pytest.mark.parametrize("room", PURE)
def test_pure_rooms_have_no_clock_file_or_dice(room: str) -> None:
    found = []
    for path in (APP / room).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call):
                function = node.func
                name = function.attr if isinstance(function, ast.Attribute) else getattr(function, "id", "")
                if name in FORBIDDEN_CALLS:
                    found.append(f"{path.name}:{node.lineno} {name}")
    assert not found


def test_every_room_is_empty_at_its_door() -> None:
    full = [str(p) for p in APP.rglob("__init__.py") if p.read_text().strip()]
    assert not full


def test_the_top_level_holds_what_it_should() -> None:
    """In a working copy ignored folders (.venv, .data …) lie beside it; those start with a dot."""
    names = {p.name for p in PROJECT.iterdir() if not p.name.startswith(".")}
    assert names - {"bench-out", "test-results"} == TOP_LEVEL


def test_no_registry_host_stands_in_any_file() -> None:
    hosts = ("pypi" + ".org", "pythonhosted" + ".org", "npmjs" + ".org", "deb" + ".debian" + ".org")
    found = [
        str(path)
        for path in PROJECT.rglob("*")
        if path.is_file()
        and not any(part.startswith(".") or part == "vendor" for part in path.relative_to(PROJECT).parts)
        and path.suffix in {".py", ".toml", ".md", ".yaml", ".html", ".js", ".css", ""}
        and any(host in path.read_text(errors="ignore") for host in hosts)
    ]
    assert not found

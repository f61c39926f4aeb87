"""The import contracts of pyproject.toml hold (DESIGN section 3: one direction, a pure middle)."""

import subprocess
import sys
from pathlib import Path

PROJECT = Path(__file__).parents[2]


def test_every_import_contract_is_kept() -> None:
    linter = Path(sys.executable).with_name("lint-imports")
    done = subprocess.run([linter, "--no-cache"], cwd=PROJECT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout
    assert "0 broken" in done.stdout

"""The layers of the house, as configured in pyproject.toml."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]


def test_every_import_goes_down() -> None:
    code = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout

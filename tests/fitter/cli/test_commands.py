"""The commands as a user calls them: exit codes, streams and files."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[3]
EXAMPLES = ROOT / "examples"
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}


def run(*words: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Call the command line in a process of its own."""
    code = "from fitter.cli import main; main()"
    call = [sys.executable, "-c", code, *words]
    return subprocess.run(call, cwd=cwd, env=ENVIRONMENT, capture_output=True, text=True, check=False)


def test_fit_writes_the_plan_and_keeps_standard_output_for_the_table(tmp_path: Path) -> None:
    done = run("fit", str(EXAMPLES / "deck.yaml"), cwd=tmp_path)
    assert done.returncode == 0
    assert {path.name for path in tmp_path.iterdir()} == {"deck-plan.pdf", "deck-plan.svg", "deck-plan.png"}
    assert "wrote" in done.stderr
    assert "wrote" not in done.stdout


def test_a_typo_is_refused_with_its_line_and_the_nearest_word(tmp_path: Path) -> None:
    text = (EXAMPLES / "deck.yaml").read_text().replace("cushions:", "cushoins:")
    (tmp_path / "typo.yaml").write_text(text)
    done = run("fit", "typo.yaml", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == ""
    assert "typo.yaml:" in done.stderr
    assert "cushions" in done.stderr


def test_help_loads_no_heavy_library(tmp_path: Path) -> None:
    code = (
        "import sys, fitter.cli; "
        "print([m for m in ('z3', 'shapely', 'numpy', 'matplotlib', 'pydantic') if m in sys.modules])"
    )
    call = [sys.executable, "-c", code]
    done = subprocess.run(call, cwd=tmp_path, env=ENVIRONMENT, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"

"""Whole-process times as ratios against stated references in the same run; run by hand.

Usage: python tests/bench/whole_process.py [RUNS]

Each command and its reference run in turn, and the median of the pairwise ratios is printed:
- `fitter --help` against `python -c "import typer"` (aim: at most 2.5);
- `fitter fit --json` on each example against a process that only imports the libraries (aim: median at most 3).
Run it with the interpreter of an environment into which the project was installed, so that both sides are compiled.
"""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path
from statistics import median

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
TYPER = [sys.executable, "-c", "import typer"]
LIBRARIES = [sys.executable, "-c", "import z3, shapely, pydantic, typer, ruamel.yaml"]
FITTER = [sys.executable, "-m", "fitter"]


def seconds(command: list[str]) -> float:
    """Wall seconds of one process, from start to end."""
    start = time.perf_counter()
    # Away from the checkout, so that the installed package is timed.
    subprocess.run(command, cwd=Path(__file__).parent, capture_output=True, check=False)
    return time.perf_counter() - start


def ratio(command: list[str], reference: list[str], runs: int) -> float:
    """The median ratio of command to reference over `runs` pairs, after one pair that is not counted."""
    pairs = [seconds(command) / seconds(reference) for _ in range(runs + 1)]
    return median(pairs[1:])


def main() -> None:
    """Print a line for each ratio."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    print(f"fitter --help / import typer: {ratio([*FITTER, '--help'], TYPER, runs):.2f}")
    ratios = {}
    for path in EXAMPLES:
        ratios[path.stem] = ratio([*FITTER, "fit", str(path), "--json"], LIBRARIES, runs)
        print(f"fit --json {path.stem} / imports: {ratios[path.stem]:.2f}")
    print(f"median over the examples: {median(ratios.values()):.2f}, worst {max(ratios.values()):.2f}")


if __name__ == "__main__":
    main()

"""What two jobs bring to a catalogue of fifty cushions: by hand, `PYTHONPATH=. python tests/bench/catalogue.py [RUNS]`.

One after another and with two jobs, in turn, whole and in wall time; the start of the worker processes is part of it,
for the first run only. Each result is compared with the first. Aim: a ratio of at least 1.6 on two free cores.
"""

from __future__ import annotations

import os
import statistics
import sys
import time
from collections.abc import Sequence
from pathlib import Path

from fitter.domain.catalogue import Candidate
from fitter.project.catalogue import read_catalogue
from fitter.project.mould import Mould
from fitter.workflow.cataloguing import Tried, cores, try_all

EXAMPLES = Path(__file__).parents[2] / "examples"


def timed(candidates: Sequence[Candidate], jobs: int) -> tuple[float, Tried]:
    """Wall seconds, and what came out."""
    started = time.perf_counter()
    tried = try_all(candidates, jobs)
    return time.perf_counter() - started, tried


def main() -> None:
    """Print a line for each pair of runs, and the median ratio."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    mould = Mould(str(EXAMPLES / "garden-wall.yaml"))
    candidates = mould.candidates(read_catalogue(str(EXAMPLES / "catalogue.csv"), mould.unit))
    print(f"{len(candidates)} cushions, {cores()} cores")
    ratios, first = [], None
    for run in range(1, runs + 1):
        alone, serial = timed(candidates, 1)
        together, parallel = timed(candidates, 2)
        first = first or serial
        same = first == serial == parallel
        ratios.append(alone / together)
        told = "same results" if same else "RESULTS DIFFER"
        print(f"run {run}: one job {alone:6.2f} s, two jobs {together:6.2f} s, ratio {ratios[-1]:.2f}; {told}")
    print(f"median ratio {statistics.median(ratios):.2f}")


if __name__ == "__main__":
    main()

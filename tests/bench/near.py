"""How long looking for what the next seat would cost takes, against one fit; run by hand.

Usage: PYTHONPATH=. python tests/bench/near.py [EXAMPLE …]

Processor seconds of one whole fit, of the near misses that are looked for unasked and of all of them, each as a
multiple of the fit in the same process; and how many changes were found.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from fitter.domain.near import Looked
from fitter.project import read_project
from fitter.workflow.cures.near import near_misses
from fitter.workflow.fitting import fit

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("garden-wall", "courtyard", "terrace-mm")

_T = TypeVar("_T")


def timed(work: Callable[[], _T]) -> tuple[_T, float]:
    """What comes out, and the processor seconds it took."""
    start = time.process_time()
    return work(), time.process_time() - start


def main() -> None:
    print(f"{'example':18} {'fit':>8} {'unasked':>16} {'all':>16}")
    for name in sys.argv[1:] or NAMES:
        project = read_project(str(EXAMPLES / f"{name}.yaml"))
        fit(project)  # what is loaded and remembered once
        found, one = timed(lambda project=project: fit(project))  # type: ignore[misc]
        assert found.layout is not None
        told = []
        for looked in (Looked.EASY, Looked.ALL):
            near, spent = timed(lambda p=project, a=looked, f=found: near_misses(p, f.layout, a))  # type: ignore[misc]
            told.append(f"{len(near.misses):3} in {spent / one:5.1f} fits")
        print(f"{name:18} {one:6.2f} s {told[0]:>16} {told[1]:>16}", flush=True)


if __name__ == "__main__":
    main()

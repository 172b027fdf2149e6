"""What all corner treatments cost beside one fit: by hand, `PYTHONPATH=. python tests/bench/corners.py [EXAMPLE …]`.

Processor time of this process and of the solvers that it starts; and the time on the clock, for which the solvers
share the cores.
"""

from __future__ import annotations

import resource
import sys
import time
from collections.abc import Callable
from pathlib import Path

from fitter.domain.wishes import Shape
from fitter.project import read_project
from fitter.workflow.cornering import corner_trade_off
from fitter.workflow.fitting import fit

EXAMPLES = Path(__file__).parents[2] / "examples"


def spent() -> float:
    """Processor seconds so far, those of ended children included."""
    who = resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN
    return sum(use.ru_utime + use.ru_stime for use in map(resource.getrusage, who))


def measured(work: Callable[[], object]) -> tuple[float, float]:
    """Processor seconds and seconds on the clock."""
    before, started = spent(), time.monotonic()
    work()
    return spent() - before, time.monotonic() - started


def main(names: list[str]) -> None:
    """Print a line for each example that may have a corner."""
    print("example           one fit  all corners  ratio  ratio on the clock")
    for path in [EXAMPLES / f"{name}.yaml" for name in names] or sorted(EXAMPLES.glob("*.yaml")):
        project = read_project(str(path))
        if project.wish.shape is Shape.STRAIGHT:
            continue
        one, clock = measured(lambda p=project: fit(p, apart=True))  # type: ignore[misc]
        every, whole = measured(lambda p=project: corner_trade_off(p))  # type: ignore[misc]
        print(f"{path.stem:17} {one:5.2f} s  {every:9.2f} s  {every / one:5.1f}  {whole / clock:18.1f}", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])

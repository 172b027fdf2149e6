"""How many solves a sweep takes, and how long against one fit; run by hand.

Usage: PYTHONPATH=. python tests/bench/sweeps.py

Each number of an example is swept over a range, once in steps and once in steps a quarter as long: values, changes,
solves, and processor seconds as a multiple of those of one whole fit of the same file in the same process. Four times
as many values halve twice more for each change; the rest of the time is reading the file anew for every value.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from fitter.domain.sweeps import Shown
from fitter.project import read_project
from fitter.project.varying import read_variable
from fitter.workflow.fitting import fit
from fitter.workflow.sweeping import sweep

EXAMPLES = Path(__file__).parents[2] / "examples"
SWEEPS = (
    ("garden-wall", "room.routes.0.width=20..60", ("1/4", "1/16"), (Shown.SEATS, Shown.LAYOUT)),
    ("garden-wall", "wish.legroom=12..72", ("1/4", "1/16"), (Shown.SEATS, Shown.LAYOUT)),
    ("garden-wall", "cushions.0.price=60..140", ("1", "0.25"), (Shown.SEATS, Shown.COST, Shown.BUY)),
    ("garden-wall", "shop.boards.0.price=10..40", ("0.20", "0.05"), (Shown.COST,)),
    ("garden-wall", "frame.max_span=26..100", ("1", "1/4"), (Shown.SEATS,)),
    ("garden-wall", "cushions.1.ease=0..2", ("1/4", "1/16"), (Shown.SEATS,)),
    ("courtyard", "room.routes.0.width=28..48", ("1/2", "1/8"), (Shown.SEATS, Shown.LAYOUT)),
    ("courtyard", "room.obstacles.fire bowl.clear=0..48", ("1", "1/4"), (Shown.SEATS,)),
)

_T = TypeVar("_T")


def timed(work: Callable[[], _T]) -> tuple[_T, float]:
    """What comes out, and the processor seconds it took."""
    start = time.process_time()
    return work(), time.process_time() - start


def main() -> None:
    fits = {}
    for name in dict.fromkeys(name for name, *_ in SWEEPS):
        project = read_project(str(EXAMPLES / f"{name}.yaml"))
        fit(project)  # what is loaded and remembered once
        _, fits[name] = timed(lambda project=project: fit(project))  # type: ignore[misc]
        print(f"one fit of {name}: {fits[name]:.2f} s")
    print(f"\n{'number':52} {'values':>6} {'changes':>7} {'solves':>6} {'fits':>6}")
    for name, key, steps, shown in SWEEPS:
        for step in steps:
            variable = read_variable(str(EXAMPLES / f"{name}.yaml"), f"{key}:{step}")
            found, spent = timed(lambda variable=variable, shown=shown: sweep(variable, shown))  # type: ignore[misc]
            changes = len(found.stretches) - 1
            label = f"{name} {key}:{step}"
            print(f"{label:52} {found.values:6} {changes:7} {found.solves:6} {spent / fits[name]:6.1f}", flush=True)


if __name__ == "__main__":
    main()

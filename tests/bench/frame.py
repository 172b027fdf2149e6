"""Time of the frame and of its proof, against the fit and against the length of a run; run by hand.

Usage: PYTHONPATH=. python tests/bench/frame.py [RUNS]

All times are processor seconds. First the shipped examples: of the frame and of its proof, each the median of RUNS (5
if not given) after one that is not counted, and their sum as a ratio to the fit of the same example, which was timed
once, just before. Then straight runs of 4 to 64 modules in a project that is otherwise the courtyard example: parts,
seconds, seconds a part, and the exponent of growth since the size before: the time grows as parts ** exponent.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise
from math import log
from pathlib import Path
from statistics import median

if __name__ == "__main__":
    sys.path.append(str(Path(__file__).parents[1] / "fitter"))

from hand_built import Chain, Row, lay_out

from fitter.checking import check_woodwork
from fitter.domain.cushions import Option
from fitter.domain.layout import Layout, Pose
from fitter.domain.project import Project
from fitter.frame import build_frame
from fitter.project import read_project
from fitter.workflow.fitting import fit
from rooms.geometry import Point
from rooms.lengths import ZERO, Length

EXAMPLES = Path(__file__).parents[2] / "examples"
SIZES = (4, 8, 16, 32, 64)
BETWEEN_POSTS = 3  # modules; three of the courtyard's cushions keep its longest span


def seconds(work: Callable[[], object], runs: int) -> float:
    """Median processor seconds of some work, after one time that is not counted."""
    times = []
    for _ in range(runs + 1):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return median(times[1:])


def both(project: Project, layout: Layout, runs: int) -> tuple[int, float, float, int]:
    """Parts of a frame, seconds to build it and to prove it, and what the proof holds against it."""
    woodwork = build_frame(project, layout)
    faults = check_woodwork(project, layout, woodwork)
    built = seconds(lambda: build_frame(project, layout), runs)
    proven = seconds(lambda: check_woodwork(project, layout, woodwork), runs)
    return len(woodwork.parts), built, proven, len(faults)


def straight(project: Project, count: int) -> Layout:
    """A straight run of so many modules, with a post after every third one, as far as there is room or not."""
    lines = tuple(range(BETWEEN_POSTS, count, BETWEEN_POSTS))
    row = Row(Option(project.cushions[0]), count, lines, lines)
    pose = Pose(Point(ZERO, ZERO), Fraction(1), Fraction(0), project.room.edges[0].name)
    return lay_out(project, pose, Chain(Length.inches(40), Length.inches(5), row))


def examples(runs: int) -> None:
    """A line for each example that has a layout."""
    print(f"{'example':<16}{'parts':>7}{'frame s':>10}{'proof s':>10}{'fit s':>9}{'ratio':>8}")
    ratios = []
    for path in sorted(EXAMPLES.glob("*.yaml")):
        project = read_project(str(path))
        start = time.process_time()
        found = fit(project)
        whole = time.process_time() - start
        if found.layout is None:
            continue
        parts, built, proven, faults = both(project, found.layout, runs)
        ratios.append((built + proven) / whole)
        told = f"{path.stem:<16}{parts:>7}{built:>10.3f}{proven:>10.3f}{whole:>9.2f}{ratios[-1]:>8.3f}"
        print(told + (f"  {faults} faults" if faults else ""))
    print(f"ratio: median {median(ratios):.3f}, worst {max(ratios):.3f}")


def growth(runs: int) -> None:
    """A line for each length of run, with the exponent since the one before."""
    project = read_project(str(EXAMPLES / "courtyard.yaml"))
    print(f"\n{'modules':<9}{'parts':>7}{'frame s':>10}{'proof s':>10}{'ms a part':>11}{'exponent':>10}")
    found: list[tuple[int, float]] = []
    for size in SIZES:
        parts, built, proven, faults = both(project, straight(project, size), runs)
        found.append((parts, built + proven))
        grown = [log(t1 / t0) / log(n1 / n0) for (n0, t0), (n1, t1) in pairwise(found)]
        told = f"{size:<9}{parts:>7}{built:>10.3f}{proven:>10.3f}{1000 * (built + proven) / parts:>11.2f}"
        print(told + (f"{grown[-1]:>10.2f}" if grown else "") + (f"  {faults} faults" if faults else ""))


if __name__ == "__main__":
    asked = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    examples(asked)
    growth(asked)

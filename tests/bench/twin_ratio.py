"""The model's time beside that of the CP-SAT twin on random projects; run by hand.

Usage: PYTHONPATH=.:tests/crosscheck python tests/bench/twin_ratio.py [FIRST] [LAST]

For each seed from FIRST to LAST (0 and 39 if not given) both are asked once, proof included, one thread each. Times are
processor seconds:
- model: `fitter.model.solve`, all six objectives, then the order among equal answers, or the minimal clash;
- four: the same until the last of the objectives that the twin knows is proven (seats, whole cushions, to buy, posts);
- twin: the same four objectives in one weighted sum, one worker, its Python model building included.

The last lines are the median and the worst of model / twin and of four / twin, and how the model's time divides:
the share until a first layout stands, for each objective, and for what follows them.
"""

from __future__ import annotations

import sys
import time
from dataclasses import dataclass, field
from statistics import median

from random_projects import projects
from twin import COUNTED, best_answer

from fitter.domain.wishes import Objective
from fitter.model import solve

REST = "rest"


@dataclass
class Clock:
    """When the model told what.

    Args:
        start: processor seconds when it was asked.
        until: for each objective when it was last spoken of, that is when it was proven.
    """

    start: float = field(default_factory=time.process_time)
    until: dict[Objective, float] = field(default_factory=dict)

    def told(self, objective: Objective, best: int, bound: int | None, seconds: float) -> None:
        """A step of the model."""
        self.until[objective] = time.process_time() - self.start

    def four(self, whole: float) -> float:
        """Seconds until all that the twin judges is proven; the whole where there is no layout."""
        return max((self.until[o] for o in COUNTED if o in self.until), default=whole)

    def shares(self, whole: float) -> dict[str, float]:
        """Seconds for each objective, and for the rest."""
        found, before = {}, 0.0
        for objective, seconds in self.until.items():
            found[str(objective)] = seconds - before
            before = seconds
        return {**found, REST: whole - before}


def main() -> None:
    """Print a line for each project, then what they come to."""
    first, last = (int(part) for part in (*sys.argv[1:3], *("0", "39")[len(sys.argv) - 1 :]))
    ratios, fours, shares = [], [], {}
    for seed in range(first, last + 1):
        project, clock = projects(seed), Clock()
        start = time.process_time()
        answer = solve(project, progress=clock.told)
        model = time.process_time() - start
        start = time.process_time()
        best_answer(project)
        twin = time.process_time() - start
        ratios.append(model / twin)
        fours.append(clock.four(model) / twin)
        for name, seconds in clock.shares(model).items():
            shares[name] = shares.get(name, 0.0) + seconds
        print(
            f"{project.title:<32} {answer.verdict!s:<11} model {model:7.2f} s  four {clock.four(model):7.2f} s"
            f"  twin {twin:6.2f} s  model/twin {ratios[-1]:6.2f}  four/twin {fours[-1]:6.2f}",
            flush=True,
        )
    print(f"model/twin: median {median(ratios):.2f}, worst {max(ratios):.2f}")
    print(f"four/twin:  median {median(fours):.2f}, worst {max(fours):.2f}")
    whole = sum(shares.values())
    for name, seconds in shares.items():
        print(f"{name:<20} {seconds / whole:5.0%} of the model's time")


if __name__ == "__main__":
    main()

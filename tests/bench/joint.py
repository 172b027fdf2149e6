"""What choosing posts together with boards adds to a fit: by hand, `PYTHONPATH=. python tests/bench/joint.py`.

Each example is fitted with the boards of its file and then as if none of them had a price, one after the other, in
processor time of one process.
"""

from __future__ import annotations

import statistics
import time
from dataclasses import replace
from pathlib import Path

from fitter.domain.project import Project
from fitter.project import read_project
from fitter.workflow.fitting import fit

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))


def seconds(project: Project) -> float:
    """Processor time of one fit."""
    started = time.process_time()
    fit(project)
    return time.process_time() - started


def main() -> None:
    """Print a line for each example, and the median."""
    ratios = []
    print("example           priced    unpriced  added, in fits")
    for path in EXAMPLES:
        project = read_project(str(path))
        boards = tuple(replace(board, price=None) for board in project.shop.boards)
        kinds = tuple(replace(kind, price=None, own=None if kind.price else kind.own) for kind in project.cushions)
        bare = replace(project, shop=replace(project.shop, boards=boards), cushions=kinds)
        with_prices, without = seconds(project), seconds(bare)
        ratios.append(with_prices / without - 1)
        print(f"{path.stem:17} {with_prices:6.2f} s  {without:6.2f} s  {ratios[-1]:6.2f}")
    print(f"median {statistics.median(ratios):.2f}")


if __name__ == "__main__":
    main()

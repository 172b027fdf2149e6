"""How long it takes to tell why nothing fits, as a multiple of one plain fit; run by hand.

Usage: PYTHONPATH=. python tests/bench/why.py [FILE ...]

For every impossible example: processor seconds of one fit (the median of seven), of the clash with its steps after it,
and of all cures, each as a multiple of the fit of the same file in the same process; the questions that were put; and
which kinds of change took most of it. Limits: the clash within three fits, all of it within twenty.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from functools import partial
from pathlib import Path
from statistics import median

from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.project import read_project
from fitter.workflow.cures.explaining import Explainer
from fitter.workflow.cures.written import with_changes
from fitter.workflow.fitting import fit

EXAMPLES = Path(__file__).parents[2] / "examples"
FIRST, ALL = 3.0, 20.0
_FITS = 7


class Watch:
    """Adds up processor seconds and questions by what is being tried."""

    def __init__(self, explainer: Explainer) -> None:
        self.explainer = explainer
        self.spent: Counter[str] = Counter()
        self.put: Counter[str] = Counter()
        self.name, self.since, self.asked = "first question", time.process_time(), explainer.questions.asked

    def trying(self, name: str) -> None:
        """What is tried from here on."""
        now, asked = time.process_time(), self.explainer.questions.asked
        self.spent[self.name] += now - self.since
        self.put[self.name] += asked - self.asked
        self.name, self.since, self.asked = name, now, asked


def _timed(project: Project) -> float:
    """Processor seconds of one fit."""
    start = time.process_time()
    fit(project)
    return time.process_time() - start


def measure(path: Path) -> bool:
    """One file, printed; whether it keeps the limits."""
    project = read_project(str(path))
    if fit(project).verdict is not Verdict.IMPOSSIBLE:  # and what is loaded and remembered once
        return True
    # A fit of a small room takes so little that one alone says nothing.
    plain, result = median(_timed(project) for _ in range(_FITS)), fit(project)
    explainer = Explainer(project, None, partial(with_changes, project))
    start = time.process_time()
    clash = explainer.clash(tuple(fact.id for fact in result.clash))
    first, asked = time.process_time() - start, explainer.questions.asked
    watch = Watch(explainer)
    why = explainer.why(clash, watch.trying)
    watch.trying("")
    every = time.process_time() - start
    told, whole = first / plain, every / plain
    print(f"{path.stem}: a fit {plain:.2f} s; the clash {told:.1f} fits ({asked} questions),")
    print(f"  all of it {whole:.1f} fits ({explainer.questions.asked} questions, {len(why.cures)} cures); most of it:")
    for name, spent in watch.spent.most_common(4):
        print(f"    {spent / plain:5.1f} fits, {watch.put[name]:3} questions: {name}")
    return told <= FIRST and whole <= ALL


def main() -> None:
    """The files named, else every example that is impossible."""
    paths = [Path(name) for name in sys.argv[1:]] or sorted(EXAMPLES.glob("*.yaml"))
    kept = [measure(path) for path in paths]
    print("within the limits" if all(kept) else "NOT within the limits")


if __name__ == "__main__":
    main()

"""The solver in a process of its own: the same answers, a limit that holds, and nothing lost when it is stopped."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from fitter.domain.layout import Answer, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.model import Keep, Progress
from fitter.project import read_project
from fitter.workflow import solving
from fitter.workflow.apart import Child
from fitter.workflow.fitting import fit
from fitter.workflow.solving import SolverError, solved, solved_apart

ROOT = Path(__file__).parents[3]
EXAMPLES = ROOT / "examples"


@pytest.fixture(scope="module")
def project() -> Project:
    return read_project(str(EXAMPLES / "garden-wall.yaml"))


def untimed(answers: tuple[Answer, ...]) -> list[tuple[object, ...]]:
    return [(answer.verdict, answer.layout, answer.proofs, answer.clash) for answer in answers]


def test_answers_are_those_of_this_process(project: Project) -> None:
    assert untimed(solved_apart(project, 3).answers) == untimed(solved(project, 3).answers)


def test_impossible_is_impossible_in_a_child_too() -> None:
    landing = read_project(str(EXAMPLES / "landing.yaml"))
    (answer,) = solved_apart(landing).answers
    assert answer.verdict is Verdict.IMPOSSIBLE
    assert answer.clash


def stubborn(found: Answer | None) -> object:
    """A solver that tells one layout, if any, and then hears no limit at all."""

    def work(
        project: Project, most: int, limit: float | None, progress: Progress | None, keep: Keep, *_: object
    ) -> Iterator[Answer]:
        if found is not None:
            keep(found)
        time.sleep(60)
        yield Answer(Verdict.IMPOSSIBLE, None, ())

    return work


def test_limit_ends_a_solver_that_does_not_heed_it(project: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    (best,) = solved(project).answers
    monkeypatch.setattr(solving, "solutions", stubborn(Answer(Verdict.FOUND, best.layout, best.proofs)))
    told = solved_apart(project, limit=0.2)
    assert [(answer.verdict, answer.layout) for answer in told.answers] == [(Verdict.FOUND, best.layout)]
    assert not told.interrupted


def test_limit_without_any_layout_is_unknown(project: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solving, "solutions", stubborn(None))
    (answer,) = solved_apart(project, limit=0.2).answers
    assert (answer.verdict, answer.layout) == (Verdict.UNKNOWN, None)


def test_failure_in_the_child_is_told_with_its_traceback(project: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> Iterator[Answer]:
        message = "a wheel came off"
        raise ZeroDivisionError(message)

    monkeypatch.setattr(solving, "solutions", fail)
    with pytest.raises(SolverError, match="a wheel came off"):
        solved_apart(project)


def test_child_that_dies_is_our_mistake_and_not_an_answer(project: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solving, "solutions", lambda *_: os._exit(9))
    with pytest.raises(SolverError, match="by itself"):
        solved_apart(project)


INTERRUPTED = """
import os, signal, sys, time
# A job in the background is started deaf to interruptions.
signal.signal(signal.SIGINT, signal.default_int_handler)
from fitter.workflow import solving
from fitter.workflow.apart import Child
real, objectives = solving.solutions, int(sys.argv.pop(1))
def slow(project, most, limit, progress, keep, costing, asked):
    def kept(answer):
        if len(answer.proofs) >= objectives:
            os.kill(os.getppid(), signal.SIGINT)
            time.sleep(60)
        keep(answer)
    return real(project, most, limit, progress, kept, costing, asked)
solving.solutions = slow
from fitter.cli import main
main()
"""


def interrupted(objectives: int) -> subprocess.CompletedProcess[str]:
    """A fit that gets the user's Ctrl-C when it has worked on so many objectives."""
    call = [sys.executable, "-c", INTERRUPTED, str(objectives), "fit", "examples/garden-wall.yaml", "--json"]
    return subprocess.run(
        call, cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=False
    )


def test_interruption_before_any_layout_is_unknown() -> None:
    done = interrupted(0)
    assert done.returncode == 130, done.stderr
    document = json.loads(done.stdout)
    assert (document["outcome"], document["interrupted"], document["layouts"]) == ("unknown", True, [])


def test_interruption_shows_the_best_so_far_and_says_so() -> None:
    done = interrupted(3)
    assert done.returncode == 130, done.stderr
    document = json.loads(done.stdout)
    assert (document["outcome"], document["interrupted"]) == ("found", True)
    assert document["layouts"][0]["seats"] == 6


def test_several_layouts_come_in_order_and_differ(project: Project) -> None:
    result = fit(project, layouts=4)
    assert [found.rank for found in result.layouts] == [1, 2, 3, 4]
    values = [tuple(proof.value for proof in found.proofs) for found in result.layouts]
    greater = {Objective.SEATS}
    signs = [-1 if objective in greater else 1 for objective in project.wish.prefer]
    keys = [tuple(sign * value for sign, value in zip(signs, row, strict=True)) for row in values]
    assert keys == sorted(keys)


def test_no_further_layout_is_a_proof(tmp_path: Path) -> None:
    """A wall that holds just one seat, in just one way within a foot."""
    text = """
    units: in
    room:
      tolerance: 0
      corners: {A: [0, 0], B: [30, 0], C: [30, 60], D: [0, 60]}
    cushions: [{name: pad, size: [24, 24, 4], price: 1}]
    wish: {shape: straight, against: [AB], off_wall: 1"}
    """
    path = tmp_path / "niche.yaml"
    path.write_text("\n".join(line[4:] for line in text.splitlines()), encoding="utf-8")
    result = fit(read_project(str(path)), layouts=3)
    assert len(result.layouts) == 1
    assert (result.verdict, result.exhausted) == (Verdict.PROVEN, True)


def test_child_ends_when_nobody_listens_any_more(project: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    """As when the parent is killed: it must not wait for a reader that is nobody but itself."""

    def telling(
        asked: Project, most: int, limit: float | None, progress: Progress | None, keep: Keep, *_: object
    ) -> Iterator[Answer]:
        while True:
            keep(Answer(Verdict.UNKNOWN, None, (), (), 0.0))
        yield

    monkeypatch.setattr(solving, "solutions", telling)
    child = Child(solving.work_on(project, 1, None), None, solving.NAME)
    child.pipe.poll(None)
    child.pipe.close()
    child.process.join(20)
    alive = child.process.is_alive()
    child.process.kill()
    assert not alive

"""Answers to random projects, asked once, and how two of them compare."""

from __future__ import annotations

from functools import cache

from random_projects import projects

from fitter.domain.layout import Answer, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.model import solve


@cache
def answer(seed: int) -> Answer:
    """The answer to a random project, asked once."""
    return solve(projects(seed))


def values(found: Answer) -> tuple[Verdict, tuple[tuple[Objective, int, int], ...]]:
    """Verdict and the value and bound of every objective, in order."""
    return found.verdict, tuple((proof.objective, proof.value, proof.bound) for proof in found.proofs)


def rank(found: Answer, project: Project, *, but: tuple[Objective, ...] = ()) -> tuple[int, ...]:
    """Values in the order of the objectives, more being better, up to the first of those left out.

    Args:
        found: a proven answer, or one that is proven impossible, whose rank is below all others.
        project: for the order of its objectives.
        but: objectives that cannot be compared.
    """
    assert found.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE)
    if found.layout is None:
        return ()
    worth: list[int] = [1]
    for objective, proof in zip(project.wish.prefer, found.proofs, strict=True):
        assert proof.objective is objective
        if objective in but:
            break
        worth.append(proof.value if objective is Objective.SEATS else -proof.value)
    return tuple(worth)

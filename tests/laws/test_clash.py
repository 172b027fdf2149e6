"""What clashes cannot hold together; what a clash leaves out does not matter."""

from __future__ import annotations

import pytest
from answers import answer
from random_projects import projects
from reducing import reduced

from fitter.domain.layout import Verdict
from fitter.domain.requirements import requirements
from fitter.model import solve


def clash_holds(seed: int) -> None:
    """A clash is told in the words of the project, is impossible by itself, and needs each of its facts.

    Where a fact is dropped, another clash may come to light, which then must name an edge that the first did not.
    """
    project, found = projects(seed), answer(seed)
    assert found.verdict is Verdict.IMPOSSIBLE
    known = [requirement.id for requirement in requirements(project)]
    assert found.clash
    assert set(found.clash) <= set(known)
    assert solve(reduced(project, found.clash)).verdict is Verdict.IMPOSSIBLE
    for fact in found.clash:
        if fact != "against" and not fact.startswith("edge:"):
            rest = tuple(other for other in found.clash if other != fact)
            without = solve(reduced(project, rest))
            assert without.layout is not None or not set(without.clash) <= set(rest), fact


def test_clashes_are_sound_and_minimal() -> None:
    clashing = [seed for seed in (4, 5, 6) if answer(seed).layout is None]
    assert len(clashing) > 1
    for seed in clashing:
        clash_holds(seed)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(100, 200))
def test_clashes_are_sound_and_minimal_wide(seed: int) -> None:
    if answer(seed).layout is None:
        clash_holds(seed)

"""Cures in rooms of doll size, where every place can be tried: none is smaller, what is idle does not help."""

from __future__ import annotations

import pytest
from exhaustive import best_by_trying
from random_projects import is_skew, tiny_projects

from fitter.domain.project import Project
from fitter.model import any_layout
from fitter.workflow.cures.curing import _grouped, cure_by, levers, nearest_cure
from fitter.workflow.cures.lever import Lever
from fitter.workflow.cures.questions import Questions

COARSE = (1, 2, 3, 5, 8, 11)
"""Steps at which what is said not to help is tried; farther ones are larger rooms, and take long."""
FEW = (2,)
MOST = 12


def fits(project: Project | None) -> bool:
    """Whether anything does, by trying."""
    return project is not None and best_by_trying(project) is not None


def check_lever(ways: list[Lever], questions: Questions) -> str:
    """One lever, or all that move one thing: what came of it."""
    lever = ways[0]
    cure = nearest_cure(ways, questions) if len(ways) > 1 else cure_by(lever, questions)
    if cure is None:
        if lever.name in questions.unsettled:
            return "unsettled"
        tried = [(way, step) for way in ways for step in COARSE if step <= way.steps]
        assert not any(fits(way.at(step)) for way, step in tried), lever.name
        return "idle"
    said = [way for way in ways if way.told(cure.step).says == cure.says]
    assert fits(said[0].at(cure.step)), cure.says
    if cure.smallest:
        smaller = [step for step in range(1, cure.step) if cure.step - step < MOST]
        assert not any(fits(way.at(step)) for way in ways for step in smaller if step <= way.steps), cure.says
    return "cure" if cure.smallest else "some"


def check_tiny(seed: int) -> dict[str, str]:
    """All levers of one impossible project, with what came of each."""
    project = tiny_projects(seed)
    if is_skew(project) or any_layout(project) is not None:
        return {}
    assert not fits(project)
    questions = Questions(project)
    return {ways[0].name: check_lever(ways, questions) for ways in _grouped(levers(project))}


def test_no_smaller_cure_does() -> None:
    found = [came for seed in FEW for came in check_tiny(seed).values()]
    assert "unsettled" not in found
    assert found.count("cure") > 0
    assert found.count("idle") > 9


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [seed for seed in range(160) if seed not in FEW])
def test_no_smaller_cure_does_in_many(seed: int) -> None:
    check_tiny(seed)

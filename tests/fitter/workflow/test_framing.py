"""A layout to its frame: built, proven, and never shown when the proof fails."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from fitter.domain.findings import Finding
from fitter.domain.layout import Layout, Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.woodwork import PartRole, Woodwork
from fitter.frame import build_frame
from fitter.project import read_project
from fitter.workflow import framing
from fitter.workflow.fitting import fit
from fitter.workflow.framing import frame

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def project() -> Project:
    return read_project(str(EXAMPLES / "garden-wall.yaml"))


@pytest.fixture(scope="module")
def found(project: Project) -> FitResult:
    return fit(project)


def test_frame_of_the_best_layout_is_proven(project: Project, found: FitResult) -> None:
    framed = frame(project, found)
    assert framed.woodwork is not None
    assert framed.shown is found.layouts[0]
    assert framed.checked == ()
    assert framed.verdict is Verdict.PROVEN


def test_layout_that_is_only_found_has_a_frame_that_is_only_found(project: Project, found: FitResult) -> None:
    best = replace(found.layouts[0], verdict=Verdict.FOUND)
    framed = frame(project, replace(found, verdict=Verdict.FOUND, layouts=(best,)))
    assert framed.woodwork is not None
    assert framed.verdict is Verdict.FOUND


def test_frame_of_a_layout_that_is_not_there(project: Project, found: FitResult) -> None:
    framed = frame(project, found, 2)
    assert (framed.shown, framed.woodwork) == (None, None)
    assert framed.verdict is Verdict.UNKNOWN
    assert frame(project, replace(found, exhausted=True), 2).verdict is Verdict.IMPOSSIBLE
    assert frame(project, FitResult(Verdict.IMPOSSIBLE)).verdict is Verdict.IMPOSSIBLE


def test_layout_that_is_a_fault_is_not_framed(project: Project, found: FitResult) -> None:
    wrong = replace(found, verdict=Verdict.FAULT, checked=(Finding("rail-length", "a rail is too short"),))
    framed = frame(project, wrong)
    assert framed.woodwork is None
    assert framed.verdict is Verdict.FAULT


@pytest.mark.parametrize("role", [PartRole.CLEAT, PartRole.FOOT, PartRole.UPRIGHT, PartRole.FRONT_RAIL])
def test_frame_that_lacks_a_part_is_a_fault(
    project: Project, found: FitResult, role: PartRole, monkeypatch: pytest.MonkeyPatch
) -> None:
    def lacking(project: Project, layout: Layout) -> Woodwork:
        whole = build_frame(project, layout)
        gone = next(number for number, part in enumerate(whole.parts) if part.role is role)
        kept = [number for number in range(len(whole.parts)) if number != gone]
        place = {number: at for at, number in enumerate(kept)}
        joints = tuple(
            replace(
                joint,
                parts=(place[joint.parts[0]], place[joint.parts[1]]),
                fasteners=tuple(
                    replace(each, through=place[each.through], into=place[each.into]) for each in joint.fasteners
                ),
            )
            for joint in whole.joints
            if gone not in joint.parts
        )
        return replace(whole, parts=tuple(whole.parts[number] for number in kept), joints=joints)

    monkeypatch.setattr(framing, "build_frame", lacking)
    framed = frame(project, found)
    assert framed.checked
    assert framed.verdict is Verdict.FAULT

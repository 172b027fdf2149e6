"""Random frames whose ends have something beyond them; the same for the same seed."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from framed_yards import framed
from yards import Yard, inch

from fitter.checking import check_layout
from fitter.domain.fills import least_width
from fitter.domain.frame import FillLimits
from fitter.domain.wishes import FillKind, FillWish
from fitter.workflow.filling import filled


def filled_yard(seed: int) -> Yard:
    """The random frame of that seed, from the narrowest shelves and arms that can be built to wide ones."""
    random, yard = Random(f"fill {seed}"), framed(seed)
    wish = random.choice((FillWish.SHELF, FillWish.ARM, FillWish.ANY))
    project = replace(yard.project, wish=replace(yard.project.wish, fill=wish, against=None))
    shelf, arm = (least_width(project, kind) for kind in (FillKind.SHELF, FillKind.ARM))
    limits = FillLimits(
        inch(4),
        shelf + project.mark * random.choice((0, 1, 40, 250)),
        arm + project.mark * random.choice((0, 1, 9, 60)),
    )
    project = replace(
        project,
        frame=replace(project.frame, fills=limits),
        wish=replace(project.wish, against=yard.project.wish.against),
    )
    layout = filled(project, yard.layout)
    assert [finding for finding in check_layout(project, layout) if finding.code.startswith("fill")] == []
    return Yard(project, layout)

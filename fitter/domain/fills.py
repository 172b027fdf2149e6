"""What may fill the room that a layout leaves: limits that follow from a project, and cushions with stretched ease."""

from __future__ import annotations

from dataclasses import replace

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Frame
from fitter.domain.layout import Layout, Run, Stretch
from fitter.domain.project import Project
from fitter.domain.wishes import FillKind
from rooms.lengths import Length, Unit

MORE_EASE = (Length.inches("1/2"), Length.millimetres(12))
"""How much more ease a cushion gets at most where its file names no limit, in inches and metric: common practice."""

BETWEEN = (Length.inches(1), Length.millimetres(25))
"""Least opening between the two side frames of a shelf, or the bearers of a wide arm, so that a hand holding a
driver's bit reaches in: common practice."""

TIE = (Length.inches(7), Length.millimetres(180))
"""Shortest tie between the panels of a wide arm, so that both its ends have room for pocket screws: tried on frames of
every section that a file may choose."""


def least_width(project: Project, kind: FillKind) -> Length:
    """The narrowest shelf or addition to an arm that can be built, up to the mark."""
    return narrowest(project.frame, project.unit, kind)


def narrowest(frame: Frame, unit: Unit, kind: FillKind) -> Length:
    """The same before there is a project.

    A shelf has room for the legs of both its sides; an arm for its second panel, and between both for bearers and ties.
    """
    made, mark, system = frame.carpentry, unit.mark, 0 if unit.imperial else 1
    if kind is FillKind.SHELF:
        legs = made.leg.thickness.ceil_to(mark) * 2
        return max(frame.fills.least.ceil_to(mark), (legs + BETWEEN[system]).ceil_to(mark))
    panel, bearers = made.arm.thickness.ceil_to(mark), made.cleat.thickness.ceil_to(mark) * 2
    return (panel + max(TIE[system], bearers + BETWEEN[system])).ceil_to(mark)


def most_width(project: Project, kind: FillKind, run: Run) -> Length:
    """The widest shelf or addition to an arm at an end of a run, down to the mark."""
    limits = project.frame.fills
    widest = limits.arm if kind is FillKind.ARM else limits.widest if limits.widest is not None else run.pitch
    return widest.floor_to(project.mark)


def most_ease(project: Project, cushion: Cushion) -> Length:
    """How much ease a kind of cushion may get."""
    more = MORE_EASE[0 if project.unit.imperial else 1]
    return cushion.ease_most if cushion.ease_most is not None else cushion.ease + more


def marks_to_stretch(project: Project, cushion: Cushion) -> int:
    """By how many whole marks the ease of a kind may grow."""
    return max(0, (most_ease(project, cushion) - cushion.ease).units // project.mark.units)


def with_ease(project: Project, more: tuple[Stretch, ...]) -> Project:
    """The project with more ease for some kinds of cushions."""
    by = {stretch.cushion: stretch.more for stretch in more}
    cushions = tuple(
        replace(cushion, ease=cushion.ease + by[cushion.name], ease_most=most_ease(project, cushion))
        if cushion.name in by
        else cushion
        for cushion in project.cushions
    )
    return replace(project, cushions=cushions)


def eased(project: Project, layout: Layout) -> Project:
    """The project whose cushions have the ease that a layout gives them: what its sizes follow from."""
    return with_ease(project, layout.eased) if layout.eased else project

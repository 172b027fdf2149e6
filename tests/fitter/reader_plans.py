"""Plans for readers, as files written by hand at each size: what a variant says must be what such a file gives."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from functools import cache
from unittest.mock import patch

from fitter.domain.board_list import BoardList
from fitter.domain.designs import Change, changes, design_of
from fitter.domain.layout import Layout
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.variants import Variants
from fitter.domain.woodwork import Part
from fitter.frame import build_frame
from fitter.project import read_project
from fitter.workflow import varying_plan
from fitter.workflow.boards import boards
from fitter.workflow.fitting import fit
from fitter.workflow.varying_plan import variants

Sticks = Counter[tuple[str, str, int, int, int]]

BENCH = """
title: Bench
note: Invented demo data
units: in
room:
  corners: {{A: [0, 0], B: [150, 0], C: [150, 60], D: [0, 60]}}
  edges: {{AB: wall, BC: open, CD: open, DA: open}}
  tolerance: 1/8
cushions:
  - {{name: seat, size: [24, 24, 5], back: [24, 18, 6], ease: 1/4, price: 40{own}}}
  - {{name: double, size: [48, 24, 5], seats: 2, price: 200}}
wish: {{shape: straight, seats: {{least: {count}, most: {count}}}, against: [AB], legroom: 12"}}
shop:
  boards:
    - {{section: 2x8, length: 10', price: 18{have}}}
    - {{section: 4x4, length: 8', price: 12.40}}
"""
"""A straight bench; two singles cost less than a double."""

CORNER = """
title: Corner bench
units: in
room:
  corners: {{A: [0, 0], B: [{width}, 0], C: [{width}, {depth}], D: [0, {depth}]}}
  edges: {{AB: wall, BC: open, CD: open, DA: open}}
  tolerance: 1/8
cushions: [{{name: square, size: [20, 20, 4]{soft}}}]
wish: {{shape: L, hand: {hand}, corner: {corner}, ends: armed, against: [AB], legroom: 12"}}
frame: {{lean: {lean}}}
"""
"""An L of 20 in modules in a room that holds no module more: less than 20 in to spare."""


@cache
def bench(count: int, own: int = 0, have: int = 0) -> Project:
    """A straight bench of so many seats; some cushions and boards may be there already."""
    mine = f", own: {own}" if own else ""
    there = f", have: {have}" if have else ""
    return read_project("bench.yaml", BENCH.format(count=count, own=mine, have=there))


@cache
def corner_bench(
    main: int, arm: int, hand: str = "right", corner: str = "outside post", *, soft: bool = True, lean: int = 0
) -> Project:
    """An L of that many modules in a room made for it."""
    width, depth = (4 + 20 * (1 + count) + 15 for count in (main, arm))
    told = "" if soft else ", may_notch: no"
    text = CORNER.format(width=width, depth=depth, hand=hand, corner=corner, soft=told, lean=lean)
    return read_project("corner.yaml", text)


_ANSWERS: dict[int, FitResult] = {}
_VARIED: dict[int, Variants] = {}
"""By the identity of projects, which the functions above keep."""


def answer(project: Project) -> FitResult:
    """The best layout of a file."""
    if id(project) not in _ANSWERS:
        _ANSWERS[id(project)] = fit(project)
    return _ANSWERS[id(project)]


def varied(project: Project) -> Variants:
    """The variants of a file."""
    if id(project) not in _VARIED:
        _VARIED[id(project)] = variants(project, answer(project))
    return _VARIED[id(project)]


def some(project: Project, wanted: Callable[[Change], bool]) -> Variants:
    """Only variants that are wanted, to save time."""
    chosen = [change for change in changes(project, design_of(_layout(project))) if wanted(change)]
    with patch.object(varying_plan, "changes", lambda *_: tuple(chosen)):
        return variants(project, answer(project))


def _layout(project: Project) -> Layout:
    layout = answer(project).layout
    assert layout is not None, project.title
    return layout


def framed(project: Project) -> tuple[Part, ...]:
    """The sticks of a file of its own."""
    return build_frame(project, _layout(project)).parts


def planned(project: Project) -> BoardList:
    """The boards of a file of its own."""
    return boards(project, answer(project))


def sticks(parts: tuple[Part, ...]) -> Sticks:
    """Parts counted by what they are, what they are cut from, and how large."""
    return Counter(
        (str(part.role), part.section.name, part.length.units, part.width.units, part.thickness.units) for part in parts
    )

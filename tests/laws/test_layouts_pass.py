"""Every layout passes the checker, the next best ones too, and those differ as they must."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from math import dist

import pytest
from answers import answer, rank
from random_projects import projects

from fitter.checking import check_layout
from fitter.checking.case import Case
from fitter.domain.frame import Section
from fitter.domain.layout import Face, Layout, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Objective, Shape, Side
from fitter.model import solutions, solve
from rooms.lengths import UNITS_PER_INCH

EVERY_DAY = (1, 3, 8, 10, 12, 21, 22, 23, 25, 31, 37, 38)


def passes(project: Project) -> None:
    """The answer is proven, and what it shows is right."""
    found = solve(project)
    assert found.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE)
    if found.layout is not None:
        assert list(check_layout(project, found.layout)) == []


@pytest.mark.parametrize("seed", EVERY_DAY)
def test_every_layout_passes_the_checker(seed: int) -> None:
    """The solver is never believed, and never wrong."""
    layout = answer(seed).layout
    if layout is None:
        assert answer(seed).verdict is Verdict.IMPOSSIBLE
    else:
        assert list(check_layout(projects(seed), layout)) == []


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [*range(22), *range(100, 300)])
def test_every_layout_passes_the_checker_wide(seed: int) -> None:
    passes(projects(seed))


def worth(project: Project, layout: Layout) -> dict[Objective, Fraction | int]:
    """Every objective counted again on the layout itself; the distance in marks."""
    return {
        Objective.SEATS: sum(module.seats for module in layout.modules),
        Objective.TALL: sum(layout.corner in (CornerKind.ANGLE_POST, CornerKind.LOW_POST) for _ in layout.corners),
        Objective.WHOLE: sum(module.notch is not None for module in layout.modules),
        Objective.BUY: sum(purchase.buy for purchase in layout.purchases),
        Objective.POSTS: len(layout.posts),
        Objective.LENGTHS: len({rail.length for rail in layout.rails if rail.face is not Face.CROSS}),
        Objective.CLOSE: Fraction(layout.off_edge.units, project.mark.units),
    }


@pytest.mark.parametrize("seed", EVERY_DAY)
def test_every_value_is_that_of_the_layout(seed: int) -> None:
    """What is proven best is what is shown; free standing, the lowest corner may lie off the mark."""
    project, found = projects(seed), answer(seed)
    if found.layout is None:
        assert found.verdict is Verdict.IMPOSSIBLE
        return
    counted = worth(project, found.layout)
    assert [proof.objective for proof in found.proofs] == list(project.wish.prefer)
    for proof in found.proofs:
        assert proof.proven
        assert proof.value == proof.bound
        slack = 1 if proof.objective is Objective.CLOSE and found.layout.pose.edge is None else 0
        assert abs(proof.value - counted[proof.objective]) <= slack, proof.objective


ASKED = [
    (Shape.L, Side.LEFT), (Shape.L, Side.RIGHT), (Shape.U, None),
]  # fmt: skip


def asked(seed: int, shape: Shape, hand: Side | None, corner: CornerKind) -> Project:
    """A random project of which one shape is asked, with posts that are an odd number of marks thick."""
    project = projects(seed)
    thick = project.mark * (2 * (project.frame.post.width.units // (2 * project.mark.units)) + 1)
    wish = replace(project.wish, shape=shape, hand=hand, corner=corner, least=1, most=None)
    frame = replace(project.frame, post=Section("odd", thick, thick))
    return replace(project, wish=wish, frame=frame)


@pytest.mark.parametrize("corner", CornerKind)
@pytest.mark.parametrize(("shape", "hand"), ASKED)
def test_every_shape_passes_the_checker(shape: Shape, hand: Side | None, corner: CornerKind) -> None:
    """Either hand, every treatment; where the first rooms have none, a later one has."""
    for seed in (11, 14, 24, 30, 38):
        project = asked(seed, shape, hand, corner)
        layout = solve(project).layout
        if layout is not None:
            assert (layout.shape, layout.hand, layout.corner) == (shape, hand, corner)
            assert list(check_layout(project, layout)) == []
            return
    pytest.fail(f"no room took a {shape} with {corner}")


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("corner", CornerKind)
@pytest.mark.parametrize(("shape", "hand"), ASKED)
def test_every_shape_passes_the_checker_wide(shape: Shape, hand: Side | None, corner: CornerKind, seed: int) -> None:
    passes(asked(seed, shape, hand, corner))


def turned_apart(one: Layout, other: Layout) -> float:
    """Degrees between the turns of two layouts."""
    return abs((one.pose.turned - other.pose.turned + 180) % 360 - 180)


def deck_corner(project: Project, layout: Layout) -> tuple[float, float]:
    """The low-x end of the back line, in the room."""
    case = Case(project, layout)
    x, y = layout.pose.to_room(case.x, case.y)
    return float(x), float(y)


def differ(project: Project, one: Layout, other: Layout) -> bool:
    """Whether two layouts count as different."""

    def looks(layout: Layout) -> object:
        runs = [(run.side, run.count, run.cushion, run.turned) for run in layout.runs]
        corners = [(module.corner, module.cushion, module.turned) for module in layout.corners]
        return layout.shape, layout.hand, layout.corner, runs, corners

    return (
        looks(one) != looks(other)
        or turned_apart(one, other) > 1
        or dist(deck_corner(project, one), deck_corner(project, other)) > 12 * UNITS_PER_INCH
    )


def several(seed: int, most: int) -> None:
    """The best layouts are right, ranked, and different from each other."""
    project = projects(seed)
    found = list(solutions(project, most))
    layouts = [each.layout for each in found if each.layout is not None]
    assert all(each.verdict is Verdict.PROVEN for each in found[:-1])
    for layout in layouts:
        assert list(check_layout(project, layout)) == []
    ranks = [rank(each, project) for each in found]
    assert ranks == sorted(ranks, reverse=True)
    assert all(differ(project, one, other) for one, other in combinations(layouts, 2))


@pytest.mark.parametrize("seed", [10, 23, 38])
def test_next_best_layouts_are_right_ranked_and_different(seed: int) -> None:
    several(seed, 3)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(40, 70))
def test_next_best_layouts_are_right_ranked_and_different_wide(seed: int) -> None:
    several(seed, 4)

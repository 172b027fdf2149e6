"""What the solver answers in a small yard where pieces have to be carried, or rails sit in housings."""

from __future__ import annotations

from dataclasses import replace

import pytest
from yards import carried, inch, project

from fitter.checking import check_layout
from fitter.domain.carried import carried_pieces
from fitter.domain.frame import Board, Carpentry, RailJoint, Shop
from fitter.domain.layout import Answer, Side, Verdict
from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.wishes import CornerKind, Shape
from fitter.model import solve
from rooms.lengths import ZERO


def asked(shape: Shape, seats: int, corner: CornerKind | None = None, hand: Side | None = None) -> Project:
    """The small yard, empty, for a shape with so many seats of one kind of cushion."""
    small = project()
    room = replace(small.room, openings=(), obstacles=(), routes=())
    square = replace(small.cushions[0], own=None)
    wish = replace(
        small.wish, shape=shape, least=seats, most=seats, corner=corner, hand=hand, against=("AB",), legroom=inch(12)
    )
    return replace(small, room=room, cushions=(square,), wish=wish)


def shown(answer: Answer, project: Project) -> list[tuple[Side, int, int, float]]:
    """Run, modules and length of each piece of a layout that is right."""
    assert answer.layout is not None
    assert list(check_layout(project, answer.layout)) == []
    return [(piece.run, piece.first, piece.last, float(piece.length.inch)) for piece in carried_pieces(answer.layout)]


def test_eight_modules_that_are_carried_three_at_a_time() -> None:
    """3 × 24 1/4 + 1 1/2 = 74 1/4 in; ends are armed. Three, two and three need rails of two lengths only."""
    project = carried(asked(Shape.STRAIGHT, 8), "297/4")
    project = replace(project, frame=replace(project.frame, max_span=inch(72)))
    answer = solve(project)
    pieces = [(Side.MAIN, 1, 3, 74.25), (Side.MAIN, 4, 5, 48.5), (Side.MAIN, 6, 8, 74.25)]
    assert shown(answer, project) == pieces
    assert answer.layout is not None
    assert (len(answer.layout.posts), answer.layout.rail_lengths) == (8, (inch("83/2"), inch("277/4")))


@pytest.mark.parametrize("hand", [Side.LEFT, Side.RIGHT])
def test_an_l_whose_main_run_owns_the_corner(hand: Side) -> None:
    """The corner's piece: 3 1/2 of back + 24 1/4 + 2 × 24 1/4 = 76 1/4 in; the arm is split off where it begins."""
    project = carried(asked(Shape.L, 6, CornerKind.OUTSIDE_POST, hand), "305/4")
    answer = solve(project)
    pieces = shown(answer, project)
    assert answer.layout is not None
    assert {(split.run, split.line) for split in answer.layout.splits if split.run is hand} == {(hand, 0)}
    assert max(length for *_, length in pieces) <= 76.25


def test_a_u_comes_apart_at_both_corners() -> None:
    project = carried(asked(Shape.U, 7, CornerKind.INSIDE_POST), 120)
    answer = solve(project)
    shown(answer, project)
    assert answer.layout is not None
    owners = {module.corner: module.run for module in answer.layout.corners}
    for arm, owner in owners.items():
        assert arm
        line = 0 if owner is Side.MAIN or arm is Side.RIGHT else answer.layout.runs[0].count
        assert (arm if owner is Side.MAIN else Side.MAIN, line) in [(s.run, s.line) for s in answer.layout.splits]


@pytest.mark.parametrize(("longest", "fits"), [("25", True), ("399/16", False)])
def test_one_module_with_its_end_must_be_carried(longest: str, fits: bool) -> None:
    """24 1/4 + 3/4 in of an open end; the reason names the key and the length."""
    project = carried(asked(Shape.STRAIGHT, 4), longest)
    answer = solve(project)
    if fits:
        assert len(shown(answer, project)) == 4
        return
    assert answer.verdict is Verdict.IMPOSSIBLE
    facts = {fact.id: fact for fact in requirements(project)}
    assert "carry" in answer.clash
    assert facts["carry"].key == "frame.carry.longest"
    assert facts["carry"].says == "no piece that is carried in is longer than 2' 0 15/16\""


@pytest.mark.parametrize(("deep", "posts"), [("1", 0), ("17/16", 2)])
def test_boards_yield_less_where_rails_sit_in_housings(deep: str, posts: int) -> None:
    """Two modules, 48 1/2 in, from boards of 50 1/2 in: two housings of 1 in are just enough."""
    project = asked(Shape.STRAIGHT, 2)
    carpentry = Carpentry(rail_joint=RailJoint.HOUSING, housing=inch(deep))
    project = replace(
        project,
        frame=replace(project.frame, carpentry=carpentry),
        shop=Shop((Board("2x8", inch("101/2")),), ZERO, ZERO),
    )
    answer = solve(project)
    assert answer.layout is not None
    assert len(answer.layout.posts) == posts
    assert list(check_layout(project, answer.layout)) == []

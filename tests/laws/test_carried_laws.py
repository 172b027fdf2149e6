"""What can be carried in only ever asks more; layouts in pieces are right, and the same in a mirror."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from random import Random

import pytest
from answers import rank
from random_projects import projects
from test_mirrored import SQUARE_ROOMS, mirrored

from fitter.checking import check_layout
from fitter.domain.carried import carried_pieces
from fitter.domain.frame import Carry
from fitter.domain.layout import Answer, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.model import solve
from rooms.lengths import ZERO, Length

_WOOD = (Objective.POSTS, Objective.LENGTHS, Objective.CLOSE)
"""Two posts of a split may carry rails that one could not, so that posts may be fewer than in one piece."""


def carried(project: Project, longest: Length) -> Project:
    """The project where no piece may be longer."""
    return replace(project, frame=replace(project.frame, carry=Carry(project.mark, longest)))


@cache
def flush(seed: int) -> Project:
    """The random project of a seed, whose cushions end with the wood: what overhangs is never carried in pieces."""
    project = projects(seed)
    return replace(project, frame=replace(project.frame, overhang=ZERO))


@cache
def in_pieces(seed: int) -> Project:
    """The same, whose frame is carried in pieces of some length."""
    project = flush(seed)
    return carried(project, Length.inches(Random(f"pieces {seed}").randint(40, 120)).round_to(project.mark))


@cache
def carried_answer(seed: int) -> Answer:
    """The answer to it, asked once."""
    return solve(in_pieces(seed))


def is_right(seed: int) -> None:
    """The answer is proven, its layout passes the checker, and no piece is too long."""
    project, found = in_pieces(seed), carried_answer(seed)
    assert found.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE)
    if found.layout is not None:
        assert list(check_layout(project, found.layout)) == []
        assert project.frame.carry is not None
        pieces = carried_pieces(found.layout)
        assert all(piece.length <= project.frame.carry.longest for piece in pieces)
        assert sum(max(0, piece.last - piece.first + 1) for piece in pieces) in (
            0,
            sum(run.count for run in found.layout.runs),
        )


def asks_more(seed: int) -> None:
    """What fits in pieces fits in one, and seats no fewer; more that can be carried never makes it worse."""
    project, less = in_pieces(seed), carried_answer(seed)
    assert project.frame.carry is not None
    longer = carried(project, project.frame.carry.longest + project.mark * 173)
    for easier, found in ((flush(seed), solve(flush(seed))), (longer, solve(longer))):
        assert rank(found, easier, but=_WOOD) >= rank(less, project, but=_WOOD)


def same_in_the_mirror(seed: int) -> None:
    """Seats, notches and purchases, as far as they are preferred to posts."""
    turned = mirrored(in_pieces(seed))
    found = solve(turned)
    assert found.verdict is carried_answer(seed).verdict
    assert rank(found, turned, but=_WOOD) == rank(carried_answer(seed), in_pieces(seed), but=_WOOD)
    if found.layout is not None:
        assert list(check_layout(turned, found.layout)) == []


SEEDS = (8, 10, 14, 23, 37)


@pytest.mark.parametrize("seed", SEEDS)
def test_layouts_in_pieces_are_right(seed: int) -> None:
    is_right(seed)


def test_sample_comes_apart() -> None:
    """Some of the sample is split within runs, and some at corners."""
    splits = [split for seed in SEEDS for layout in [carried_answer(seed).layout] if layout for split in layout.splits]
    assert any(split.line for split in splits)
    assert any(not split.line for split in splits)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_can_be_carried_only_asks_more(seed: int) -> None:
    asks_more(seed)


@pytest.mark.parametrize("seed", [seed for seed in SQUARE_ROOMS if seed in SEEDS])
def test_mirrored_room_takes_the_same_pieces(seed: int) -> None:
    same_in_the_mirror(seed)


@pytest.mark.parametrize("seed", SEEDS[:2])
def test_all_in_one_piece_where_it_can_be_carried(seed: int) -> None:
    """Then only corners come apart; a straight run stays whole."""
    project, whole = flush(seed), solve(flush(seed))
    found = solve(carried(project, Length.inches(4000)))
    assert found.verdict is whole.verdict
    if found.layout is not None:
        assert len(found.layout.splits) == len(found.layout.corners)
        assert rank(found, project, but=_WOOD) == rank(whole, project, but=_WOOD)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(20, 120))
def test_layouts_in_pieces_are_right_wide(seed: int) -> None:
    is_right(seed)
    asks_more(seed)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", SQUARE_ROOMS[8:60])
def test_mirrored_room_takes_the_same_pieces_wide(seed: int) -> None:
    same_in_the_mirror(seed)

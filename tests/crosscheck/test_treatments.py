"""Each treatment of corners: against trying everything in doll's rooms, and against a rule of thumb in plain ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from math import ceil
from random import Random

import pytest
from exhaustive import best_by_trying
from random_projects import cornered_projects
from test_twin import judged, layout_value, twin_value
from twin import COUNTED, best_answer
from yards import inch, project

from fitter.checking import check_layout
from fitter.domain.cushions import Cushion
from fitter.domain.frame import Section
from fitter.domain.layout import Layout, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Objective, Shape
from fitter.model import solve
from rooms.lengths import ZERO
from rooms.room import Edge, EdgeKind, Point, Room

FEW = (0, 2, 11)
MANY = range(40)


def agree(asked: Project) -> Layout | None:
    """The layout that the product finds, after it and the twin agreed with trying everything."""
    tried, answer = best_by_trying(asked), solve(asked)
    value = () if tried is None else tuple(tried.worth[COUNTED.index(objective)] for objective in judged(asked))
    assert twin_value(asked, best_answer(asked)) == value
    if answer.layout is None:
        assert (answer.verdict, value) == (Verdict.IMPOSSIBLE, ())
        return None
    assert layout_value(asked, answer.layout) == value
    assert list(check_layout(asked, answer.layout)) == []
    return answer.layout


@pytest.mark.parametrize("seed", FEW)
@pytest.mark.parametrize("kind", CornerKind)
def test_treatment_agrees_with_trying_everything(kind: CornerKind, seed: int) -> None:
    agree(cornered_projects(seed, kind))


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [seed for seed in MANY if seed not in FEW])
@pytest.mark.parametrize("kind", CornerKind)
def test_treatment_agrees_with_trying_everything_in_many(kind: CornerKind, seed: int) -> None:
    agree(cornered_projects(seed, kind))


def plain(seed: int, kind: CornerKind) -> Project:
    """A bare rectangle and one kind of square cushion, an L along one wall."""
    random = Random(f"plain corner {seed}")
    wide, deep = (inch(random.randint(75, 125) + Fraction(random.randint(0, 15), 16)) for _ in "wd")
    points = [Point(ZERO, ZERO), Point(wide, ZERO), Point(wide, deep), Point(ZERO, deep)]
    edges = tuple(
        Edge(name, EdgeKind.WALL, points[n], points[(n + 1) % 4]) for n, name in enumerate(("AB", "BC", "CD", "DA"))
    )
    asked = project()
    ease = inch(Fraction(random.randint(-4, 24), 16))
    square = Cushion("square", inch(22), inch(22), inch(5), ease=ease, price=Fraction(40))
    return replace(
        asked,
        room=Room(tuple(zip("ABCD", points, strict=True)), edges),
        cushions=(square,),
        wish=replace(
            asked.wish, shape=Shape.L, least=1, most=None, corner=kind, against=("AB",), off_wall=inch(2),
            legroom=ZERO, left_end=EndKind.OPEN, right_end=EndKind.OPEN, prefer=(Objective.SEATS,),
        ),
        frame=replace(
            asked.frame, back_thickness=inch("5/2"), overhang=inch(Fraction(random.choice((0, 0, 8, 16, 24)), 16)),
            max_span=inch(60), angle=Section("1x4", inch("3/4"), inch("7/2")),
        ),
    )  # fmt: skip


def by_rule(asked: Project) -> int:
    """The most seats of an L along AB in a bare rectangle, from its sums of lengths in sixteenths of an inch.

    Both sides hold what stands behind the corner, the corner's depth, the modules and an end of 3/4 in.
    """
    kind, cushion = asked.wish.corner, asked.cushions[0]
    wide, deep = (int(side.inch * 16) for side in (asked.room.edges[0].length, asked.room.edges[1].length))
    ease, over = cushion.ease.inch * 16, int(asked.frame.overhang.inch * 16)
    pitch = ceil(22 * 16 + ease)
    # The post is 3 1/2 in thick with 3/16 in of air, the back 2 1/2 in.
    moved = max(0, ceil(56 + 3 - ease / 2 - over)) if kind is CornerKind.SPREAD else 0
    behind = 56 if kind is CornerKind.OUTSIDE_POST else 40
    depth = pitch + over + moved
    long, short = ((side - behind - depth - 12) // pitch for side in (wide, deep))
    short = min(long, short)
    return long + short + (kind is not CornerKind.TABLE_CORNER) if short > 0 else 0


@cache
def seats(seed: int, kind: CornerKind) -> int:
    """The most that the product proves."""
    found = solve(plain(seed, kind))
    assert found.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE)
    return found.layout.seats if found.layout else 0


def check_by_rule(seed: int) -> Iterator[int]:
    for kind in CornerKind:
        assert (kind, seats(seed, kind)) == (kind, by_rule(plain(seed, kind)))
        yield seats(seed, kind)


def test_most_seats_are_what_the_sum_of_lengths_allows() -> None:
    """In rooms where treatments of different depths take different numbers of seats."""
    assert list(check_by_rule(44)) == [7, 5, 7, 7, 5, 6]
    assert list(check_by_rule(58)) == [8, 7, 8, 8, 7, 7]


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(80))
def test_most_seats_are_what_the_sum_of_lengths_allows_in_many(seed: int) -> None:
    assert len(list(check_by_rule(seed))) == len(CornerKind)

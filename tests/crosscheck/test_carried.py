"""Frames that are carried in pieces, in rooms of doll's size: the product against trying everything."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from random import Random

import pytest
from carried_designs import carried_designs
from carried_places import best_over_low_things
from designs import wished
from exhaustive import best_of
from places import extent
from random_projects import ORDER, is_skew, tiny_projects

from fitter.checking import check_layout
from fitter.domain.frame import Carpentry, Carry, RailJoint
from fitter.domain.layout import Answer, Layout, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Objective, Shape, Side
from fitter.model import solve
from rooms.lengths import ZERO, Length
from rooms.room import Height, Obstacle, Point

FEW = (9, 12, 24, 34, 56, 57)
LOW = (5, 12)
MANY = range(160)


def carried_projects(seed: int) -> Project:
    """A random project of doll's size without low things, whose frame is carried in pieces; some with housings."""
    random, project = Random(f"carried {seed}"), tiny_projects(seed)
    things = tuple(replace(o, height=Height.FULL) if o.height is Height.LOW else o for o in project.room.obstacles)
    thin = Length.millimetres(random.choice((1, 2)))
    housing = Length.millimetres(random.choice((0, 1, 2)))
    carpentry = Carpentry(rail_joint=RailJoint.HOUSING if housing else RailJoint.SCREWS, housing=housing)
    post = replace(project.frame.post, thickness=thin, width=thin)
    project = replace(project, frame=replace(project.frame, overhang=ZERO))
    carry = Carry(Length.millimetres(9), Length.millimetres(random.randint(9, 24)))
    return replace(
        project,
        room=replace(project.room, obstacles=things),
        frame=replace(project.frame, post=post, carpentry=carpentry, carry=carry),
        shop=replace(project.shop, longest_carried=Length.millimetres(random.randint(11, 20))),
    )


def over_low_things(seed: int) -> Project:
    """A project like those, where a thing or two lies low; straight, or an L of one hand."""
    random, project = Random(f"carried over {seed}"), carried_projects(seed)
    spots = [Point(Length.millimetres(random.randint(2, 20)), Length.millimetres(random.randint(1, 9))) for _ in "123"]
    size = Length.millimetres(random.choice((1, 2)))
    things = tuple(Obstacle(f"drain {n}", (at,), size, ZERO, height=Height.LOW) for n, at in enumerate(spots))
    wish = replace(
        project.wish,
        shape=random.choice((Shape.STRAIGHT, Shape.STRAIGHT, Shape.L)),
        hand=random.choice((Side.LEFT, Side.RIGHT)),
        corner=random.choice(tuple(CornerKind)),
        least=1,
        prefer=ORDER,
    )
    return replace(project, wish=wish, room=replace(project.room, obstacles=things, openings=(), routes=()))


def value(project: Project, layout: Layout) -> tuple[int, ...]:
    """What trying everything counts too, in the order of the wish."""
    buy = sum(purchase.buy for purchase in layout.purchases)
    low = 0 if layout.corner is None or layout.corner.tall else len(layout.corners)
    counts = (layout.seats, -low, -layout.notches, -buy, -len(layout.posts), -len(layout.rail_lengths))
    return wished(project, counts)


@cache
def solved(seed: int, *, low: bool = False) -> Answer:
    """The product's answer, asked once."""
    return solve(over_low_things(seed) if low else carried_projects(seed))


def agrees(seed: int) -> bool:
    """Whether the product is as good as the best of all; True too where both find nothing."""
    project, answer = carried_projects(seed), solved(seed)
    found = best_of(project, carried_designs(project, extent(project)))
    if found is None or answer.layout is None:
        assert answer.verdict is (Verdict.IMPOSSIBLE if answer.layout is None else Verdict.PROVEN)
        return found is None and answer.layout is None
    assert list(check_layout(project, answer.layout)) == []
    known = len(project.wish.prefer) - 1 if project.wish.prefer[-1] is Objective.CLOSE else 0
    return value(project, answer.layout)[:known] == wished(project, found.worth)[:known]


@pytest.mark.parametrize("seed", FEW)
def test_product_agrees_with_trying_everything(seed: int) -> None:
    """Seats, notches, purchases, posts and lengths."""
    assert agrees(seed)


def test_sample_comes_apart() -> None:
    """Some is split within runs, some at corners only, some not at all; low things make a difference."""
    layouts = [layout for seed in FEW if (layout := solved(seed).layout)]
    assert {bool(layout.splits) for layout in layouts} == {False, True}
    assert {split.line > 0 for layout in layouts for split in layout.splits} == {False, True}
    for seed in LOW:
        project = over_low_things(seed)
        bare = solve(replace(project, room=replace(project.room, obstacles=()))).layout
        over = solved(seed, low=True).layout
        assert bare
        assert over
        assert value(project, bare) > value(project, over)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [seed for seed in MANY if seed not in FEW])
def test_product_agrees_with_trying_everything_on_many(seed: int) -> None:
    """The same on a wide sample."""
    if not is_skew(carried_projects(seed)):
        assert agrees(seed)


def agrees_over_low_things(seed: int) -> bool:
    """Whether the product is as good as the best of all in all places; True too where both find nothing."""
    project, answer = over_low_things(seed), solved(seed, low=True)
    found = best_over_low_things(project)
    if answer.layout is None:
        assert answer.verdict is Verdict.IMPOSSIBLE
        return found is None
    assert list(check_layout(project, answer.layout)) == []
    return value(project, answer.layout) == found


@pytest.mark.parametrize("seed", LOW)
def test_product_agrees_over_low_things(seed: int) -> None:
    """Where posts cannot stand everywhere, runs are split elsewhere, or stand elsewhere."""
    assert agrees_over_low_things(seed)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [seed for seed in MANY if seed not in LOW])
def test_product_agrees_over_low_things_in_many(seed: int) -> None:
    """The same on a wide sample."""
    if not is_skew(over_low_things(seed)):
        assert agrees_over_low_things(seed)

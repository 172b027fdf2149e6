"""Open ground: nothing of the author's room, shed or wishes is left, and there is room for the whole design."""

from __future__ import annotations

from dataclasses import replace

from reader_plans import answer, bench, corner_bench

from fitter.domain.designs import design_of
from fitter.domain.wishes import FillWish
from fitter.workflow.open_ground import EDGE, freed, open_ground
from rooms.lengths import Length
from rooms.room import signed_area


def test_open_ground_keeps_nothing_of_the_author() -> None:
    published = bench(2, own=1, have=3)
    layout = answer(bench(2)).layout
    assert layout is not None
    ground = open_ground(replace(published, wish=replace(published.wish, fill=FillWish.ANY)), design_of(layout))
    assert (ground.room.obstacles, ground.room.routes, ground.room.openings, ground.room.slope) == ((), (), (), None)
    assert {kind.own for kind in ground.cushions} == {None}
    assert {board.have for board in ground.shop.boards} == {None}
    assert (ground.wish.least, ground.wish.most, ground.wish.against, ground.wish.fill) == (
        1,
        None,
        (EDGE,),
        FillWish.NONE,
    )
    # Leg room, spans and prices are as published.
    assert ground.wish.legroom == published.wish.legroom
    assert ground.frame == published.frame
    assert [kind.price for kind in ground.cushions] == [kind.price for kind in published.cushions]


def test_open_ground_is_a_square_that_holds_all_runs_end_to_end() -> None:
    project = corner_bench(2, 1)
    layout = answer(project).layout
    assert layout is not None
    room = open_ground(project, design_of(layout)).room
    side = room.edge(EDGE).length
    assert signed_area(room.outline) == side.units**2
    # Four cushions, two backs and two arms.
    assert side > Length.inches(4 * 20 + 2 * 3 + 2 * 4)
    assert room.tolerance == project.room.tolerance


def test_free_standing_stays_free_standing() -> None:
    project = corner_bench(2, 1)
    layout = answer(project).layout
    assert layout is not None
    free = replace(project, wish=replace(project.wish, against=None))
    assert open_ground(free, design_of(layout)).wish.against is None


def test_the_own_room_keeps_what_is_there_but_no_wish_for_a_shape() -> None:
    published = bench(2, own=1)
    layout = answer(bench(2)).layout
    assert layout is not None
    room = freed(replace(published, wish=replace(published.wish, fill=FillWish.SHELF)), design_of(layout))
    assert room.room == published.room
    assert room.cushions == published.cushions
    assert (room.wish.least, room.wish.most, room.wish.against, room.wish.fill) == (1, None, ("AB",), FillWish.NONE)

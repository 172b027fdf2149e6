"""Posts where the boards cost least: against every way to stand posts, each cut out by trying everything."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import chain, combinations, product
from random import Random

import pytest
from board_sums import cheapest_boards
from hand_built import ARMED, LEFT, MAIN, RIGHT, Chain, Row, lay_out
from yards import inch, project

from fitter.domain.cushions import Cushion, Option
from fitter.domain.frame import Board, Carpentry, Shop
from fitter.domain.layout import Layout, PostRole
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Objective, Shape
from fitter.workflow.solving import solved
from rooms.lengths import ZERO, Length
from rooms.room import Edge, EdgeKind, Point, Room

SHORT = inch("45/4")
"""A post under a deck of 12 in, on a foot of 3/4 in: seats of 17 in with cushions of 5."""

TALL = inch("137/4")
"""A corner post to the top of a back that ends 18 in above the seat."""


def priced(seed: int) -> Project:
    """A bare rectangle, one cushion, boards of three sections at prices that do not follow their lengths."""
    random = Random(f"boards {seed}")
    shape = random.choice((Shape.STRAIGHT, Shape.STRAIGHT, Shape.L))
    wide, deep = random.randint(90, 150), random.randint(60, 84) if shape is Shape.STRAIGHT else random.randint(70, 105)
    corners = [Point(inch(x), inch(y)) for x, y in ((0, 0), (wide, 0), (wide, deep), (0, deep))]
    names = ("AB", "BC", "CD", "DA")
    edges = tuple(Edge(name, EdgeKind.WALL, corners[n], corners[(n + 1) % 4]) for n, name in enumerate(names))
    asked = project()
    kind = Cushion("square", inch(24), inch(24), inch(5), price=Fraction(random.randint(30, 60)), own=2)
    boards = tuple(
        Board(section, inch(12 * feet), Fraction(random.randint(80, 120) * feet * rate, 100))
        for section, rate in (("2x8", 2), ("2x2", 1), ("4x4", 3))
        for feet in random.sample((6, 8, 10, 12), k=2)
    )
    return replace(
        asked,
        room=Room(tuple(zip("ABCD", corners, strict=True)), edges, tolerance=inch("1/4")),
        cushions=(kind,),
        wish=replace(
            asked.wish, shape=shape, least=1, most=None, left_end=ARMED, right_end=ARMED,
            corner=CornerKind.OUTSIDE_POST if shape is Shape.L else None, against=("AB",), legroom=inch(12),
        ),
        frame=replace(
            asked.frame, max_span=inch(random.choice((40, 52, 60, 66))), back_thickness=inch("9/4"),
            arm_thickness=inch("7/2"), carpentry=Carpentry(),
        ),
        shop=Shop(boards, inch("1/8"), inch("1/2")),
    )  # fmt: skip


def every_way(asked: Project, found: Layout) -> list[Layout]:
    """The same runs with posts on every set of module lines that keeps the span, laid out by hand."""
    runs = {run.side: run for run in found.runs}
    option = Option(asked.cushions[0])
    arm = next((side for side in (RIGHT, LEFT) if side in runs), None)
    corner = found.corner
    rows = []
    for side in (MAIN, *([arm] if arm else [])):
        count = runs[side].count
        inner = range(1, count)
        low = 0 if arm else 1
        rows.append([Row(option, count, f, b) for f in subsets(inner) for b in subsets(range(low, count))])
    layouts = []
    deck = runs[MAIN].deck
    for ways in product(*rows):
        x = deck.x0 - (option.deck(asked.mark) if arm is RIGHT else ZERO)
        arms = {str(arm): ways[1]} if arm else {}
        chained = Chain(x, deck.y0, ways[0], **arms, corner=corner, ends=(ARMED, ARMED))
        laid = lay_out(asked, found.pose, chained)
        if all(rail.length <= asked.frame.max_span for rail in laid.rails):
            layouts.append(laid)
    return layouts


def subsets(items: range) -> list[tuple[int, ...]]:
    return list(chain.from_iterable(combinations(items, n) for n in range(len(items) + 1)))


def boards_of(asked: Project, section: str) -> tuple[tuple[Length, int], ...]:
    return tuple((board.length, cents(board.price)) for board in asked.shop.boards if board.section == section)


def cost(asked: Project, laid: Layout) -> int:
    """Rails, cleats as long as their rails, posts, and cushions to buy of one layout, in cents."""
    lengths = tuple(sorted(rail.length for rail in laid.rails))
    tall = [post for post in laid.posts if post.role is PostRole.CORNER]
    posts = [SHORT] * (len(laid.posts) - len(tall)) + [TALL] * len(tall)
    parts = {"2x8": lengths, "2x2": lengths, "4x4": tuple(posts)}
    kerf, trim = asked.shop.kerf, asked.shop.trim
    wood = sum(cheapest_boards(each, boards_of(asked, name), kerf, trim) for name, each in parts.items())
    return wood + sum(purchase.buy * cents(asked.cushions[0].price) for purchase in laid.purchases)


def cents(price: Fraction | None) -> int:
    return round((price or 0) * 100)


@pytest.mark.parametrize("seed", [0, 1, 2, 3, 4, 6, 7, 8, 9, 11])
def test_no_way_to_stand_the_posts_costs_less(seed: int) -> None:
    asked = priced(seed)
    answer = solved(asked).answers[0]
    assert answer.layout is not None
    told = {proof.objective: proof.value for proof in answer.proofs}
    worths = sorted(
        (cost(asked, laid), len(laid.posts), len(laid.rail_lengths)) for laid in every_way(asked, answer.layout)
    )
    assert (told[Objective.MONEY], told[Objective.POSTS], told[Objective.LENGTHS]) == worths[0]
    assert cost(asked, answer.layout) == told[Objective.MONEY]


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [5, 10, *range(12, 60)])
def test_no_way_to_stand_the_posts_costs_less_in_many_rooms(seed: int) -> None:
    test_no_way_to_stand_the_posts_costs_less(seed)

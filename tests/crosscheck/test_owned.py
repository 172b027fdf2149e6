"""Cushions in the shed, against the twin: the best with none bought, and with up to N.

The twin is asked without any word of buying: for every way to share N cushions out among the kinds it is told that the
shed holds these too and nothing can be bought. The best of its answers is what a limit on buying has to come to.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product

import pytest
from twin import TwinAnswer, best_answer

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Board, Frame, Section, Shop
from fitter.domain.layout import Verdict
from fitter.domain.owned import BUY_AT_MOST, ONLY_OWNED, limited, shed
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Shape, Wish
from fitter.model import solve
from rooms.lengths import ZERO, Length, Unit
from rooms.room import Edge, EdgeKind, Point, Room

IN = Length.inches
DEAR = Fraction(60)


@dataclass(frozen=True)
class Shed:
    """A room by its width and depth in inches, what is owned, and how many may be bought."""

    wide: int
    deep: int
    kinds: tuple[Cushion, ...]
    shape: Shape | None = None
    corner: CornerKind = CornerKind.OUTSIDE_POST
    buy: int = 1


def kind(name: str, width: float, depth: float, own: int | None, *, seats: int = 1, turn: bool = False) -> Cushion:
    """A kind that more can be bought of."""
    size = (IN(Fraction(width)), IN(Fraction(depth)), IN(5))
    return Cushion(name, *size, own=own, price=DEAR, seats=seats, may_turn=turn)


SHEDS = {
    "one kind, too few": Shed(130, 60, (kind("a", 24, 24, 3),), Shape.STRAIGHT, buy=3),
    "two widths mixed in an L": Shed(104, 92, (kind("a", 24, 24, 2), kind("b", 21, 21, 3)), Shape.L),
    "three kinds in a U": Shed(126, 90, (kind("a", 24, 26, 2), kind("b", 20, 22, 3), kind("c", 46, 24, 1, seats=2))),
    "one may be turned": Shed(100, 84, (kind("long", 20, 30, 3, turn=True), kind("b", 23, 23, 2)), Shape.L),
    "a notch where posts stand inside": Shed(
        98, 96, (kind("a", 24, 24, 2), replace(kind("b", 25, 25, 2), may_notch=False)), Shape.L, CornerKind.INSIDE_POST
    ),
    "one kind is in no shed": Shed(110, 80, (kind("new", 18, 22, None), kind("a", 26, 24, 3)), buy=2),
    "none at all": Shed(90, 60, (kind("a", 24, 24, 0), kind("b", 30, 24, None)), Shape.STRAIGHT),
    "more than fit": Shed(90, 70, (kind("a", 22, 22, 9), kind("b", 24, 24, 9))),
}


def patio(wide: Length, deep: Length) -> Room:
    """A rectangle with its wall AB along x, from (0, 0)."""
    corners = (Point(ZERO, ZERO), Point(wide, ZERO), Point(wide, deep), Point(ZERO, deep))
    edges = tuple(Edge("ABCDA"[n : n + 2], EdgeKind.WALL, corners[n], corners[(n + 1) % 4]) for n in range(4))
    return Room(tuple(zip("ABCD", corners, strict=True)), edges)


def project(given: Shed) -> Project:
    """Seats against AB between two arms, with leg room; boards have no price, so that money does not come into it."""
    wish = Wish(given.shape, 1, None, EndKind.ARMED, EndKind.ARMED, None, given.corner, ("AB",), IN(4), IN(12))
    frame = Frame(Section("4x4", IN(4), IN(4)), Section("2x6", IN("3/2"), IN(6)), IN(2), IN(3), IN(3), ZERO, IN(200))
    shop = Shop((Board("2x6", IN(400)),), ZERO, ZERO)
    return Project("a shed by hand", Unit.IN, patio(IN(given.wide), IN(given.deep)), given.kinds, wish, frame, shop)


def shares(most: int, kinds: int) -> Iterator[tuple[int, ...]]:
    """Every way to share up to so many out."""
    return (share for share in product(range(most + 1), repeat=kinds) if sum(share) <= most)


def twin_of(asked: Project, most: int) -> tuple[TwinAnswer, int]:
    """The best seats, then the fewest notches, then the fewest bought, over all shares; and how many are bought."""
    best: tuple[tuple[int, int, int], TwinAnswer] | None = None
    for share in shares(most, len(asked.cushions)):
        kinds = tuple(
            replace(each, own=(each.own or 0) + more, price=None)
            for each, more in zip(asked.cushions, share, strict=True)
        )
        found = best_answer(replace(asked, cushions=kinds))
        if found.verdict == "impossible":
            continue
        merit = (found.seats, -found.notches, -sum(share))
        if best is None or merit > best[0]:
            best = (merit, found)
    return (TwinAnswer("impossible"), 0) if best is None else (best[1], -best[0][2])


@pytest.mark.parametrize("name", SHEDS)
def test_none_bought_and_up_to_so_many(name: str) -> None:
    given = SHEDS[name]
    asked = project(given)
    for most, flag in ((0, ONLY_OWNED), (given.buy, BUY_AT_MOST)):
        twin, bought = twin_of(asked, most)
        answer = solve(limited(asked, most, flag))
        if twin.verdict == "impossible":
            assert answer.verdict is Verdict.IMPOSSIBLE
            assert "buy" in answer.clash
            continue
        layout = answer.layout
        assert answer.verdict is Verdict.PROVEN
        assert layout is not None
        ours = (layout.seats, layout.notches, sum(row.buy for row in layout.purchases))
        assert ours == (twin.seats, twin.notches, bought)
        # What is used and what stays are all that there was.
        kept = {row.cushion: row.used + row.over for row in shed(asked, layout)}
        assert kept == {each.name: each.own for each in asked.cushions if each.own}


def test_the_sheds_are_of_every_sort() -> None:
    """Lest all of them say the same: in some nothing fits, some mix kinds, some gain by buying."""
    none = {name: twin_of(project(given), 0)[0] for name, given in SHEDS.items()}
    more = {name: twin_of(project(given), given.buy) for name, given in SHEDS.items()}
    assert none["none at all"].verdict == "impossible"
    assert sum(more[name][0].seats > none[name].seats for name in SHEDS) >= 3
    assert any(bought == 0 for _, bought in more.values())
    layout = solve(limited(project(SHEDS["three kinds in a U"]), 0, ONLY_OWNED)).layout
    assert layout is not None
    assert len(layout.purchases) == 3

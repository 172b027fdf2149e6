"""The twin in rooms so plain that the answer can be worked out by hand, to the mark."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from twin import TwinAnswer, best_answer

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Board, Carpentry, Frame, Section, Shop, Stance
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Objective, Shape, Side, Wish
from rooms.lengths import ZERO, Length, Unit
from rooms.room import Edge, EdgeKind, Height, Obstacle, Opening, Point, Room, Route

IN = Length.inches
SIXTEENTH = Unit.IN.mark
BACK, END, POST, RAIL = IN(2), IN(3), IN(4), IN("3/2")


def patio(wide: Length, deep: Length, *, tolerance: Length = ZERO) -> Room:
    """A rectangle with its wall AB along x, from (0, 0)."""
    corners = (Point(ZERO, ZERO), Point(wide, ZERO), Point(wide, deep), Point(ZERO, deep))
    edges = tuple(Edge("ABCDA"[n : n + 2], EdgeKind.WALL, corners[n], corners[(n + 1) % 4]) for n in range(4))
    return Room(tuple(zip("ABCD", corners, strict=True)), edges, tolerance=tolerance)


def seat(name: str = "seat", width: int = 24, depth: int = 26) -> Cushion:
    """A cushion that may be bought."""
    return Cushion(name, IN(width), IN(depth), IN(5), price=Fraction(50), may_turn=False)


def project(room: Room, shape: Shape | None = None, *cushions: Cushion, span: int = 200) -> Project:
    """Seats against AB, arms 3 in thick at both ends, no leg room, no corner but outside ones."""
    arms, corner = EndKind.ARMED, CornerKind.OUTSIDE_POST
    wish = Wish(shape, 1, None, arms, arms, None, corner, ("AB",), off_wall=ZERO, legroom=ZERO)
    frame = Frame(Section("4x4", POST, POST), Section("2x6", RAIL, IN(6)), BACK, END, END, ZERO, IN(span))
    shop = Shop((Board("2x6", IN(400)),), ZERO, ZERO)
    return Project("a room by hand", Unit.IN, room, cushions or (seat(),), wish, frame, shop)


def seats(asked: Project) -> int:
    """Most seats; 0 if none."""
    return best_answer(asked).seats


@pytest.mark.parametrize("count", [1, 3, 5])
def test_a_straight_run_needs_its_modules_and_two_arms(count: int) -> None:
    wide, deep = IN(24) * count + 2 * END, BACK + IN(26)
    assert seats(project(patio(wide, deep), Shape.STRAIGHT)) == count
    assert seats(project(patio(wide - SIXTEENTH, deep), Shape.STRAIGHT)) == count - 1
    assert seats(project(patio(wide, deep - SIXTEENTH), Shape.STRAIGHT)) == 0


def test_tolerance_counts_once_at_each_wall() -> None:
    tolerance = IN("1/4")
    wide, deep = IN(72) + 2 * END + 2 * tolerance, BACK + IN(26) + 2 * tolerance
    asked = project(patio(wide, deep, tolerance=tolerance), Shape.STRAIGHT)
    asked = replace(asked, wish=replace(asked.wish, off_wall=tolerance))
    assert seats(asked) == 3
    near = replace(asked, wish=replace(asked.wish, off_wall=tolerance - SIXTEENTH))
    assert seats(near) == 0


def test_a_u_to_the_mark() -> None:
    """Deck of each arm, three modules between them, and the outside posts, which stand out farther than the backs."""
    wide = 2 * POST + 2 * IN(26) + IN(72)
    deep = POST + IN(26) + IN(48) + END
    asked = project(patio(wide, deep), Shape.U)
    asked = replace(asked, wish=replace(asked.wish, off_wall=POST - BACK))
    # 3 + 2 + 2 and two whole cushions in the corners.
    assert seats(asked) == 9
    assert seats(replace(asked, room=patio(wide - SIXTEENTH, deep))) < 9
    assert seats(replace(asked, room=patio(wide, deep - SIXTEENTH))) == 7
    assert seats(replace(asked, wish=replace(asked.wish, off_wall=POST - BACK - SIXTEENTH))) == 0


def test_a_u_between_whose_arms_no_legs_fit() -> None:
    asked = project(patio(IN(120), IN(120)), Shape.U)
    asked = replace(asked, wish=replace(asked.wish, off_wall=IN(4), most=5, legroom=IN(24)))
    assert seats(asked) == 5
    assert seats(replace(asked, wish=replace(asked.wish, legroom=IN(24) + SIXTEENTH))) == 0


@pytest.mark.parametrize("edge", ["AB", "BC", "CD", "DA"])
def test_a_u_whose_arm_is_longest_backs_on_any_edge(edge: str) -> None:
    """Main run of one, an arm of three along the edge: the arm is aligned, so a long shallow room holds it."""
    along, across = POST + IN(26) + IN(72) + END, 2 * POST + 2 * IN(26) + IN(24)
    room = patio(along, across) if edge in ("AB", "CD") else patio(across, along)
    asked = project(room, Shape.U)
    asked = replace(asked, wish=replace(asked.wish, against=(edge,), off_wall=POST - BACK))
    assert seats(asked) == 3 + 3 + 1 + 2


def test_hand_is_the_side_of_the_short_run() -> None:
    """Against AB one faces −y, so the low-x side is the right hand; a post at the left leaves only that for the arm."""
    block = (Point(IN(0), IN(34)), Point(IN(20), IN(34)), Point(IN(20), IN(60)), Point(IN(0), IN(60)))
    room = replace(patio(IN(110), IN(90)), obstacles=(Obstacle("block", block),))
    asked = project(room, Shape.L)
    asked = replace(asked, wish=replace(asked.wish, off_wall=IN(2), hand=Side.LEFT))
    both = seats(replace(asked, wish=replace(asked.wish, hand=None)))
    assert seats(asked) == both == 3 + 2 + 1
    assert seats(replace(asked, wish=replace(asked.wish, hand=Side.RIGHT))) < both


def test_low_things_keep_feet_away_but_not_seats() -> None:
    wide, deep = IN(72) + 2 * END, BACK + IN(26)
    drain = (Point(IN(30), IN(10)), Point(IN(40), IN(10)), Point(IN(40), IN(14)), Point(IN(30), IN(14)))
    low = replace(patio(wide, deep), obstacles=(Obstacle("drain", drain, height=Height.LOW),))
    full = replace(patio(wide, deep), obstacles=(Obstacle("drain", drain),))
    asked = project(low, Shape.STRAIGHT)
    assert seats(asked) == 3
    # One module and its arms are 30 in long and stand beside a drain that is in the way.
    assert seats(replace(asked, room=full)) == 1
    # An arm of 3 in ends at x = 3 in: the drain may come so near, and no nearer.
    beside = tuple(Point(point.x - IN(27), point.y) for point in drain)
    under = tuple(Point(point.x - SIXTEENTH, point.y) for point in beside)
    assert seats(replace(asked, room=replace(low, obstacles=(Obstacle("drain", beside, height=Height.LOW),)))) == 3
    assert seats(replace(asked, room=replace(low, obstacles=(Obstacle("drain", under, height=Height.LOW),)))) < 3


def test_posts_step_aside_from_low_things() -> None:
    """Four modules, one opening of 96 in, span 60 in: the middle post may move to a neighbouring line, or two stand."""
    wide, deep = IN(96) + 2 * END, BACK + IN(26)
    asked = project(patio(wide, deep), Shape.STRAIGHT, span=60)
    assert best_answer(asked).posts == 2

    def drained(x: int) -> TwinAnswer:
        box = (Point(IN(x - 3), IN(25)), Point(IN(x + 3), IN(25)), Point(IN(x + 3), IN(27)), Point(IN(x - 3), IN(27)))
        drain = Obstacle("drain", box, height=Height.LOW)
        return best_answer(replace(asked, room=replace(asked.room, obstacles=(drain,))))

    # The middle line is at x = 3 + 48; without it the front needs posts on both its neighbours.
    assert drained(51).posts == 3
    assert drained(51).seats == 4
    assert drained(40).posts == 2


@pytest.mark.parametrize(("own", "buy"), [(0, 5), (2, 3), (5, 0), (9, 0)])
def test_cushions_to_buy_are_those_not_owned(own: int, buy: int) -> None:
    asked = project(patio(IN(126), IN(40)), Shape.STRAIGHT, replace(seat(), own=own))
    assert best_answer(asked) == TwinAnswer("feasible", seats=5, notches=0, buy=buy, posts=0)


def test_owned_ones_without_a_price_are_all_there_are() -> None:
    few = replace(seat(), own=3, price=None)
    assert seats(project(patio(IN(126), IN(40)), Shape.STRAIGHT, few)) == 3
    other = replace(few, name="other", own=1)
    # A straight run is of one kind, but arms and corners may be of others.
    assert seats(project(patio(IN(126), IN(40)), Shape.STRAIGHT, few, other)) == 3
    ell = project(patio(IN(130), IN(110)), Shape.L, few, other)
    ell = replace(ell, wish=replace(ell.wish, off_wall=IN(2)))
    assert seats(ell) == 4


def test_an_inside_post_notches_the_corner_cushion() -> None:
    asked = project(patio(IN(130), IN(110)), Shape.L)
    asked = replace(asked, wish=replace(asked.wish, corner=CornerKind.INSIDE_POST))
    assert best_answer(asked).notches == 1
    squeezed = replace(seat(), ease=-2 * IN(1))
    assert best_answer(replace(asked, cushions=(squeezed,))).notches == 1
    # Half of an ease of 8 in is as much as the post stands in.
    loose = Cushion("loose", IN(16), IN(18), IN(5), ease=IN(8), price=Fraction(50), may_notch=False)
    assert best_answer(replace(asked, cushions=(loose,))).notches == 0
    tight = replace(loose, ease=IN(8) - IN("1/8"))
    assert best_answer(replace(asked, cushions=(tight,))).verdict == "impossible"


def treated(asked: Project, corner: CornerKind, over: str = "0") -> Project:
    """With one treatment of corners, and cushions that overhang the wood by inches."""
    wish, frame = replace(asked.wish, corner=corner), replace(asked.frame, overhang=IN(over))
    return replace(asked, wish=wish, frame=frame)


@pytest.mark.parametrize(
    ("corner", "over", "deep", "seated"),
    [
        (CornerKind.INSIDE_POST, "0", 26, 9),
        (CornerKind.INSIDE_POST, "3/2", "55/2", 9),
        (CornerKind.LOW_POST, "1", 27, 9),
        (CornerKind.ANGLE_POST, "0", 26, 9),
        (CornerKind.TABLE_CORNER, "1", 27, 7),
        # A post of 4 in and no air: cushions lie 4 in off the backs, of which some overhang.
        (CornerKind.SPREAD, "0", 30, 9),
        (CornerKind.SPREAD, "1", 30, 9),
    ],
)
def test_a_u_of_every_treatment_to_the_mark(corner: CornerKind, over: str, deep: int | str, seated: int) -> None:
    """Backs, places so deep, three modules between them; then two modules and an end."""
    wide, long = 2 * BACK + 2 * IN(deep) + IN(72), BACK + IN(deep) + IN(48) + END
    asked = treated(project(patio(wide, long), Shape.U), corner, over)
    assert seats(asked) == seated
    assert seats(replace(asked, room=patio(wide - SIXTEENTH, long))) < seated
    assert seats(replace(asked, room=patio(wide, long - SIXTEENTH))) == seated - 2


def test_what_overhangs_takes_room_before_the_wood() -> None:
    deep = BACK + IN(26) + IN("3/4")
    asked = project(patio(IN(72) + 2 * END, deep), Shape.STRAIGHT)
    asked = replace(asked, frame=replace(asked.frame, overhang=IN("3/4")))
    assert seats(asked) == 3
    assert seats(replace(asked, room=patio(IN(72) + 2 * END, deep - SIXTEENTH))) == 0


def test_front_rails_reach_to_the_inner_corner_of_the_wood() -> None:
    """Main run of 2 modules and right arm of 1: fronts of 48 + 1 and 24 + 1 in, backs of 71 and 47 in without posts."""
    asked = treated(project(patio(IN(84), IN(60)), Shape.L), CornerKind.INSIDE_POST, "1")
    asked = replace(asked, frame=replace(asked.frame, max_span=IN(49)))
    # Only the main run's back needs a post; with the corner's two that makes three.
    assert best_answer(asked).posts == 3
    assert best_answer(replace(asked, frame=replace(asked.frame, max_span=IN(49) - SIXTEENTH))).posts == 4


def test_a_post_behind_a_cross_rail_stands_nearer_to_the_corner() -> None:
    """The back of two modules from the post at 4 in: to a post about x = 27 − 1, and on to 75 in."""
    asked = treated(project(patio(IN(80), IN(60)), Shape.L), CornerKind.INSIDE_POST, "1")
    drain = (Point(IN(51), IN(0)), Point(IN(53), IN(0)), Point(IN(53), IN(9)), Point(IN(51), IN(9)))
    asked = replace(asked, room=replace(asked.room, obstacles=(Obstacle("drain", drain, height=Height.LOW),)))
    asked = replace(asked, wish=replace(asked.wish, hand=Side.RIGHT, least=4))
    # No post stands on the middle line, about x = 2 + 27 + 24 = 53 in; from the post before it 27 + 48 − 28 = 47 in.
    assert best_answer(replace(asked, frame=replace(asked.frame, max_span=IN(49)))).posts == 3
    low = replace(asked, frame=replace(asked.frame, max_span=IN(47) - SIXTEENTH))
    assert best_answer(low).verdict == "impossible"


def test_corners_without_a_tall_post_are_counted() -> None:
    asked = project(patio(IN(130), IN(110)), Shape.L)
    assert (best_answer(treated(asked, CornerKind.LOW_POST)).low, best_answer(asked).low) == (1, 0)
    angled = best_answer(treated(asked, CornerKind.ANGLE_POST))
    assert (angled.low, angled.notches) == (1, 1)
    # Boards of 3/4 in stand in the gap of as much.
    assert best_answer(treated(asked, CornerKind.ANGLE_POST, "3/4")).notches == 0
    # Where nothing may be cut and the room is too small for a post outside, a low post is the last way.
    whole = replace(seat(), may_notch=False)
    tight = project(patio(BACK + IN(26) + IN(72) + END, BACK + IN(26) + IN(48) + END), Shape.L, whole)
    tight = replace(tight, wish=replace(tight.wish, corner=None, prefer=(Objective.SEATS, Objective.TALL)))
    assert (best_answer(tight).seats, best_answer(tight).low) == (6, 1)


def test_backs_that_do_not_meet_cannot_be_joined() -> None:
    asked = project(patio(IN(130), IN(110)), Shape.L)
    asked = replace(asked, wish=replace(asked.wish, off_wall=POST - BACK))
    leaning = replace(asked.frame, carpentry=Carpentry(lean=Fraction(5)))
    on_edge = replace(asked.frame, carpentry=Carpentry(upright_at_corner=Stance.EDGE))
    for frame in (leaning, on_edge):
        for corner in CornerKind:
            found = best_answer(replace(treated(asked, corner), frame=frame)).verdict
            assert (corner, found == "impossible") == (corner, not corner.tall)


@pytest.mark.parametrize(("most", "seated"), [(0, 2), (1, 3), (3, 5), (9, 5)])
def test_no_more_are_bought_than_may_be(most: int, seated: int) -> None:
    asked = project(patio(IN(126), IN(40)), Shape.STRAIGHT, replace(seat(), own=2))
    assert seats(replace(asked, wish=replace(asked.wish, buy_most=most))) == seated


def test_the_order_of_the_wish_decides() -> None:
    """Three seats are owned; two more can be bought."""
    asked = project(patio(IN(126), IN(40)), Shape.STRAIGHT, replace(seat(), own=3))
    frugal = replace(asked.wish, prefer=(Objective.BUY, Objective.SEATS))
    answer = best_answer(replace(asked, wish=frugal))
    assert (answer.seats, answer.buy) == (3, 0)


def test_a_route_past_the_seats() -> None:
    """Doors in DA and BC: between the seats' front and CD the route and the tolerance at the wall stay open."""
    wide, clear, tolerance = IN(90), IN(30), IN("1/2")
    deep = tolerance + BACK + IN(26) + clear + tolerance

    def asked(deep: Length) -> Project:
        room = patio(wide, deep, tolerance=tolerance)
        doors = (
            Opening("west", "DA", tolerance, clear + 2 * tolerance),
            Opening("east", "BC", deep - tolerance - clear - 2 * tolerance, clear + 2 * tolerance),
        )
        room = replace(room, openings=doors, routes=(Route("way", "west", "east", clear),))
        found = project(room, Shape.STRAIGHT)
        return replace(found, wish=replace(found.wish, off_wall=tolerance))

    assert seats(asked(deep)) == 3
    assert seats(asked(deep - SIXTEENTH)) == 0


def test_the_longer_run_owns_an_outside_corner() -> None:
    """The owner's back rail runs to the corner, the other's butts it: the openings differ by a rail's thickness."""
    # Main of 3 modules and right arm of 1: back lines 26 + 72 = 98 in and 26 + 24 − 1 1/2 = 48 1/2 in.
    # The room is too shallow for two and two.
    asked = project(patio(IN(130), IN(60)), Shape.L, span=98)
    asked = replace(asked, wish=replace(asked.wish, off_wall=IN(2), least=5, most=5))
    assert best_answer(asked).posts == 2
    frame = replace(asked.frame, max_span=IN(98) - SIXTEENTH)
    assert best_answer(replace(asked, frame=frame)).posts == 3

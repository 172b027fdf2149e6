"""What corner cushions lose, against plain geometry: which way a person looks, and what shapely cuts out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from hand_built import ANGLE, INSIDE, LEFT, LOW, MAIN, OUTSIDE, RIGHT, SPREAD, TABLE, Chain, Row, lay_out
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from fitter.domain.cushions import Cushion, CushionSide, Option
from fitter.domain.layout import Box, Layout, Pose
from fitter.domain.notching import Turn, angle_boards, cut_cushions, notch_ring
from fitter.domain.project import Project
from fitter.domain.uncovered import beyond_gap, gap_strips
from fitter.domain.wishes import CornerKind
from fitter.project import read_project
from rooms.geometry import Point
from rooms.lengths import ZERO, Length

inch = Length.inches
SQUARE = Cushion("square", inch(24), inch(24), inch(5), ease=inch("1/4"), zip=CushionSide.BACK)
SLIM = Cushion("slim", inch(20), inch(24), inch(4), measured=(inch("81/4"), inch(24), inch("9/2")), may_turn=True)
QUARTERS = {Turn.ANTICLOCKWISE: 1, Turn.HALF: 2, Turn.CLOCKWISE: 3}
TREATMENTS = tuple(CornerKind)


@pytest.fixture(scope="module")
def courtyard(request: pytest.FixtureRequest) -> Project:
    project = read_project(str(request.config.rootpath / "examples" / "courtyard.yaml"))
    return replace(project, cushions=(SQUARE, SLIM))


def laid(project: Project, kind: CornerKind, *corners: Option, arms: int = 2, hand: str = "right") -> Layout:
    """A U, or an L with its arm at a hand, of square cushions with these in its corners."""
    right, left = (corners * 2)[:2] if corners else (None, None)
    arm = Row(Option(SQUARE), arms)
    chain = Chain(
        inch(40), inch(5), Row(Option(SQUARE), 3),
        right=arm if hand in ("right", "both") else None, left=arm if hand in ("left", "both") else None,
        corner=kind, right_corner=right, left_corner=left,
    )  # fmt: skip
    return lay_out(project, Pose(Point(ZERO, ZERO), Fraction(1), Fraction(0), "AB"), chain)


def flat(shape: Box) -> Polygon:
    """A box in units."""
    return box(shape.x0.units, shape.y0.units, shape.x1.units, shape.y1.units)


def overhung(project: Project, over: Length) -> Project:
    """The project whose cushions come forward."""
    return replace(project, frame=replace(project.frame, overhang=over))


def turned(way: tuple[int, int], quarters: int) -> tuple[int, int]:
    """A direction after quarter turns anticlockwise."""
    x, y = way
    return turned((-y, x), quarters - 1) if quarters else way


def ways(project: Project) -> Iterator[tuple[Layout, Option, CushionSide]]:
    """A U with every way to lay a cushion into its corners, the zip in every side."""
    for zip_side, option in product(CushionSide, (Option(SQUARE), Option(SLIM), Option(SLIM, turned=True))):
        changed = replace(option, cushion=replace(option.cushion, zip=zip_side))
        kinds = tuple(changed.cushion if kind.name == changed.cushion.name else kind for kind in (SQUARE, SLIM))
        yield laid(replace(project, cushions=kinds), INSIDE, changed, hand="both"), changed, zip_side


def test_sides_are_those_of_a_person_who_looks_at_the_back_of_the_cushion(courtyard: Project) -> None:
    """The cut corner lies before or behind the middle, right or left of where they look."""
    for layout, option, zip_side in ways(courtyard):
        for cut in cut_cushions(layout, (option.cushion,)):
            toward_arm = (-1, 0) if cut.corner is RIGHT else (1, 0)
            ahead = toward_arm if option.turned else (0, -1)
            right = turned(ahead, 3)
            corner = (toward_arm[0], -1)
            depth = corner[0] * ahead[0] + corner[1] * ahead[1]
            across = corner[0] * right[0] + corner[1] * right[1]
            expected = (
                CushionSide.BACK if depth > 0 else CushionSide.FRONT,
                CushionSide.RIGHT if across > 0 else CushionSide.LEFT,
            )
            assert cut.sides == expected
            assert cut.zip_cut == (zip_side in expected)


def test_turns_that_keep_a_zip_bring_it_off_both_backs(courtyard: Project) -> None:
    """And every turn that does is told, of square cushions; of others the half one."""
    seen = set()
    for layout, option, zip_side in ways(courtyard):
        for cut in cut_cushions(layout, (option.cushion,)):
            toward_arm = (-1, 0) if cut.corner is RIGHT else (1, 0)
            ahead = toward_arm if option.turned else (0, -1)
            sides = {
                CushionSide.BACK: ahead, CushionSide.LEFT: turned(ahead, 1),
                CushionSide.FRONT: turned(ahead, 2), CushionSide.RIGHT: turned(ahead, 3),
            }  # fmt: skip
            free = {(0, 1): cut.corner, turned(toward_arm, 2): MAIN}
            assert cut.beside == free.get(sides[zip_side])
            square = option.cushion.size[0] == option.cushion.size[1]
            expected = {
                (turn, free[turned(sides[zip_side], quarters)])
                for turn, quarters in QUARTERS.items()
                if cut.zip_cut and turned(sides[zip_side], quarters) in free and (square or turn is Turn.HALF)
            }
            assert {(way.turn, way.beside) for way in cut.keeps} == expected
            seen |= {turn for turn, _ in expected}
    assert seen == set(Turn)


def test_zip_that_the_file_does_not_name_is_not_guessed(courtyard: Project) -> None:
    (cut,) = cut_cushions(laid(courtyard, INSIDE, Option(SLIM)), courtyard.cushions)
    assert (cut.zip_cut, cut.beside, cut.keeps) == (None, None, ())


@pytest.mark.parametrize("over", [ZERO, inch("1/2")])
@pytest.mark.parametrize("kind", [INSIDE, ANGLE])
def test_foam_that_is_cut_away_is_the_area_of_its_outline_through_the_thickness(
    courtyard: Project, kind: CornerKind, over: Length
) -> None:
    """As measured where the cushion was; the outline is simple and lies within the cushion."""
    layout = laid(overhung(courtyard, over), kind, Option(SQUARE), Option(SLIM), hand="both")
    cuts = cut_cushions(layout, courtyard.cushions)
    assert [cut.corner for cut in cuts] == [RIGHT, LEFT]
    for cut, place, thick in zip(cuts, layout.corners, (inch(5), inch("9/2")), strict=True):
        assert place.notch is not None
        outline = Polygon([(x.units, y.units) for x, y in notch_ring(place.notch)])
        assert outline.is_valid
        assert outline.exterior.is_ccw
        assert len(notch_ring(place.notch)) == (6 if kind is ANGLE else 4)
        assert outline.area == cut.area
        assert outline.symmetric_difference(unary_union([flat(each) for each in place.notch.cut])).area == 0
        assert flat(place.cover or place.box).contains(outline)
        assert cut.volume == cut.area * thick.units
        assert (cut.depth is None) == (kind is INSIDE)


@pytest.mark.parametrize("hand", ["right", "left", "both"])
def test_boards_of_an_angle_post_lie_on_both_backs_within_what_is_cut(courtyard: Project, hand: str) -> None:
    """Each touches one back with its wide face; the clearance around them is cut away too."""
    layout = laid(courtyard, ANGLE, hand=hand)
    boards = angle_boards(layout, courtyard.frame, courtyard.mark)
    assert len(boards) == 2 * len(layout.corners)
    for place, pair in zip(layout.corners, (boards[:2], boards[2:]), strict=False):
        assert place.notch is not None
        assert place.corner is not None
        first, second = (flat(board) for board in pair)
        arm = layout.run(place.corner)
        assert arm is not None
        assert flat(layout.runs[0].back).intersection(first).length == inch("7/2").units
        assert flat(arm.back).intersection(second).length == inch("7/2").units
        assert first.intersection(second).area == 0
        cushion = flat(place.cover or place.box).difference(
            Polygon([(x.units, y.units) for x, y in notch_ring(place.notch)])
        )
        # A cushion begins half its ease within its place.
        ease = SQUARE.ease.units // 2
        assert cushion.intersection(first.union(second)).area <= 2 * ease * inch(8).units
    assert angle_boards(laid(courtyard, LOW), courtyard.frame, courtyard.mark) == ()


@pytest.mark.parametrize("kind", [OUTSIDE, LOW, SPREAD, TABLE])
def test_other_treatments_leave_cushions_whole(courtyard: Project, kind: CornerKind) -> None:
    assert cut_cushions(laid(courtyard, kind, hand="both"), courtyard.cushions) == ()


@pytest.mark.parametrize(
    ("kind", "over", "hand"), list(product(TREATMENTS, (ZERO, inch(1)), ("right", "left", "both")))
)
def test_cushions_gaps_and_bare_strips_make_up_the_deck(
    courtyard: Project, kind: CornerKind, over: Length, hand: str
) -> None:
    """Nothing is covered twice and nothing is forgotten; a table covers its whole place."""
    layout = laid(overhung(courtyard, over), kind, Option(SLIM), hand=hand)
    deck = unary_union([flat(run.deck) for run in layout.runs] + [flat(place.box) for place in layout.corners])
    cushions = [flat(module.cover or module.box) for module in layout.modules]
    bare = [flat(strip) for place in layout.corners for strip in beyond_gap(layout, place)]
    gap = unary_union([flat(strip) for strip in gap_strips(layout)])
    assert bool(gap_strips(layout)) == (bool(over) or kind is SPREAD)
    parts = [*cushions, *bare, gap]
    assert sum(part.area for part in parts) == deck.area
    assert unary_union(parts).symmetric_difference(deck).area == 0

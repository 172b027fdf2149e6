"""Which edges can be seen: checked on boxes, on tilted ones, and against rays shot one by one."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise, product
from math import dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitter.domain.frame import Section
from fitter.domain.wishes import Side
from fitter.domain.woodwork import EndCut, Housing, Part, PartRole, Slant, Vector
from fitter.drawing.frame.sight import Gaze, Seen, Sight
from fitter.drawing.frame.solids import Plane, Solid, Spot3, cuts, dot, normal, sawn, solid_of, unit
from fitter.drawing.frame.strokes import merged
from fitter.drawing.page import Segment
from rooms.lengths import Length

X: Vector = (Fraction(1), Fraction(0), Fraction(0))
Y: Vector = (Fraction(0), Fraction(1), Fraction(0))
Z: Vector = (Fraction(0), Fraction(0), Fraction(1))
INCH = 8128
FRONT = Gaze((1.0, 0.0, 0.0), (0.0, 0.0, 1.0))  # the viewer stands at low y and looks along +y
_SECTION = Section("any", Length(INCH), Length(INCH))


def part(
    size: tuple[int, int, int],
    at: tuple[int, int, int],
    axes: tuple[Vector, Vector, Vector] = (X, Y, Z),
    cuts_: tuple[EndCut, EndCut] = (EndCut(), EndCut()),
    housings: tuple[Housing, ...] = (),
) -> Part:
    """A part of so many inches along each of its axes, its lowest corner at a place in inches."""
    length, width, thickness = (Length(INCH * side) for side in size)
    x, y, z = (Fraction(INCH * place) for place in at)
    return Part(PartRole.SUPPORT_POST, Side.MAIN, _SECTION, length, width, thickness, (x, y, z), *axes, cuts_, housings)


def box(size: tuple[int, int, int], at: tuple[int, int, int], number: int = 0) -> Solid:
    """An upright box."""
    return solid_of(part(size, at), number)


def total(segments: tuple[Segment, ...]) -> float:
    """Length of all segments in inches, those that lie on each other once."""
    small = [((a[0] / INCH, a[1] / INCH), (b[0] / INCH, b[1] / INCH)) for a, b in segments]
    return sum(dist(a, b) for a, b in merged(small))


def looks(*solids: Solid, gaze: Gaze = FRONT) -> list[Seen]:
    """All solids as they are seen together."""
    sight = Sight(solids, gaze)
    return [sight.seen(solid) for solid in solids]


def test_a_box_alone_shows_the_face_that_looks_at_the_viewer() -> None:
    (seen,) = looks(box((4, 2, 3), (0, 0, 0)))
    assert total(seen.visible) == pytest.approx(2 * (4 + 3))
    assert seen.hidden == ()


def test_a_box_in_front_hides_what_lies_behind_it_and_no_more() -> None:
    """The nearer one covers the right half of the farther one, two inches high of three."""
    near, far = looks(box((4, 1, 2), (2, 0, 0)), box((4, 1, 3), (0, 2, 0), 1))
    assert total(near.visible) == pytest.approx(2 * (4 + 2))
    assert total(far.visible) == pytest.approx(2 * (4 + 3) - 2 - 2)
    assert total(far.hidden) == pytest.approx(2 + 2)


def test_the_order_of_solids_does_not_matter() -> None:
    one, other = box((4, 1, 2), (2, 0, 0)), box((4, 1, 3), (0, 2, 0), 1)
    assert looks(one, other) == looks(other, one)[::-1]


def test_parts_that_lie_flush_or_touch_hide_nothing_of_each_other() -> None:
    left, right, behind = looks(box((2, 1, 2), (0, 0, 0)), box((2, 1, 2), (2, 0, 0), 1), box((4, 1, 3), (0, 1, 0), 2))
    assert [total(left.visible), total(right.visible)] == pytest.approx([8, 8])
    # Of the one that touches both from behind the upper inch can be seen; not the line between both.
    assert total(behind.visible) == pytest.approx(4 + 2)


def test_what_reaches_into_another_in_depth_is_hidden_where_it_is_behind() -> None:
    """A post through a plate that leans: no order of depth would do."""
    half = Fraction(3, 5), Fraction(4, 5)
    plate = part((6, 10, 1), (0, 0, 0), (X, (Fraction(0), half[0], half[1]), (Fraction(0), -half[1], half[0])))
    post = part((8, 1, 1), (2, 3, 0), (Z, X, Y))
    _, seen = looks(solid_of(plate, 0), solid_of(post, 1))
    heights = [end[1] / INCH for piece in seen.visible for end in piece if abs(end[0] / INCH - 2) < 0.01]
    # The near face begins 0.8 before and 0.6 above the origin and rises 4 in 3: so high it meets y = 3.
    assert min(heights) == pytest.approx(0.6 + (3 + 0.8) * 4 / 3, abs=0.01)
    assert max(heights) == pytest.approx(8.0)


def test_three_bars_that_lie_over_each_other_in_a_ring() -> None:
    """Each passes over the next one and under the one before: each is hidden in one place only."""
    up, over = (Fraction(24, 25), Fraction(0), Fraction(7, 25)), (Fraction(-7, 25), Fraction(0), Fraction(24, 25))
    first = part((12, 1, 1), (0, 0, 0), (up, Y, over))
    second = part(
        (12, 1, 1),
        (0, 0, 4),
        ((Fraction(24, 25), Fraction(7, 25), Fraction(0)), (Fraction(-7, 25), Fraction(24, 25), Fraction(0)), Z),
    )
    third = part((12, 1, 1), (6, 2, -4), (Z, X, Y))
    solids = [solid_of(each, n) for n, each in enumerate((first, second, third))]
    for gaze in (FRONT, Gaze((1.0, 0.0, 0.0), unit((0.0, 0.6, 0.8)))):
        for seen, solid in zip(looks(*solids, gaze=gaze), solids, strict=True):
            check_by_rays(seen, solid, solids, gaze)


def test_a_housing_shows_and_what_sits_in_it_hides_it() -> None:
    """A post with a housing open at its near face; then with the rail in it."""
    inch = Length(INCH)
    housing = Housing(3 * inch, 5 * inch, Length(0), inch, Length(0), Length(INCH // 2))
    post = part((8, 2, 2), (0, 0, 0), (Z, X, Y), housings=(housing,))
    (alone,) = looks(solid_of(post, 0))
    # Its outline, the three inner sides of the housing; the fourth one lies on the outline.
    assert total(alone.visible) == pytest.approx(2 * (8 + 2) + 2 + 1 + 1)
    rail = part((4, 2, 1), (-3, 0, 3), (X, Z, tuple(-c for c in Y)))  # type: ignore[arg-type]
    _, housed = looks(solid_of(rail, 1), solid_of(post, 0))
    assert total(housed.visible) < total(alone.visible)


def test_faces_look_outward() -> None:
    """Of square, mitred and housed parts alike."""
    mitred = (EndCut(Length(INCH), Slant.WIDTH, True), EndCut(Length(INCH), Slant.WIDTH, False))
    for each in (part((9, 3, 2), (1, 2, 3)), part((9, 3, 2), (1, 2, 3), (Z, X, Y), mitred)):
        solid = solid_of(each, 0)
        middle = tuple(sum(spot[i] for spot in solid.spots) / len(solid.spots) for i in range(3))
        for face in (*solid.faces, *solid.pieces[0]):
            out = tuple(a - b for a, b in zip(face[0], middle, strict=True))
            assert dot(normal(face), (out[0], out[1], out[2])) > 0


def test_a_saw_cut_lays_open_the_section() -> None:
    """Of a box two inches by three; what stays is half as long."""
    solid = box((8, 2, 3), (0, 0, 0))
    plane = Plane((1.0, 0.0, 0.0), 4.0 * INCH)
    (cap,) = cuts(solid, plane)
    assert sorted(cap) == [(4.0 * INCH, y * INCH, z * INCH) for y in (0.0, 2.0) for z in (0.0, 3.0)]
    assert normal(cap) == pytest.approx((1.0, 0.0, 0.0))
    rest = sawn(solid, plane)
    assert rest is not None
    assert max(spot[0] for spot in rest.spots) == 4.0 * INCH
    assert sawn(solid, Plane((-1.0, 0.0, 0.0), -9.0 * INCH)) is None
    # Seen from where the rest was taken away there is the cut alone, which is drawn as such, and it hides.
    gaze = Gaze((0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    (seen, behind) = looks(rest, box((1, 1, 1), (-2, 1, 1), 1), gaze=gaze)
    assert seen.visible == behind.visible == ()


def test_foremost_tells_the_nearest_part() -> None:
    sight = Sight([box((4, 1, 3), (0, 2, 0), 7), box((4, 1, 2), (2, 0, 0), 5)], FRONT)
    spots = [(1.0, 1.0), (3.0, 1.0), (3.0, 2.5), (9.0, 1.0)]
    assert sight.foremost([(x * INCH, y * INCH) for x, y in spots]) == [7, 5, 7, None]


def _middles(segments: tuple[Segment, ...]) -> Iterator[tuple[float, float]]:
    for (x0, y0), (x1, y1) in segments:
        yield (x0 + x1) / 2, (y0 + y1) / 2


def _depths(faces: tuple[tuple[Spot3, ...], ...], gaze: Gaze, spot: tuple[float, float]) -> Iterator[float]:
    """Where a ray meets faces that look at the viewer, by triangles; depth grows toward the viewer."""
    for face in faces:
        for b, c in pairwise(face[1:]):
            (ax, ay), (bx, by), (cx, cy) = gaze.at(face[0]), gaze.at(b), gaze.at(c)
            size = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
            if size > 1.0:
                s = ((spot[0] - ax) * (cy - ay) - (spot[1] - ay) * (cx - ax)) / size
                t = ((bx - ax) * (spot[1] - ay) - (by - ay) * (spot[0] - ax)) / size
                if s >= -1e-9 and t >= -1e-9 and s + t <= 1 + 1e-9:
                    a, b_, c_ = (dot(gaze.toward, corner) for corner in (face[0], b, c))
                    yield a + s * (b_ - a) + t * (c_ - a)


def check_by_rays(seen: Seen, solid: Solid, solids: list[Solid], gaze: Gaze) -> None:
    """At the middle of what is told visible a ray meets the solid first on one side at least; else on neither."""
    step = 30.0
    around = [(dx * step, dy * step) for dx, dy in product((-1, 0, 1), repeat=2) if dx or dy]
    for spots, expected in ((seen.visible, True), (seen.hidden, False)):
        for x, y in _middles(spots):
            first = False
            for dx, dy in around:
                own = list(_depths(solid.faces, gaze, (x + dx, y + dy)))
                others = [
                    depth
                    for other in solids
                    if other is not solid
                    for depth in _depths(other.faces, gaze, (x + dx, y + dy))
                ]
                first |= bool(own) and all(depth <= max(own) + 2 for depth in others)
            assert first is expected, (x / INCH, y / INCH)


_SIZES = st.tuples(*[st.integers(1, 6)] * 3)
_PLACES = st.tuples(*[st.integers(-4, 4)] * 3)
_TURNS = (
    (X, Y, Z),
    (Z, X, Y),
    (X, (Fraction(0), Fraction(4, 5), Fraction(3, 5)), (Fraction(0), Fraction(-3, 5), Fraction(4, 5))),
    ((Fraction(12, 13), Fraction(5, 13), Fraction(0)), (Fraction(-5, 13), Fraction(12, 13), Fraction(0)), Z),
)
_GAZES = (FRONT, Gaze((1.0, 0.0, 0.0), unit((0.0, 1.0, 1.0))), Gaze(unit((1.0, 1.0, 0.0)), unit((1.0, -1.0, 2.0))))


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    boxes=st.lists(st.tuples(_SIZES, _PLACES, st.sampled_from(_TURNS)), min_size=2, max_size=4),
    gaze=st.sampled_from(_GAZES),
)
def test_what_is_seen_agrees_with_rays(
    boxes: list[tuple[tuple[int, int, int], tuple[int, int, int], tuple[Vector, Vector, Vector]]], gaze: Gaze
) -> None:
    """Boxes anywhere, even through each other; a little apart, since a ray cannot tell edges that coincide."""
    apart = [(n * INCH / 7, n * INCH / 11, n * INCH / 13) for n in range(len(boxes))]
    solids = [solid_of(part(*each), n, apart[n]) for n, each in enumerate(boxes)]
    for seen, solid in zip(looks(*solids, gaze=gaze), solids, strict=True):
        check_by_rays(seen, solid, solids, gaze)

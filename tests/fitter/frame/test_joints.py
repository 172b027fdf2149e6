"""How each kind of contact is fastened, on a few parts at a time."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, pairwise

import numpy as np
import pytest
from hand_built import ARMED, INSIDE, OPEN, Chain, Row, lay_out
from pairs import POST, R, joined, metric, mitred, part, rail, turned, units
from yards import ALONG, SQUARE, project

from fitter.domain.cushions import Option
from fitter.domain.frame import SlatFixing
from fitter.domain.layout import Side
from fitter.domain.project import Project
from fitter.domain.woodwork import Fastener, Fixing, Housing, Joint, Part, Vector
from fitter.frame import build_frame
from rooms.lengths import Length


def only(*parts: Part, project: Project | None = None) -> Joint:
    (joint,) = joined(*parts, project=project)
    return joint


def spots(fasteners: Iterable[Fastener], axis: int, end: str = "head") -> list[Fraction]:
    """Where they lie along an axis, in inches."""
    return sorted(Fraction(getattr(f, end)[axis]) / units("1") for f in fasteners)


def way(fastener: Fastener) -> tuple[float, ...]:
    """Unit vector from head to tip."""
    step = [float(b - a) for a, b in zip(fastener.head, fastener.tip, strict=True)]
    return tuple(x / fastener.length.units for x in step)


# Rails at posts.


@pytest.mark.parametrize(("width", "number"), [("7/2", 2), ("11/2", 3), ("29/4", 4)])
def test_a_rail_end_takes_pocket_screws_by_its_width(width: str, number: int) -> None:
    joint = only(rail(width), POST)
    assert joint.parts == (0, 1)
    assert len(joint.fasteners) == number
    assert {(f.kind, f.size, f.length) for f in joint.fasteners} == {(Fixing.POCKET_SCREW, "#8", Length.inches("5/2"))}


def test_pocket_screws_come_from_the_inner_face_and_leave_at_mid_thickness() -> None:
    for screw in only(rail(), POST).fasteners:
        # The front rail's inner face looks back, at y = 0; the butting end is at x = 3 1/2, the post beyond it.
        assert way(screw) == pytest.approx((-0.96596, 0.25868, 0.0), abs=1e-4)
        assert 0 < screw.head[1] < units("3/4")
        share = (screw.head[0] - units("7/2")) / (screw.head[0] - screw.tip[0])
        assert screw.head[1] + share * (screw.tip[1] - screw.head[1]) == pytest.approx(units("3/4"), abs=1)


def test_back_rails_are_bored_from_the_front_and_panel_rails_from_behind() -> None:
    for role, sign in ((R.BACK_RAIL, -1), (R.TOP_RAIL, 1), (R.BOTTOM_RAIL, 1)):
        assert {way(screw)[1] * sign > 0 for screw in only(rail(role=role), POST).fasteners} == {True}


def test_pockets_keep_off_a_cleat() -> None:
    cleat = part(R.CLEAT, ("7/2", "-3/2", "8", "87/2", "0", "19/2"), 0, 2)
    joints = joined(rail(), POST, cleat)
    heights = spots(joints[0].fasteners, 2)
    assert len(heights) == 3
    # The mouth is 3/8 in wide.
    assert all(z < 8 - Fraction(3, 16) or z > Fraction(19, 2) + Fraction(3, 16) for z in heights)


def test_rails_on_both_sides_of_a_post_do_not_meet_in_it() -> None:
    thin = part(R.SUPPORT_POST, ("2", "-1/2", "0", "7/2", "3/2", "12"), 2, 1)
    other = part(R.FRONT_RAIL, ("-38", "0", "5", "2", "3/2", "21/2"), 0, 2)
    first, second = joined(rail(), thin, other)
    heights = spots(first.fasteners + second.fasteners, 2)
    assert len(heights) == 6
    assert min(b - a for a, b in pairwise(heights)) >= Fraction(3 * 164, 1000) - Fraction(1, 100)


def test_a_housed_rail_is_screwed_and_glued() -> None:
    box = [Length(units(x)) for x in ("5", "12", "3", "7/2", "2", "7/2")]
    post = part(R.SUPPORT_POST, ("0", "-2", "0", "7/2", "3/2", "12"), 2, 0)
    post = replace(post, housings=(Housing(*box),))
    long = part(R.FRONT_RAIL, ("3", "0", "5", "40", "3/2", "12"), 0, 2)
    joint = only(long, post)
    assert joint.housed
    assert joint.glued
    assert len(joint.fasteners) == 4
    assert max(spots(joint.fasteners, 0, "tip")) < 3
    assert not only(rail(), POST).housed


def test_a_ledger_is_screwed_to_its_post_and_bears_the_rail() -> None:
    ledger = part(R.LEDGER, ("7/2", "0", "3/2", "5", "3/2", "5"), 2, 1)
    rail_to_post, bearing, on_post = sorted(joined(rail(), POST, ledger), key=lambda joint: sorted(joint.parts))
    assert len(rail_to_post.fasteners) == 3
    assert bearing.fasteners == ()
    assert (bearing.parts, bearing.says) == ((0, 2), "bears on it")
    assert (on_post.parts, len(on_post.fasteners)) == ((2, 1), 2)


# Cleats and slats.


def test_cleat_screws_are_staggered_and_at_most_eight_inches_apart() -> None:
    cleat = part(R.CLEAT, ("7/2", "-3/2", "8", "87/2", "0", "19/2"), 0, 2)
    joint = only(rail(), cleat)
    assert joint.parts == (1, 0)
    along = spots(joint.fasteners, 0)
    assert max(b - a for a, b in pairwise(along)) <= 8
    assert along[0] - Fraction(7, 2) <= 2
    assert Fraction(87, 2) - along[-1] <= 2
    heights = [f.head[2] for f in sorted(joint.fasteners, key=lambda f: f.head[0])]
    assert all(a != b for a, b in pairwise(heights))
    assert {f.head[1] for f in joint.fasteners} == {-units("3/2")}


def test_a_short_cleat_has_two_screws() -> None:
    short = part(R.SHORT_CLEAT, ("0", "3/2", "8", "7/2", "3", "19/2"), 0, 2)
    assert len(only(POST, short).fasteners) == 2


SLAT = part(R.SEAT_SLAT, ("10", "-20", "19/2", "31/2", "0", "21/2"), 1, 0)
CLEAT = part(R.CLEAT, ("7/2", "-3/2", "8", "87/2", "0", "19/2"), 0, 2)


def test_a_seat_slat_has_two_screws_a_bearing() -> None:
    joint = only(SLAT, CLEAT)
    assert len(joint.fasteners) == 2
    for screw in joint.fasteners:
        assert screw.countersunk
        # It ends less than 15 diameters away.
        assert screw.pilot > 0
        assert screw.head[2] == units("21/2")
        assert units("8") + units("1/8") <= screw.tip[2] <= units("19/2") - 6 * screw.diameter
    # The edge distance of 2 1/2 diameters, in the slat and in the cleat.
    assert all(Fraction(41, 100) < x - 10 < Fraction(11, 2) - Fraction(41, 100) for x in spots(joint.fasteners, 0))
    # From the slat's end 5 diameters, as the cleat leaves room for it.
    assert all(Fraction(82, 100) < -y < Fraction(3, 2) - Fraction(41, 100) for y in spots(joint.fasteners, 1))


def test_slats_may_be_nailed() -> None:
    asked = project()
    made = replace(asked.frame.carpentry, slat_fixing=SlatFixing.NAILS)
    joint = only(SLAT, CLEAT, project=replace(asked, frame=replace(asked.frame, carpentry=made)))
    assert [(f.kind, f.countersunk) for f in joint.fasteners] == [(Fixing.NAIL, False)] * 2


def test_screws_of_slat_and_cleat_keep_three_diameters() -> None:
    joints = joined(rail(), CLEAT, SLAT)
    screws = [screw for joint in joints for screw in joint.fasteners]
    assert len(screws) > 6
    for one, other in combinations(screws, 2):
        assert nearest(one, other) >= 3 * (float(one.diameter) + float(other.diameter)) / 2 - 2


def nearest(one: Fastener, other: Fastener) -> float:
    """Least distance between points taken along two fasteners."""
    shares = np.linspace(0, 1, 41)[:, None]
    lines = []
    for f in (one, other):
        head, tip = (np.array([float(x) for x in point]) for point in (f.head, f.tip))
        lines.append(head + shares * (tip - head))
    return float(np.linalg.norm(lines[0][:, None] - lines[1][None], axis=2).min())


def test_a_slat_that_only_ends_at_a_post_needs_nothing() -> None:
    joint = only(part(R.SEAT_SLAT, ("0", "-20", "9", "7/2", "-2", "10"), 1, 0), POST)
    assert joint.fasteners == ()
    assert joint.says


def test_a_back_slat_has_two_screws_at_a_rail() -> None:
    slat = part(R.BACK_SLAT, ("10", "-3/4", "2", "27/2", "0", "30"), 2, 0)
    joint = only(rail("7/2", R.BOTTOM_RAIL), slat)
    assert joint.parts == (1, 0)
    assert [f.length for f in joint.fasteners] == [Length.inches("2")] * 2


# Uprights, ends, feet, tables.


def upright(x0: str = "10", x1: str = "27/2", depth: str = "3/2", piece: int = 1) -> Part:
    return part(R.UPRIGHT, (x0, f"-{depth}", "5", x1, "0", "35"), 2, 0 if depth == "3/2" else 1, piece=piece)


def test_an_upright_is_bolted_to_the_back_rail_where_a_nut_can_be_put_on() -> None:
    back = rail("29/4", R.BACK_RAIL)
    cleat = part(R.CLEAT, ("7/2", "3/2", "39/4", "87/2", "3", "45/4"), 0, 2)
    joint = joined(back, upright(), cleat)[0]
    assert joint.parts == (1, 0)
    bolts = joint.fasteners
    assert [(f.kind, f.size, f.length) for f in bolts] == [(Fixing.BOLT, '3/8"', Length.inches("7/2"))] * 2
    # From the upright's back to the rail's inner face, below the cleat by half a washer.
    assert {(f.head[1], f.tip[1]) for f in bolts} == {(-units("3/2"), units("3/2"))}
    assert all(5 < z <= Fraction(39, 4) - Fraction(1, 2) for z in spots(bolts, 2))


def test_an_upright_with_no_room_for_bolts_is_screwed() -> None:
    narrow = part(R.BACK_RAIL, ("7/2", "0", "5", "87/2", "3/2", "23/4"), 0, 2)
    joint = only(narrow, upright())
    assert {f.kind for f in joint.fasteners} == {Fixing.SCREW}


def test_an_upright_is_screwed_to_the_next_at_a_corner_from_its_flat_side() -> None:
    flat, edge = upright(), part(R.UPRIGHT, ("10", "0", "5", "23/2", "7/2", "35"), 2, 1, run=Side.RIGHT)
    joint = only(edge, flat)
    assert joint.parts == (1, 0)
    assert {(f.kind, f.head[1]) for f in joint.fasteners} == {(Fixing.SCREW, -units("3/2"))}


def test_the_edge_of_an_upright_is_screwed_at_an_angle_from_behind() -> None:
    piece = part(R.ARM_PIECE, ("27/2", "-2", "0", "17", "3/2", "24"), 2, 1)
    joint = only(upright(), piece)
    assert joint.parts == (0, 1)
    assert len(joint.fasteners) >= 2
    for screw in joint.fasteners:
        assert screw.kind is Fixing.POCKET_SCREW
        assert way(screw)[1] > 0.2


def test_two_posts_on_a_split_line_take_two_bolts() -> None:
    one = part(R.SUPPORT_POST, ("0", "0", "1", "7/2", "7/2", "12"), 2, 0, piece=1)
    other = part(R.SUPPORT_POST, ("7/2", "0", "1", "7", "7/2", "12"), 2, 0, piece=2)
    joint = only(one, other)
    assert [(f.kind, f.length) for f in joint.fasteners] == [(Fixing.BOLT, Length.inches("15/2"))] * 2


def test_uprights_of_two_pieces_are_bolted() -> None:
    joint = only(upright(), upright("27/2", "17", piece=2))
    assert {f.kind for f in joint.fasteners} == {Fixing.BOLT}


def test_a_mitre_is_glued_with_two_screws_that_no_rain_stands_on() -> None:
    upright = mitred(part(R.ARM_PIECE, ("0", "0", "0", "7/2", "7/2", "24"), 2, 1), low=True)
    across = mitred(part(R.ARM_PIECE, ("0", "0", "0", "7/2", "28", "7/2"), 1, 2), low=True)
    joint = only(upright, across)
    assert joint.glued
    assert joint.parts == (0, 1)
    assert len(joint.fasteners) == 2
    for screw in joint.fasteners:
        assert screw.head[1] == 0
        assert screw.head[2] == screw.tip[2]


def test_a_foot_is_sealed_and_screwed_from_below() -> None:
    joint = only(POST, part(R.FOOT, ("0", "-2", "-3/4", "7/2", "3/2", "0"), 0, 1))
    assert joint.parts == (1, 0)
    assert joint.glued
    assert {f.head[2] for f in joint.fasteners} == {-units("3/4")}
    assert len(joint.fasteners) == 2


def test_a_table_is_screwed_from_below_and_its_boards_from_above() -> None:
    bearer = part(R.TABLE_BEARER, ("5", "-10", "21/2", "25", "-17/2", "14"), 0, 2)
    board = part(R.TABLE_BOARD, ("10", "-20", "14", "31/2", "0", "15"), 1, 0)
    below, above = joined(SLAT, bearer, board)
    assert (below.parts, {f.head[2] for f in below.fasteners}) == ((0, 1), {units("19/2")})
    assert (above.parts, {f.head[2] for f in above.fasteners}) == ((2, 1), {units("15")})
    assert len(below.fasteners) == len(above.fasteners) == 2


def test_legs_and_end_rails() -> None:
    leg = part(R.LEG, ("-3/2", "20", "1", "0", "47/2", "12"), 2, 1)
    end = part(R.END_RAIL, ("-3/2", "7/2", "5", "0", "20", "12"), 1, 2)
    # Parts of the run, which tell where its inside is.
    inside = part(R.SEAT_SLAT, ("30", "0", "11", "35", "20", "12"), 1, 0)
    joint = only(leg, end, inside)
    assert joint.parts == (1, 0)
    assert {way(screw)[0] < 0 for screw in joint.fasteners} == {True}


# Sizes and words.


def test_a_metric_shop_takes_metric_screws() -> None:
    joint = only(SLAT, CLEAT, project=metric())
    assert {(f.size, f.length) for f in joint.fasteners} == {("4 mm", Length.millimetres(60))}
    assert "4 mm × 60 mm, from above" in joint.says


def test_what_is_said() -> None:
    assert only(rail(), POST).says == '3 pocket screws #8 × 2 1/2", bored from behind'
    crowded = part(R.SUPPORT_POST, ("15/4", "-1", "0", "4", "3/2", "12"), 2, 1)
    short = part(R.FRONT_RAIL, ("4", "0", "5", "87/2", "3/2", "21/2"), 0, 2)
    assert only(short, crowded).says == "only touches"


def test_turned_parts_are_fastened_alike() -> None:
    plain = only(SLAT, CLEAT)
    cos, sin = Fraction(12, 13), Fraction(5, 13)
    askew = only(turned(SLAT, cos, sin, 2), turned(CLEAT, cos, sin, 2))

    def spun(point: Vector) -> Vector:
        return cos * point[0] - sin * point[1], sin * point[0] + cos * point[1], point[2]

    assert [(f.head, f.tip) for f in askew.fasteners] == [(spun(f.head), spun(f.tip)) for f in plain.fasteners]


# A whole frame.


@pytest.fixture(scope="module")
def frame() -> tuple[Project, tuple[Part, ...], tuple[Joint, ...]]:
    option = Option(SQUARE)
    asked = project()
    wide = replace(asked.frame, arm_thickness=Length.inches("7/2"), open_end_thickness=Length.inches("3/2"))
    asked = replace(asked, frame=wide)
    chain = Chain(
        Length.inches(20), Length.inches(10), Row(option, 4, (2,), (2,)), Row(option, 3, (), ()), None, INSIDE,
        ends=(OPEN, ARMED),
    )  # fmt: skip
    woodwork = build_frame(asked, lay_out(asked, ALONG, chain))
    return asked, woodwork.parts, woodwork.joints


def test_the_same_frame_is_fastened_the_same(frame: tuple[Project, tuple[Part, ...], tuple[Joint, ...]]) -> None:
    asked, parts, joints = frame
    assert joined(*parts, project=asked) == joints


def test_every_contact_has_one_joint_that_says_how(
    frame: tuple[Project, tuple[Part, ...], tuple[Joint, ...]],
) -> None:
    _, parts, joints = frame
    pairs = [tuple(sorted(joint.parts)) for joint in joints]
    assert pairs == sorted(set(pairs))
    assert all(joint.says for joint in joints)
    assert not [joint.says for joint in joints if "no room" in joint.says]
    fastened = {i for joint in joints if joint.fasteners for i in joint.parts}
    assert fastened == set(range(len(parts)))


def test_no_two_screws_of_a_frame_meet(frame: tuple[Project, tuple[Part, ...], tuple[Joint, ...]]) -> None:
    _, _, joints = frame
    screws = sorted((f for joint in joints for f in joint.fasteners), key=lambda f: f.head[0])
    assert len(screws) > 300
    for i, one in enumerate(screws):
        for other in screws[i + 1 :]:
            if other.head[0] - one.head[0] > units("3"):
                break
            if max(abs(a - b) for a, b in zip(one.head[1:], other.head[1:], strict=True)) < units("6"):
                assert nearest(one, other) >= 3 * float(min(one.diameter, other.diameter)) - 2

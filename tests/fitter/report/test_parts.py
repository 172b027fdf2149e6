"""What is told of a frame: a bench whose every number is known, then frames that were built for layouts."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from functools import cache
from io import StringIO
from itertools import pairwise
from typing import Any

import pytest
from hand_built import INSIDE, TABLE
from report_layouts import courtyard, layout, result
from report_woodwork import ARM, BENCH, BOLT, FIRST, FRONT_RAIL, LEVELS, SECOND, inch, spot

from fitter.domain.findings import Finding, Severity
from fitter.domain.frame import Carry
from fitter.domain.layout import Layout, Pose, Verdict
from fitter.domain.outcome import FrameResult
from fitter.domain.woodwork import Fastener, Fixing, Housing, Joint, Woodwork
from fitter.frame import build_frame
from fitter.report.document import written
from fitter.report.fault import frame_bundle
from fitter.report.parts import rows, sums
from fitter.report.parts.batches import batches, board_feet, feet, pieces, running_lengths, volume
from fitter.report.parts.bored import bored as bored_lines
from fitter.report.parts.document import in_room, parts_document
from fitter.report.parts.holes import Bore, drill, holes, told_drill
from fitter.report.parts.tables import print_parts
from fitter.report.parts.weight import density, told_weight, weight
from fitter.report.terminal import console
from fitter.report.words import teller
from rooms.geometry import Point
from rooms.lengths import ZERO, Unit

PROJECT = courtyard()
CUT = teller(Unit.IN, feet=False)


def framed(woodwork: Woodwork = BENCH, shown: Layout | None = None, *, rank: int = 1) -> FrameResult:
    """A frame that passed its proof, of the first layout of an answer with two."""
    found = result(shown or layout(3), layout(4))
    return FrameResult(found, next((each for each in found.layouts if each.rank == rank), None), rank, woodwork)


def printed(one: FrameResult, project: Any = PROJECT) -> str:
    out = StringIO()
    print_parts(console(out), project, one)
    return out.getvalue()


def lines(one: FrameResult) -> str:
    """What is printed, unbroken."""
    return " ".join(printed(one).split())


def bored(woodwork: Woodwork = BENCH) -> list[str]:
    every = holes(woodwork, Unit.IN)
    return list(bored_lines(batches(woodwork), every, CUT, lambda width: told_drill(width, Unit.IN)))


def test_parts_are_listed_with_their_lengths() -> None:
    assert list(rows.parts(batches(BENCH), CUT)) == [
        ("M-P1", "support post", "4x4", '11 1/4"', "", "1"),
        ("M-P2", "support post", "4x4", '11 1/4"', "", "1"),
        ("M-FR1", "front rail", "2x8", '40 1/2"', "", "1"),
        ("M-C1", "cleat", "2x2", '40"', "", "1"),
        ("M-S1", "seat slat", "5/4x6", '20"', "", "1"),
        ("R-A1", "end panel piece", "4x4", '27"', '20"', "1"),
        ("M-F1", "foot", "1x4", '3 1/2"', "", "1"),
        ("M-F2", "foot", "1x4", '3 1/2"', "", "1"),
    ]


def test_equal_parts_are_one_row() -> None:
    twins = replace(BENCH, parts=(FIRST, replace(FIRST, place="line 4"), replace(FIRST, place="line 2")))
    (batch,) = batches(twins)
    assert [row[-1] for row in rows.parts((batch,), CUT)] == ["3"]
    assert list(rows.places((batch,))) == [("M-P1", "line 1, 2, 4", "")]


def test_ripped_part_names_its_size() -> None:
    slim = replace(FRONT_RAIL, width=inch(5))
    assert rows.section(slim, CUT) == '2x8, 5" wide'
    assert rows.section(replace(slim, thickness=inch("3/4")), CUT) == '2x8, 5" wide, 3/4" thick'


def test_slanted_ends_say_where_the_long_point_is() -> None:
    # Its side at b = width lies toward -y, where the corner of a right arm is.
    assert list(rows.slanted(batches(BENCH), CUT)) == [("R-A1", "both", "45° across the face", '3 1/2"', "corner side")]


def test_ends_that_slant_apart_are_told_one_by_one() -> None:
    first, last = ARM.cuts
    skewed = replace(BENCH, parts=(replace(ARM, cuts=(first, replace(last, low=not last.low))),))
    assert [(row[1], row[4]) for row in rows.slanted(batches(skewed), CUT)] == [
        ("back", "corner side"),
        ("front", "far side"),
    ]


def test_housing_is_told_from_the_faces_that_a_maker_sees() -> None:
    assert list(rows.housed(batches(BENCH), CUT)) == [
        ("M-P1", '4" to 11 1/4" from the bottom end', '1" to 2 1/2" from the back side', '1/2" from the left side')
    ]


def test_housing_across_a_whole_face() -> None:
    cut = Housing(ZERO, inch(2), ZERO, inch("7/2"), inch(3), inch("7/2"))
    half = replace(BENCH, parts=(replace(FIRST, housings=(cut,)),))
    assert list(rows.housed(batches(half), CUT)) == [
        ("M-P1", '0" to 2" from the bottom end', "the whole width", '1/2" from the front side')
    ]


def test_holes_are_told_from_ends_and_edges() -> None:
    # Only of the parts that are held: the cleat's pilot holes are bored through the slat's.
    assert bored() == [
        'M-FR1, back face, pocket for #8, from the right end and the bottom: 4" at 3 1/4"',
        'M-S1, top face, 11/64" for #8, countersunk, from the front end and the right: 3/4" at 1" and 4 1/2"',
    ]
    cleat = [(hole.bore, hole.face, hole.depth, hole.drill, hole.spot[0]) for hole in holes(BENCH, Unit.IN)[3]]
    assert cleat == [(Bore.PILOT, "top", inch(1), inch("3/32"), inch(at)) for at in ("15/2", 11)]


def test_sticks_that_are_bored_differently_are_numbered() -> None:
    slats = (BENCH.parts[4], replace(BENCH.parts[4], origin=spot(20, 1, 11)), replace(BENCH.parts[4]))
    low = Fastener(Fixing.SCREW, "#8", Fraction(1000), inch(2), spot(11, 0, 12), spot(11, 0, 10), 0, 1)
    pairs = [replace(low, through=0), replace(low, head=spot(22, 0, 12), tip=spot(22, 0, 10), through=1)]
    joints = (Joint((0, 1), (pairs[0], pairs[1], replace(low, through=2))),)
    assert bored(Woodwork(slats, joints, LEVELS)) == [
        'M-S1 1, 3, top face, 1/8" for #8, from the front end and the right: 1" at 1"',
        'M-S1 2, top face, 1/8" for #8, from the front end and the right: 1" at 2"',
    ]


def test_sticks_that_go_to_places_of_their_own_are_named_by_them() -> None:
    rails = tuple(replace(FRONT_RAIL, place=f"front bay {bay}") for bay in (1, 2, 3))
    low = Fastener(Fixing.SCREW, "#8", Fraction(1000), inch(2), spot(13, 1, 8), spot(13, 3, 8), 0, 0)
    far = replace(low, head=spot(14, 1, 8), tip=spot(14, 3, 8), through=2)
    joints = (Joint((0, 1), (low, replace(low, through=1), far)),)
    assert bored(Woodwork(rails, joints, LEVELS)) == [
        'M-FR1 front bay 1, 2, back face, 1/8" for #8, from the right end and the bottom: 10" at 3 1/4"',
        'M-FR1 front bay 3, back face, 1/8" for #8, from the right end and the bottom: 11" at 3 1/4"',
    ]


def test_holes_at_like_places_across_are_told_together() -> None:
    at = [("11", "1/4"), ("29/2", "1/4"), ("11", "-1"), ("29/2", "-1"), ("12", "-2")]
    screws = tuple(
        Fastener(Fixing.SCREW, "#8", Fraction(1000), inch(2), spot(x, y, 12), spot(x, y, 10), 0, 0) for x, y in at
    )
    (line,) = bored(Woodwork((BENCH.parts[4],), (Joint((0, 0), screws),), LEVELS))
    assert line.endswith('from the front end and the right: 3/4" and 2" at 1" and 4 1/2"; 3" at 2"')


def test_bolt_is_bored_through_both_parts() -> None:
    own = replace(BENCH, parts=(FIRST, SECOND), joints=(Joint((0, 1), (replace(BOLT, into=1),)),))
    (hole,) = holes(own, Unit.IN)[0]
    assert (hole.bore, hole.through, hole.face, hole.depth) == (Bore.BOLT, True, "back", inch("7/2"))
    # 1/32 in wider than the bolt.
    assert (hole.drill, hole.spot) == (inch("13/32"), (inch("5/4"), inch(1), ZERO))
    assert holes(own, Unit.IN)[1] == ()  # its way does not meet the other post


@pytest.mark.parametrize(
    ("kind", "bore", "unit", "drilled"),
    [
        # A shank of 0.164 in wants the next 1/64 in above it, one of 4.2 mm the next half millimetre.
        (Fixing.SCREW, Bore.CLEARANCE, Unit.IN, '11/64"'),
        (Fixing.SCREW, Bore.CLEARANCE, Unit.MM, "4.5 mm"),
        (Fixing.SCREW, Bore.PILOT, Unit.IN, '3/32"'),
        (Fixing.SCREW, Bore.PILOT, Unit.MM, "2.5 mm"),
        (Fixing.BOLT, Bore.BOLT, Unit.IN, '13/64"'),
        (Fixing.BOLT, Bore.BOLT, Unit.MM, "5.5 mm"),
        (Fixing.NAIL, Bore.CLEARANCE, Unit.IN, '3/32"'),
    ],
)
def test_drills_are_those_that_are_sold(kind: Fixing, bore: Bore, unit: Unit, drilled: str) -> None:
    diameter, pilot = Fraction("0.164") * inch(1).units, Fraction("0.095") * inch(1).units
    one = replace(BOLT, kind=kind, diameter=diameter, pilot=pilot)
    assert told_drill(drill(one, bore, unit), unit) == drilled


def test_heights_come_from_the_top_down() -> None:
    assert list(rows.levels(BENCH, CUT, table=False)) == [
        ("top of the backs", '35"'),
        ("top of armed ends", '24"'),
        ("top of a seat cushion, nobody on it", '17"'),
        ("top of a seat cushion that is sat on", '16"'),
        ("underside of the backs", '15 1/4"'),
        ("top of rails and seat slats", '12"'),
        ("top of the cleats", '11"'),
        ("underside of the rails", '4 3/4"'),
        ("top of the feet", '3/4"'),
    ]
    assert ("top of the table", '17"') in list(rows.levels(BENCH, CUT, table=True))


def test_lean_is_told_where_there_is_one() -> None:
    made = replace(PROJECT.frame.carpentry, lean=Fraction(15, 2))
    assert "The backs lean 7.5° from upright" in printed(
        framed(), replace(PROJECT, frame=replace(PROJECT.frame, carpentry=made))
    )
    assert "backs lean" not in printed(framed())


def test_feet_stand_where_the_floor_is() -> None:
    low = sums.standing(BENCH, CUT)
    assert list(low) == [
        ('1 1/4"', "1", "main", "support post", "line 2"),
        ('3/4"', "1", "main", "support post", "line 1"),
    ]
    assert [foot.under for foot in feet(BENCH)] == [FIRST, SECOND]


def test_spread_is_told_with_its_gaps_and_its_reason() -> None:
    assert list(sums.spreads(BENCH, CUT)) == [("3 seat slats", '24 11/16"', '2"', '2"', '2 1/4"', "main field 1")]
    assert list(sums.spread_lines(BENCH, CUT)) == [
        '3 seat slats in 24 11/16": 4 gaps of 2", but number 3 2 1/16"; 2 slats would leave 4 9/16" gaps'
    ]


def test_joints_of_one_kind_are_one_row() -> None:
    assert list(sums.joints(BENCH, CUT)) == [
        ("front rail to support post", "the rail sits in the post", "1", "M-FR1 to M-P1"),
        ("seat slat to cleat", '2 × #8 × 2" screw', "1", "M-S1 to M-C1"),
    ]
    assert sums.fastened(BENCH.joints[0], CUT) == '1 × #8 × 2 1/2" pocket screw, glue, in a housing'
    assert list(sums.bought_hardware(BENCH, Unit.IN, CUT, lambda width: told_drill(width, Unit.IN))) == [
        ('#8 × 2 1/2" pocket screw', "1", '11/64"', ""),
        ('#8 × 2" screw', "2", '11/64"', '3/32"'),
    ]


def test_sums_by_hand() -> None:
    assert [(section.name, count, length) for section, count, length in running_lengths(BENCH.parts)] == [
        ("4x4", 3, inch("99/2")),
        ("2x8", 1, inch("81/2")),
        ("2x2", 1, inch(40)),
        ("5/4x6", 1, inch(20)),
        ("1x4", 2, inch(7)),
    ]
    rail = Fraction(81, 2) * Fraction(29, 4) * Fraction(3, 2)
    assert board_feet(volume((FRONT_RAIL,))) == rail / 144
    # A pound is 0.45359237 kg and an inch 25.4 mm, so lb/in³ follows from kg/m³.
    pounds = float(rail) * 0.0254**3 * float(density(PROJECT)) / 0.45359237
    assert float(weight(PROJECT, volume((FRONT_RAIL,)))) == pytest.approx(pounds, rel=1e-12)
    assert told_weight(PROJECT, volume((FRONT_RAIL,))) == f"{pounds:.1f} lb"


def test_pieces_are_measured_against_the_way_in() -> None:
    one, two = pieces(BENCH)
    assert two.sides == (inch(27), inch("7/2"), inch("7/2"))
    # Posts 47 in apart over all; the slat reaches from the front of the cleat 19 in beyond the back of the posts.
    assert one.sides == (inch(47), inch("45/2"), inch("25/2"))
    for way, longest, passes in (
        ("25/2", 47, "yes"),
        (12, 47, "no: wider than the way of 1' 0\""),
        (13, 46, "no: longer than 3' 10\""),
    ):
        carry = Carry(inch(way), inch(longest))
        row, _ = sums.carried((one, two), carry, teller(Unit.IN), ("1 lb", "2 lb"))
        assert row[-1] == passes
        assert (one.too_wide(carry) or one.too_long(carry)) == (passes != "yes")


def test_boards_to_measure_are_those_that_nobody_measured() -> None:
    assert [row[0] for row in rows.to_measure(BENCH, CUT)] == ["2x8", "2x2", "5/4x6", "1x4"]
    text = printed(framed())
    assert "measure these boards before anything is cut" in text
    known = [replace(part, section=replace(part.section, measured=True)) for part in BENCH.parts]
    assert "before anything is cut" not in printed(framed(replace(BENCH, parts=tuple(known))))


def test_fall_is_told_only_where_there_is_one() -> None:
    assert 'The floor under the lowest foot is 1/2" below the highest.' in printed(framed())
    assert "lowest foot" not in printed(framed(replace(BENCH, fall=ZERO)))


def test_findings_of_the_frame_are_shown() -> None:
    heavy = Finding("way-too-narrow", "piece 1 does not pass", severity=Severity.CAUTION)
    one = framed(replace(BENCH, findings=(heavy,)))
    assert "caution: piece 1 does not pass" in printed(one)
    assert "way-too-narrow" in [entry["code"] for entry in parts_document(PROJECT, one)["findings"]]


def test_layout_of_a_rank_that_is_not_there() -> None:
    none = replace(framed(rank=3), woodwork=None)
    assert none.verdict is Verdict.UNKNOWN
    assert "unknown: no layout of rank 3 was found before time ran out; the last one has rank 2" in lines(none)
    stopped = replace(none, fit=replace(none.fit, interrupted=True))
    assert "before you stopped the search" in lines(stopped)
    ruled_out = replace(none, fit=replace(none.fit, exhausted=True))
    assert ruled_out.verdict is Verdict.IMPOSSIBLE
    assert "impossible: no layout has rank 3; proven that there is none after rank 2" in lines(ruled_out)
    document = parts_document(PROJECT, ruled_out)
    assert (document["outcome"], document["parts"], document["solids"]) == ("impossible", [], [])
    assert [entry["code"] for entry in document["errors"]] == ["no-such-layout"]


def test_frame_that_fails_its_proof_is_not_shown() -> None:
    wrong = Finding("overlap", "M-P1 and M-FR1 overlap")
    one = replace(framed(), checked=(wrong,))
    assert one.verdict is Verdict.FAULT
    document = parts_document(PROJECT, one)
    assert (document["outcome"], document["parts"]) == ("fault", [])
    assert [entry["code"] for entry in document["errors"]] == ["overlap"]
    text = frame_bundle(one, ["title: x"])
    assert "overlap: M-P1 and M-FR1 overlap" in text
    assert "title: x" in text


FRAMES = {
    "straight": layout(3),
    "L": layout(3, 2),
    "left-handed U": layout(4, 2, 3),
    "inside": layout(3, left=2, corner=INSIDE),
    "table": layout(3, 2, corner=TABLE),
}


@cache
def built(name: str) -> Woodwork:
    return build_frame(PROJECT, FRAMES[name])


@pytest.mark.parametrize("name", FRAMES)
def test_document_holds_the_whole_frame(name: str) -> None:
    """Counts, volumes and places of the document are those of the frame, recomputed from its bare numbers."""
    shown = FRAMES[name]
    turned = replace(shown, pose=Pose(Point(inch(100), inch(-20)), Fraction(3, 5), Fraction(4, 5), "AB"))
    work = built(name)
    document = json.loads(written(parts_document(PROJECT, framed(work, turned))))
    assert sum(part["count"] for part in document["parts"]) == len(document["solids"]) == len(work.parts)
    for part in document["parts"]:
        assert len(part["solids"]) == part["count"]
        for number in part["solids"]:
            solid = document["solids"][number]
            assert (solid["mark"], solid["role"]) == (part["mark"], part["role"])
            # The sum of signed tetrahedra is positive only if every face is seen anticlockwise from outside.
            assert signed_volume(solid) == pytest.approx(part["volume"], rel=1e-4)
    total = document["totals"]
    assert sum(row["length"] for row in total["sections"]) == pytest.approx(
        sum(part["length"] * part["count"] for part in document["parts"])
    )
    assert total["weight"] == pytest.approx(
        sum(part["weight"] * part["count"] for part in document["parts"]), abs=0.01 * len(work.parts)
    )
    assert min(vertex[2] for solid in document["solids"] for vertex in solid["vertices"]) == 0


def signed_volume(solid: Any) -> float:
    """Of a closed mesh, by the tetrahedra that its faces span with the origin."""
    total = 0.0
    for face in solid["faces"]:
        a, *others = (solid["vertices"][n] for n in face)
        for b, c in pairwise(others):
            total += a[0] * (b[1] * c[2] - b[2] * c[1])
            total += a[1] * (b[2] * c[0] - b[0] * c[2])
            total += a[2] * (b[0] * c[1] - b[1] * c[0])
    return total / 6


def test_solids_lie_in_the_room() -> None:
    pose = Pose(Point(inch(100), inch(-20)), Fraction(3, 5), Fraction(4, 5), "AB")
    x, y, z = in_room(pose, (inch(10).units, inch(5).units, inch(2).units))
    assert (x, y, z) == (inch(102).units, inch(-9).units, inch(2).units)
    assert in_room(pose, (inch(10).units, inch(5).units, 0))[:2] == pose.to_room(inch(10), inch(5))


@pytest.mark.parametrize("name", FRAMES)
def test_tables_tell_of_every_part_and_fit_the_terminal(name: str) -> None:
    work = built(name)
    text = printed(framed(work, FRAMES[name]))
    lines = text.splitlines()
    assert max(map(len, lines)) <= 80
    for batch in batches(work):
        assert any(line.startswith(f"{batch.mark} ") for line in lines)
    assert f"{len(work.parts)} parts of {len(batches(work))} marks" in " ".join(lines)
    assert ("top of the table" in text) == (name == "table")


def test_holes_of_a_real_frame_lie_in_its_parts() -> None:
    work = built("L")
    for part, bored in zip(work.parts, holes(work, Unit.IN), strict=True):
        for hole in bored:
            sizes = (part.length, part.width, part.thickness)
            assert all(ZERO <= at <= size for at, size in zip(hole.spot, sizes, strict=True))
            assert hole.spot[hole.flat] in (ZERO, sizes[hole.flat])
            assert hole.depth > ZERO


def test_metric_frame_is_told_in_millimetres() -> None:
    metric = replace(PROJECT, unit=Unit.MM, findings=())
    text = printed(framed(replace(BENCH, spreads=())), metric)
    assert " kg of Douglas-fir" in text
    assert "m³ of finished wood" in text
    assert '"' not in text

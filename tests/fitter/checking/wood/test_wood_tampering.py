"""Every way to tamper with a frame is told by its own code, and there is one for every code of the proof."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from framed_yards import built, fitting, unjoined
from hand_built import ANGLE, INSIDE, LOW, OUTSIDE, RIGHT, TABLE
from mutations import changed, codes, each, find, moved, shifted, with_parts, with_wood, without
from yards import ell, inch, straight, yards

import fitter.checking.wood
from fitter.checking import check_woodwork
from fitter.checking.wood import JOINTS, SOLIDS
from fitter.checking.wood.built import Built
from fitter.domain.findings import Severity
from fitter.domain.frame import EndPanel, RailJoint
from fitter.domain.woodwork import Fixing, Joint, PartRole
from rooms.lengths import Length
from rooms.room import Slope

LINE, ELL, TABLED = (unjoined(fitting(yard)) for yard in (straight(), ell(INSIDE, RIGHT), ell(TABLE, RIGHT)))
LEDGED = unjoined(fitting(ell(OUTSIDE, RIGHT), rail_joint=RailJoint.LEDGER))
POSTED = unjoined(fitting(straight(), end_panel=EndPanel.POSTS))
ANGLED, LOWERED, HELD = (built(fitting(ell(corner, RIGHT))) for corner in (ANGLE, LOW, INSIDE))
JOINED, SPLIT = built(fitting(straight())), built(fitting(yards()["split straight"]))

SLAT, CLEAT, SHORT, FOOT, BOARD, BEARER, LEDGER, UPRIGHT, BACK_SLAT = (
    PartRole.SEAT_SLAT,
    PartRole.CLEAT,
    PartRole.SHORT_CLEAT,
    PartRole.FOOT,
    PartRole.TABLE_BOARD,
    PartRole.TABLE_BEARER,
    PartRole.LEDGER,
    PartRole.UPRIGHT,
    PartRole.BACK_SLAT,
)
CORNER_BOARD = PartRole.CORNER_BOARD
POST, FRONT, TOP, BOTTOM = PartRole.SUPPORT_POST, PartRole.FRONT_RAIL, PartRole.TOP_RAIL, PartRole.BOTTOM_RAIL


def gone(frame: Built, role: PartRole) -> Built:
    """The frame without the first part of a role."""
    return without(frame, find(frame, role))


def off(frame: Built, role: PartRole, axis: int, by: str, place: str = "") -> Built:
    """The frame, the first part of a role shifted by inches."""
    return shifted(frame, find(frame, role, place), axis, by)


def more(frame: Built, role: PartRole, axis: int, by: str) -> Built:
    """The frame with one part more, beside the first of its role."""
    return with_parts(frame, (*frame.parts, moved(frame.parts[find(frame, role)], axis, by)))


def other(frame: Built, role: PartRole, **new: object) -> Built:
    """The frame, the first part of a role changed."""
    return changed(frame, find(frame, role), **new)


def none_of(frame: Built, role: PartRole) -> Built:
    """The frame without any part of a role."""
    return with_parts(frame, tuple(part for part in frame.parts if part.role is not role))


def asking(frame: Built, **made: object) -> Built:
    """The same wood where something else is asked of it."""
    carpentry = replace(frame.made, **made)  # type: ignore[arg-type]
    project = replace(frame.project, frame=replace(frame.project.frame, carpentry=carpentry))
    return Built(project, frame.layout, frame.woodwork)


def jointed(frame: Built, change: Callable[[Joint], Joint | None]) -> Built:
    """The frame, its joints changed; those that become none are left out."""
    joints = tuple(joint for old in frame.woodwork.joints if (joint := change(old)) is not None)
    return with_wood(frame, replace(frame.woodwork, joints=joints))


def bare(frame: Built, *roles: PartRole) -> Built:
    """The frame without fasteners in parts of some roles; without any, if none is named."""

    def strip(joint: Joint) -> Joint:
        held = {frame.parts[number].role for number in joint.parts}
        return replace(joint, fasteners=()) if not roles or held & set(roles) else joint

    return jointed(frame, strip)


def between_backs(frame: Built, keep: Callable[[int, int], bool]) -> Built:
    """The frame, of the screws from one upright to the other at its corner only some left, counted from below."""

    def some(joint: Joint) -> Joint:
        one, other = (frame.parts[number] for number in joint.parts)
        if not one.role is other.role is UPRIGHT or one.run is other.run:
            return joint
        row = sorted(joint.fasteners, key=lambda screw: screw.head[2])
        return replace(joint, fasteners=tuple(screw for n, screw in enumerate(row) if keep(n, len(row))))

    return jointed(frame, some)


def first_joint(frame: Built, **new: object) -> Built:
    """The frame, its first joint with fasteners changed."""
    at = next(n for n, joint in enumerate(frame.woodwork.joints) if joint.fasteners)
    joints = list(frame.woodwork.joints)
    joints[at] = replace(joints[at], **new)  # type: ignore[arg-type]
    return with_wood(frame, replace(frame.woodwork, joints=tuple(joints)))


def far_apart(frame: Built) -> tuple[int, int]:
    """Two parts that do not touch."""
    return find(frame, UPRIGHT), find(frame, POST)


def shorter(frame: Built, role: PartRole, by: str) -> Built:
    """The frame, the first part of a role cut shorter at its far end."""
    return other(frame, role, length=frame.parts[find(frame, role)].length - inch(by))


TAMPERINGS: dict[str, list[Callable[[], Built]]] = {
    "axes-askew": [lambda: other(LINE, POST, along=(Fraction(0), Fraction(1, 9), Fraction(1)))],
    "part-unsawn": [
        lambda: other(LINE, SLAT, length=LINE.parts[find(LINE, SLAT)].length + Length(1)),
        lambda: other(LINE, SLAT, width=inch(6)),
        lambda: other(LINE, SLAT, length=Length(0)),
    ],
    "mark-missing": [lambda: other(LINE, SLAT, mark="")],
    "mark-of-two": [lambda: other(LINE, SLAT, mark=LINE.parts[find(LINE, CLEAT)].mark)],
    "height-astray": [
        lambda: with_wood(LINE, replace(LINE.woodwork, levels=replace(LINE.levels, seat=LINE.levels.seat + inch(1)))),
        lambda: asking(LINE, seat_height=inch(18)),
        lambda: asking(LINE, arm_height=inch(20)),
    ],
    "parts-overlap": [lambda: more(LINE, SLAT, 0, "1"), lambda: off(ELL, PartRole.ARM_PIECE, 2, "1/8")],
    "wood-in-cushion": [lambda: off(LINE, SLAT, 2, "1/2"), lambda: more(ELL, POST, 2, "2")],
    "outside-footprint": [lambda: off(LINE, BACK_SLAT, 1, "-3"), lambda: off(LINE, FOOT, 1, "30")],
    "post-missing": [
        lambda role=role: gone(ELL, role)
        for role in (POST, PartRole.BACK_POST, PartRole.INNER_POST, PartRole.CORNER_POST)
    ],
    "post-unasked": [lambda: more(LINE, POST, 0, "8")],
    "rail-missing": [lambda role=role: gone(ELL, role) for role in (FRONT, PartRole.BACK_RAIL, PartRole.CROSS_RAIL)],
    "rail-unasked": [lambda: more(LINE, FRONT, 1, "-6")],
    "cleat-missing": [lambda: gone(LINE, CLEAT), lambda: shorter(LINE, CLEAT, "8")],
    "deck-missing": [lambda: none_of(LINE, SLAT)],
    "end-incomplete": [
        *(
            lambda place=place: without(LINE, find(LINE, PartRole.ARM_PIECE, place))
            for place in ("top", "bottom", "front", "back")
        ),
        lambda: gone(POSTED, PartRole.ARM_POST),
        *(
            lambda place=place: without(POSTED, find(POSTED, PartRole.ARM_RAIL, place))
            for place in ("arm rail", "seat rail")
        ),
        lambda: off(LINE, PartRole.ARM_RAIL, 2, "1/2", "seat rail"),
        lambda: off(POSTED, PartRole.ARM_RAIL, 0, "-1/4", "arm rail"),
    ],
    "back-incomplete": [lambda: gone(LINE, TOP), lambda: gone(LINE, BOTTOM), lambda: shorter(LINE, TOP, "1")],
    "back-bay-too-wide": [lambda: asking(LINE, back_span=inch(20))],
    "gap-too-wide": [
        lambda: asking(LINE, slat_gap=inch(1)),
        lambda: asking(LINE, back_gap=inch(1)),
        lambda: gone(LINE, BACK_SLAT),
    ],
    "gaps-uneven": [lambda: off(LINE, SLAT, 0, "1/4"), lambda: off(LINE, BACK_SLAT, 0, "1/4")],
    "opening-entraps": [
        lambda: gone(LINE, SLAT),
        lambda: with_wood(
            LINE, replace(LINE.woodwork, levels=replace(LINE.levels, back_bottom=LINE.levels.deck + inch(4)))
        ),
    ],
    "back-height": [lambda: off(LINE, TOP, 2, "-1/4"), lambda: off(LINE, BOTTOM, 2, "1/4")],
    "upright-height": [lambda: off(LINE, UPRIGHT, 2, "1/4")],
    "upright-off-line": [lambda: off(LINE, UPRIGHT, 1, "-1/4")],
    "corner-board-missing": [
        lambda: gone(ANGLED, CORNER_BOARD),
        lambda: off(ANGLED, CORNER_BOARD, 0, "1/8"),
        lambda: other(ANGLED, CORNER_BOARD, length=ANGLED.parts[find(ANGLED, CORNER_BOARD)].length - inch(1)),
    ],
    "corner-board-unasked": [
        lambda: more(ANGLED, CORNER_BOARD, 0, "12"),
        lambda: replace(ANGLED, layout=LOWERED.layout),
    ],
    "table-missing": [lambda: none_of(TABLED, BOARD)],
    "table-height": [lambda: off(TABLED, BOARD, 2, "1/4")],
    "table-gaps": [lambda: gone(TABLED, BOARD), lambda: off(TABLED, BOARD, 1, "1/8")],
    "table-beyond": [lambda: off(TABLED, BOARD, 0, "1")],
    "table-bearer-astray": [lambda: off(TABLED, BEARER, 0, "1")],
    "table-hangs": [lambda: gone(TABLED, BEARER), lambda: off(TABLED, BEARER, 2, "1")],
    "slat-hangs": [
        lambda: shorter(LINE, SLAT, "2"),
        lambda: gone(LINE, CLEAT),
        lambda: gone(LINE, SHORT),
        lambda: off(LINE, CLEAT, 2, "-1/8"),
    ],
    "slat-off-deck": [lambda: off(LINE, SLAT, 2, "-1/8")],
    "slat-stray": [lambda: more(LINE, SLAT, 1, "60")],
    "seat-uncarried": [lambda: gone(LINE, SLAT), lambda: asking(LINE, slat_gap=inch(1))],
    "back-slat-loose": [
        lambda: off(LINE, BACK_SLAT, 1, "-1/4"),
        lambda: off(LINE, BACK_SLAT, 2, "1"),
        lambda: gone(LINE, TOP),
    ],
    "back-slat-uneven": [lambda: off(LINE, BACK_SLAT, 2, "1/8")],
    "cleat-loose": [lambda: off(LINE, CLEAT, 1, "1/8"), lambda: off(LINE, SHORT, 1, "1/8"), lambda: gone(LINE, FRONT)],
    "cleat-height": [lambda: off(LINE, CLEAT, 2, "-1/8")],
    "cleat-astray": [lambda: off(LINE, SHORT, 0, "1/4")],
    "ledger-loose": [lambda: each(LEDGED, LEDGER, lambda part: moved(part, 0, "1/4"))],
    "ledger-idle": [lambda: off(LEDGED, LEDGER, 2, "-1/4")],
    "rail-without-ledger": [lambda: gone(LEDGED, LEDGER)],
    "end-hangs": [
        lambda: gone(LINE, UPRIGHT),
        lambda: gone(LINE, POST),
        lambda: shorter(LINE, FRONT, "1/8"),
        lambda: shorter(LINE, TOP, "1/8"),
        lambda: gone(LINE, PartRole.ARM_PIECE),
    ],
    "foot-height": [lambda: off(LINE, FOOT, 2, "-1/4")],
    "foot-off-floor": [
        lambda: off(LINE, FOOT, 2, "-1/4"),
        lambda: replace(
            LINE, project=replace(LINE.project, room=replace(LINE.project.room, slope=Slope(Fraction(1, 12), "BC")))
        ),
    ],
    "foot-beside": [lambda: off(LINE, FOOT, 0, "1/2")],
    "no-foot": [
        lambda: gone(LINE, FOOT),
        lambda: none_of(LINE, FOOT),
        lambda: without(LINE, find(LINE, FOOT, "end panel")),
    ],
    "not-grounded": [lambda: more(LINE, SLAT, 2, "40"), lambda: none_of(LINE, FOOT)],
}

JOINT_TAMPERINGS: dict[str, list[Callable[[], Built]]] = {
    "joint-astray": [
        lambda: first_joint(JOINED, parts=(0, 9999)),
        lambda: first_joint(JOINED, parts=(3, 3)),
        lambda: first_joint(JOINED, parts=far_apart(JOINED)),
    ],
    "joint-apart": [lambda: first_joint(JOINED, parts=far_apart(JOINED), fasteners=())],
    "joint-twice": [lambda: with_wood(JOINED, replace(JOINED.woodwork, joints=JOINED.woodwork.joints * 2))],
    "joint-unhoused": [lambda: first_joint(JOINED, housed=True)],
    "not-fastened": [
        *(
            lambda role=role: bare(JOINED, role)
            for role in (SLAT, CLEAT, SHORT, FOOT, FRONT, BACK_SLAT, UPRIGHT, TOP, PartRole.ARM_PIECE)
        ),
        lambda: bare(ANGLED, CORNER_BOARD),
        lambda: jointed(
            ANGLED,
            lambda joint: (
                replace(joint, fasteners=())
                if {ANGLED.parts[number].role for number in joint.parts} == {CORNER_BOARD}
                else joint
            ),
        ),
    ],
    "backs-apart": [
        lambda: between_backs(LOWERED, lambda _, __: False),
        lambda: between_backs(LOWERED, lambda n, _: n % 3 == 0),
        lambda: between_backs(LOWERED, lambda n, count: n < count - 3),
        lambda: between_backs(ANGLED, lambda _, __: False),
        lambda: bare(HELD, PartRole.CORNER_POST),
    ],
    "not-held": [lambda: bare(JOINED), lambda: bare(JOINED, SLAT)],
    "split-of-one-piece": [
        lambda: with_wood(SPLIT, replace(SPLIT.woodwork, parts=tuple(replace(part, piece=1) for part in SPLIT.parts)))
    ],
    "split-unbolted": [
        lambda: bare(SPLIT, POST),
        lambda: jointed(
            SPLIT,
            lambda joint: replace(joint, fasteners=tuple(f for f in joint.fasteners if f.kind is not Fixing.BOLT)),
        ),
    ],
}


@pytest.mark.parametrize("code", TAMPERINGS)
def test_tampering_with_solids_is_told(code: str) -> None:
    for tamper in TAMPERINGS[code]:
        assert code in codes(tamper(), SOLIDS)


@pytest.mark.parametrize("code", JOINT_TAMPERINGS)
def test_tampering_with_joints_is_told(code: str) -> None:
    for tamper in JOINT_TAMPERINGS[code]:
        assert code in codes(tamper(), JOINTS)


def test_every_code_has_its_tampering() -> None:
    """No fact of the parts or of what holds them is without a tampering; screws and fills have tests of their own."""
    told = set[str]()
    for file in Path(fitter.checking.wood.__file__).parent.glob("*.py"):
        if file.stem not in ("fasteners", "steel", "shelves", "wide_arms"):
            told.update(re.findall(r"\b(?:fault\(|_of\(built,)\s*\"([a-z-]+)\"", file.read_text("utf-8")))
    assert told == set(TAMPERINGS) | set(JOINT_TAMPERINGS)


@pytest.mark.parametrize("frame", [LINE, ELL, TABLED, LEDGED, POSTED, ANGLED])
def test_nothing_is_told_of_right_frames(frame: Built) -> None:
    assert codes(frame, SOLIDS) == []


@pytest.mark.parametrize("frame", [JOINED, SPLIT, ANGLED, LOWERED, HELD])
def test_nothing_is_told_of_right_frames_with_joints(frame: Built) -> None:
    assert check_woodwork(frame.project, frame.layout, frame.woodwork) == ()


def test_what_is_told_names_part_and_spot() -> None:
    """An error, with the mark, the run, the place, and where in lengths of the project."""
    found = check_woodwork(LINE.project, LINE.layout, gone(LINE, CLEAT).woodwork)
    hung = next(finding for finding in found if finding.code == "slat-hangs")
    assert hung.severity is Severity.ERROR
    assert re.search(r"M-S\d+ \(seat slat, main run, .*\) bears over .*\" along, .*\" deep, .*\" up$", hung.message)


@pytest.mark.parametrize("height", ["0", "3/4"])
@pytest.mark.parametrize("fall", [Fraction(1, 48), Fraction(1, 8)])
@pytest.mark.parametrize("edge", ["AB", "BC", "CD"])
def test_feet_make_up_for_a_slope(edge: str, fall: Fraction, height: str) -> None:
    """A floor that falls toward an edge: feet, or posts themselves, reach down to it; equal ones do not."""
    yard = straight()
    room = replace(yard.project.room, slope=Slope(fall, edge))
    yard = fitting(replace(yard, project=replace(yard.project, room=room)), foot_height=inch(height))
    sloped = unjoined(yard)
    assert codes(sloped) == []
    assert sloped.solids.part_low[:, 2].min() < -0.25
    level = unjoined(fitting(straight(), foot_height=inch(height)))
    assert codes(level) == []
    assert codes(Built(yard.project, yard.layout, level.woodwork)) == ["foot-off-floor"]


def test_a_frame_without_parts_is_told() -> None:
    assert {"post-missing", "rail-missing", "deck-missing", "no-foot"} <= set(codes(with_parts(LINE, ())))

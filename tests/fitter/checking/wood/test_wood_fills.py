"""Whatever part of a shelf or of a wide arm is missing or moved is told, each code of these proofs at least once."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from framed_yards import built, fitting, unjoined
from hand_built import INSIDE, RIGHT
from mutations import codes, find, moved, shifted, with_parts, with_wood, without
from random_fills import filled_yard
from yards import Yard, ell, inch

from fitter.checking import check_woodwork
from fitter.checking.wood import JOINTS, SOLIDS, shelves, wide_arms
from fitter.checking.wood.built import Built
from fitter.domain.fills import least_width
from fitter.domain.frame import EndPanel, FillLimits
from fitter.domain.wishes import FillKind, FillWish
from fitter.domain.woodwork import PartRole
from fitter.frame import build_frame
from fitter.workflow.filling import filled

R = PartRole


def _filled(wish: FillWish, **made: object) -> Yard:
    yard = fitting(ell(INSIDE, RIGHT), **made)
    room = replace(yard.project.room, openings=(), routes=(), obstacles=())
    project = replace(yard.project, room=room, wish=replace(yard.project.wish, fill=wish))
    return Yard(project, filled(project, yard.layout))


SHELF, ARM = unjoined(_filled(FillWish.SHELF)), unjoined(_filled(FillWish.ARM))
POSTS = unjoined(_filled(FillWish.ARM, end_panel=EndPanel.POSTS))
SHELF_JOINED, ARM_JOINED = built(_filled(FillWish.SHELF)), built(_filled(FillWish.ARM))


def gone(frame: Built, role: PartRole, place: str = "") -> Built:
    """The frame without the first part of a role."""
    return without(frame, find(frame, role, place))


def off(frame: Built, role: PartRole, axis: int, by: str, place: str = "") -> Built:
    """The frame, the first part of a role shifted."""
    return shifted(frame, find(frame, role, place), axis, by)


def more(frame: Built, role: PartRole, axis: int, by: str) -> Built:
    """The frame with one part more."""
    return with_parts(frame, (*frame.parts, moved(frame.parts[find(frame, role)], axis, by)))


def bare(frame: Built, role: PartRole) -> Built:
    """The frame without fasteners in parts of a role."""
    joints = tuple(
        replace(joint, fasteners=()) if any(frame.parts[n].role is role for n in joint.parts) else joint
        for joint in frame.woodwork.joints
    )
    return with_wood(frame, replace(frame.woodwork, joints=joints))


def unfilled(frame: Built) -> Built:
    """The same wood for the layout without fills."""
    layout = replace(frame.layout, fills=())
    return Built(frame.project, layout, frame.woodwork)


TAMPERINGS: dict[str, list[Callable[[], Built]]] = {
    "shelf-unasked": [lambda: unfilled(SHELF), lambda: more(SHELF, R.SHELF_SLAT, 1, "60")],
    "shelf-legs": [lambda: gone(SHELF, R.SHELF_LEG), lambda: more(SHELF, R.SHELF_LEG, 0, "4")],
    "shelf-leg": [
        lambda: off(SHELF, R.SHELF_LEG, 2, "1/4"),
        lambda: off(SHELF, R.SHELF_LEG, 0, "-3", "right end, shelf, near front"),
    ],
    "shelf-apart": [lambda: off(SHELF, R.SHELF_LEG, 1, "1/8", "right end, shelf, near")],
    "shelf-rails": [lambda: gone(SHELF, R.SHELF_RAIL)],
    "shelf-rail": [lambda: off(SHELF, R.SHELF_RAIL, 2, "-1/4")],
    "shelf-slat": [lambda: off(SHELF, R.SHELF_SLAT, 2, "1/4"), lambda: off(SHELF, R.SHELF_SLAT, 0, "1", "left end")],
    "shelf-gaps": [lambda: gone(SHELF, R.SHELF_SLAT), lambda: off(SHELF, R.SHELF_SLAT, 1, "1/8", "left end")],
    "shelf-slat-hangs": [lambda: gone(SHELF, R.SHELF_RAIL), lambda: off(SHELF, R.SHELF_SLAT, 2, "1/4")],
    "arm-unasked": [lambda: unfilled(ARM), lambda: more(ARM, R.ARM_BOARD, 1, "60"), lambda: unfilled(POSTS)],
    "arm-panel": [
        *(lambda place=place: gone(ARM, R.ARM_PIECE, f"far {place}") for place in ("top", "bottom", "front", "back")),
        lambda: off(ARM, R.ARM_PIECE, 2, "1/8", "far top"),
        lambda: gone(POSTS, R.ARM_POST, "far front"),
        lambda: gone(POSTS, R.ARM_RAIL, "far arm rail"),
    ],
    "arm-bearers": [lambda: gone(ARM, R.ARM_BEARER), lambda: off(ARM, R.ARM_BEARER, 2, "-1/4")],
    "arm-ties": [lambda: gone(ARM, R.ARM_TIE), lambda: off(ARM, R.ARM_TIE, 2, "14")],
    "arm-board": [lambda: off(ARM, R.ARM_BOARD, 2, "1/4")],
    "arm-gaps": [lambda: gone(ARM, R.ARM_BOARD), lambda: off(ARM, R.ARM_BOARD, 1, "1/8", "left end")],
    "arm-board-hangs": [lambda: gone(ARM, R.ARM_BEARER), lambda: off(ARM, R.ARM_BOARD, 2, "1/4")],
    "end-hangs": [
        lambda: gone(SHELF, R.SHELF_LEG),
        lambda: off(ARM, R.ARM_TIE, 2, "-8"),
    ],
    "no-foot": [lambda: gone(SHELF, R.FOOT, "shelf leg"), lambda: gone(ARM, R.FOOT, "end panel")],
}


@pytest.mark.parametrize("code", TAMPERINGS)
def test_tampering_with_what_fills_an_end_is_told(code: str) -> None:
    for tamper in TAMPERINGS[code]:
        assert code in codes(tamper(), SOLIDS)


@pytest.mark.parametrize(
    ("frame", "role"),
    [(SHELF_JOINED, role) for role in (R.SHELF_LEG, R.SHELF_RAIL, R.SHELF_SLAT)]
    + [(ARM_JOINED, role) for role in (R.ARM_BEARER, R.ARM_TIE, R.ARM_BOARD)],
)
def test_what_is_not_fastened_is_told(frame: Built, role: PartRole) -> None:
    assert "not-fastened" in codes(bare(frame, role), JOINTS)


def test_every_code_of_these_proofs_has_its_tampering() -> None:
    told = set[str]()
    for module in (shelves, wide_arms):
        source = Path(module.__file__).read_text("utf-8")
        told.update(re.findall(r"fault\((?:built, )?\"([a-z-]+)\"", source))
    assert told <= set(TAMPERINGS)


@pytest.mark.parametrize("frame", [SHELF, ARM, POSTS])
def test_nothing_is_told_of_right_ones(frame: Built) -> None:
    assert codes(frame, SOLIDS) == []


@pytest.mark.parametrize("frame", [SHELF_JOINED, ARM_JOINED])
def test_nothing_is_told_of_right_joints(frame: Built) -> None:
    assert check_woodwork(frame.project, frame.layout, frame.woodwork) == ()


@pytest.mark.parametrize("wish", [FillWish.SHELF, FillWish.ARM])
@pytest.mark.parametrize("narrow", [True, False])
def test_frames_of_the_narrowest_and_of_wide_ones_are_complete(wish: FillWish, narrow: bool) -> None:
    yard, kind = _filled(wish), FillKind.SHELF if wish is FillWish.SHELF else FillKind.ARM
    least = least_width(yard.project, kind)
    most = least if narrow else inch(16)
    project = replace(yard.project, frame=replace(yard.project.frame, fills=FillLimits(least, most, most)))
    layout = filled(project, replace(yard.layout, fills=(), footprint=yard.layout.footprint[: -len(yard.layout.fills)]))
    assert [(fill.kind, fill.size[0]) for fill in layout.fills] == [(kind, most)] * 2
    assert check_woodwork(project, layout, build_frame(project, layout)) == ()


def _solid(seed: int) -> None:
    yard = filled_yard(seed)
    assert codes(unjoined(yard), SOLIDS) == []


@pytest.mark.parametrize("seed", range(8))
def test_random_frames_with_fills_are_complete(seed: int) -> None:
    _solid(seed)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(8, 150))
def test_many_random_frames_with_fills_are_complete(seed: int) -> None:
    _solid(seed)

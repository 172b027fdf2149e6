"""Frames of every corner treatment: proven complete, held as they should be, and told of where they are weak."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import dist

import pytest
from framed_yards import built, chain_of, fitting, unjoined
from hand_built import ANGLE, INSIDE, LEFT, LOW, OUTSIDE, RIGHT, SPREAD, TABLE, lay_out
from yards import Yard, ell, inch, u

from fitter.checking import check_woodwork
from fitter.checking.wood import SOLIDS, failing
from fitter.checking.wood.built import Built
from fitter.domain.findings import Severity
from fitter.domain.frame import Section
from fitter.domain.wishes import CornerKind
from fitter.domain.woodwork import PartRole
from fitter.frame.corner_hold import corner_stiffness, holders
from fitter.frame.racking import PUSH, racking
from rooms.lengths import ZERO, Length, Unit

MM = 320
"""Units in a millimetre."""


@lru_cache(maxsize=64)
def frame(corner: CornerKind, shape: str, unit: Unit = Unit.IN, over: str = "0") -> Built:
    """The frame of a chain by hand, with joints."""
    return built(yard(corner, shape, unit, over))


def yard(corner: CornerKind, shape: str, unit: Unit = Unit.IN, over: str = "0") -> Yard:
    """A chain by hand, backs as thick as their rails and slats, sizes in the marks of the unit."""
    yard = fitting({"right L": ell(corner, RIGHT), "left L": ell(corner, LEFT), "U": u(corner)}[shape])
    frame = replace(
        yard.project.frame,
        back_thickness=inch("9/4") if unit.imperial else Length.millimetres(59),
        overhang=inch(over),
        angle=Section("1x4", inch("3/4"), inch("7/2")),
    )
    project = replace(yard.project, unit=unit, frame=frame)
    return Yard(project, lay_out(project, yard.layout.pose, chain_of(yard.project, yard.layout)))


def codes(built: Built) -> dict[str, Severity]:
    return {finding.code: finding.severity for finding in built.woodwork.findings}


@pytest.mark.parametrize("shape", ["left L", "U"])
@pytest.mark.parametrize("corner", CornerKind)
def test_frames_of_every_treatment_are_complete(corner: CornerKind, shape: str) -> None:
    """An L and a U of each, in inches and in millimetres; with their joints in one of both."""
    fastened, other = (Unit.MM, Unit.IN) if shape == "left L" else (Unit.IN, Unit.MM)
    found = frame(corner, shape, fastened)
    assert check_woodwork(found.project, found.layout, found.woodwork) == ()
    assert failing(unjoined(yard(corner, shape, other)), SOLIDS) == ()


@pytest.mark.parametrize("corner", CornerKind)
def test_frames_under_overhanging_cushions_are_complete(corner: CornerKind) -> None:
    """Wood ends 1 1/2 in behind the fronts, which stay flush with the ends."""
    found = unjoined(yard(corner, "right L", over="3/2"))
    assert failing(found, SOLIDS) == ()
    fronts = [found.solids.part_high[n][1] for n in found.of(PartRole.FRONT_RAIL) if found.parts[n].run == "main"]
    ends = [found.solids.part_high[n][1] for n in found.of(PartRole.ARM_PIECE) if found.parts[n].run == "main"]
    assert max(ends) - max(fronts) == pytest.approx(1.5)


@pytest.mark.parametrize("corner", CornerKind)
def test_corner_posts_end_where_their_treatment_says(corner: CornerKind) -> None:
    found = unjoined(yard(corner, "U"))
    tops = {found.solids.part_high[n][2] for n in found.of(PartRole.CORNER_POST)}
    assert tops == {float((found.levels.back_top if corner.tall else found.levels.deck).inch)}
    assert len(found.of(PartRole.CORNER_BOARD)) == (4 if corner is ANGLE else 0)


def test_boards_stand_as_the_document_says() -> None:
    """[X, X+w] x [Y, Y+a] and [X, X+a] x [Y+a, Y+a+w] from the deck up, X = 20, Y = 5; mirrored at the left corner."""
    found = unjoined(yard(ANGLE, "U"))
    corner = next(module.box for module in found.layout.corners if module.corner is LEFT)
    far, deck, top = float(corner.x1.inch), float(found.levels.deck.inch), float(found.levels.back_top.inch)
    boards = {
        tuple(map(float, (*found.solids.part_low[n], *found.solids.part_high[n])))
        for n in found.of(PartRole.CORNER_BOARD)
    }
    assert boards == {
        (20.0, 5.0, deck, 23.5, 5.75, top),
        (20.0, 5.75, deck, 20.75, 9.25, top),
        (far - 3.5, 5.0, deck, far, 5.75, top),
        (far - 0.75, 5.75, deck, far, 9.25, top),
    }


def test_backs_are_screwed_to_each_other_every_few_inches() -> None:
    """To and fro across the edge of the arm's upright, so that the row is no hinge."""
    found = frame(LOW, "right L")
    screws = list(holders(found.woodwork, RIGHT))
    heights = sorted(float(screw.head[2]) / inch(1).units for screw in screws)
    assert max(b - a for a, b in pairwise(heights)) <= 3
    assert len({screw.head[0] for screw in screws}) == 2


@pytest.mark.parametrize("corner", CornerKind)
def test_stiffness_from_the_screws_themselves(corner: CornerKind) -> None:
    """K = Σ k r² with k = 537.6^1.5 d / 23 of Douglas-fir (0.48 · 1.12 · 1000 kg/m3), heads for where screws go in."""
    found = frame(corner, "right L")
    told = corner_stiffness(found.woodwork, found.layout, "Douglas-fir")
    assert told is not None
    screws = list(holders(found.woodwork, RIGHT))
    # Their heads lie on a face of the part that is held, so beside where they enter the other one.
    spots, moduli = [], []
    for screw in screws:
        held = found.parts[screw.through]
        way = [float(b - a) for a, b in zip(screw.head, screw.tip, strict=True)]
        share = (held.thickness if held.role is not PartRole.CORNER_POST else ZERO).units / dist(screw.head, screw.tip)
        spots.append([(float(a) + share * w) / MM for a, w in zip(screw.head[:2], way[:2], strict=True)])
        moduli.append(537.6**1.5 * float(screw.diameter) / MM / 23)
    middle = [sum(axis) / len(spots) for axis in zip(*spots, strict=True)]
    stiff = sum(k * dist(spot, middle) ** 2 for k, spot in zip(moduli, spots, strict=True))
    assert told.stiffness == pytest.approx(stiff, rel=1e-6)
    assert (told.corner, told.treatment, told.fasteners) == (RIGHT, corner, len(screws))


def test_treatments_compare_as_they_should() -> None:
    """Backs that only hold each other turn most easily; two boards hold more than a post's few screws."""
    stiff = {}
    for corner in (INSIDE, OUTSIDE, LOW, ANGLE):
        found = corner_stiffness(frame(corner, "right L").woodwork, frame(corner, "right L").layout, "Douglas-fir")
        assert found is not None
        stiff[corner] = found
    assert min(stiff, key=lambda corner: stiff[corner].stiffness) is LOW
    assert stiff[ANGLE].stiffness > stiff[INSIDE].stiffness
    assert stiff[LOW].holds == "each other"
    assert "corner post" in stiff[INSIDE].holds
    assert "corner board" in stiff[ANGLE].holds


def test_the_weaker_corner_of_a_u_is_told_and_a_straight_run_has_none() -> None:
    found = frame(INSIDE, "U")
    both = corner_stiffness(found.woodwork, found.layout, "Douglas-fir")
    assert both is not None
    right = replace(found.layout, modules=tuple(m for m in found.layout.modules if m.corner is not LEFT))
    one = corner_stiffness(found.woodwork, right, "Douglas-fir")
    assert one is not None
    assert both.stiffness <= one.stiffness
    assert corner_stiffness(found.woodwork, replace(found.layout, corner=None), "Douglas-fir") is None


def test_a_push_at_the_top_by_hand() -> None:
    """F h z_max / Σ z² for the heights of the screws above the deck; Z = 107.0 lbf (mode IV) times 1.6 and 0.7."""
    found = frame(LOW, "right L")
    told = racking(found.woodwork, found.layout, "Douglas-fir", imperial=True)[0]
    deck, top = (float(level.inch) for level in (found.levels.deck, found.levels.back_top))
    heights = [float(screw.head[2]) / inch(1).units - deck for screw in holders(found.woodwork, RIGHT)]
    assert told.load == pytest.approx(PUSH.value * (top - deck) * max(heights) / sum(z * z for z in heights))
    assert told.bent == pytest.approx(1.6 * 0.7 * 107.0, rel=1e-3)
    assert told.holds
    assert racking(frame(INSIDE, "right L").woodwork, frame(INSIDE, "right L").layout, "redwood", imperial=True) == ()


def test_a_back_that_racks_is_told() -> None:
    """In western redcedar, and under a low back that has room for few screws, they are overloaded."""
    sound = frame(LOW, "right L")
    assert "corner-racks" not in codes(sound)
    low = sound.levels.back_top - inch(6)
    soft = replace(sound.project.frame.carpentry, species="western redcedar", back_height=low)
    project = replace(sound.project, frame=replace(sound.project.frame, carpentry=soft))
    assert codes(built(Yard(project, sound.layout)))["corner-racks"] is Severity.CAUTION


def test_what_stays_open_behind_cushions_is_told() -> None:
    """More than 3 1/2 in, where a head can be caught (CPSC Public Playground Safety Handbook, B.2.5), is a caution."""
    assert frame(SPREAD, "right L").layout.gap > Length.inches("7/2")
    assert codes(frame(SPREAD, "right L"))["open-behind-cushions"] is Severity.CAUTION
    assert codes(frame(LOW, "right L", over="3/2"))["open-behind-cushions"] is Severity.NOTE
    assert "open-behind-cushions" not in codes(frame(TABLE, "right L"))

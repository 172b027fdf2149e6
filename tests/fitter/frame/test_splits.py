"""Slats beside a line at which the frame comes apart."""

from __future__ import annotations

from dataclasses import replace

from hand_built import Chain, Row, lay_out
from test_practice import yard
from yards import ALONG, inch

from fitter.checking import check_woodwork
from fitter.domain.cushions import Option
from fitter.domain.frame import Carry
from fitter.domain.woodwork import PartRole
from fitter.frame import build_frame


def test_no_head_is_caught_across_a_split_line() -> None:
    # CPSC Public Playground Safety Handbook, B.2.5: openings over 3 1/2 in and under 9 in catch a head.
    asked = yard(24, "24", slat_gap=inch("7/2"))
    asked = replace(asked, frame=replace(asked.frame, carry=Carry(inch(36), inch(80))))
    laid = lay_out(asked, ALONG, Chain(inch(0), inch(0), Row(Option(asked.cushions[0]), 6, splits=(3,))))
    frame = build_frame(asked, laid)
    assert check_woodwork(asked, laid, frame) == ()
    line = inch(72).units
    slats = [part for part in frame.parts if part.role is PartRole.SEAT_SLAT]
    before = max(max(corner[0] for corner in part.corners) for part in slats if part.corners[0][0] < line)
    after = min(min(corner[0] for corner in part.corners) for part in slats if part.corners[0][0] >= line)
    assert 0 < after - before <= inch("7/2").units
    assert {part.piece for part in frame.parts} == {1, 2}

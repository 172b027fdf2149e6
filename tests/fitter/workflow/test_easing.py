"""Ease is stretched as far as the room and the limits allow, and not a mark farther."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitter.checking import check_layout, check_woodwork
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.frame import build_frame
from fitter.project import read_project
from fitter.workflow.fitting import fit

YARD = """\
units: {unit}
room: {{tolerance: {tolerance}, corners: {{A: [0, 0], B: [{wide}, 0], C: [{wide}, {deep}], D: [0, {deep}]}}}}
cushions:
  - {{name: seat, size: {size}, ease: {ease}{most}}}
wish: {{shape: straight, against: [AB], ends: open, fill: ease}}
"""


def inches(wide: str, ease_most: str = "") -> Project:
    """A yard for two seats of 24 in; open ends take 1 1/2 in each, the tolerance 1/4 in at each wall."""
    most = f", ease_most: {ease_most}" if ease_most else ""
    text = YARD.format(unit="in", tolerance='1/4"', wide=wide, deep=96, size="[24, 24, 5]", ease='1/4"', most=most)
    return read_project("yard.yaml", text)


def millimetres(wide: int) -> Project:
    """A yard for two seats of 600 mm; open ends take 38 mm each, the tolerance 5 mm at each wall."""
    text = YARD.format(unit="mm", tolerance=5, wide=wide, deep=2400, size="[600, 600, 120]", ease=5, most="")
    return read_project("yard.yaml", text)


def more(project: Project) -> Fraction:
    """How much more ease the seats get, in inches; the layout is proven and its checks hold."""
    found = fit(project)
    assert found.verdict is Verdict.PROVEN
    assert found.layout is not None
    assert check_layout(project, found.layout) == ()
    assert found.layout.seats == 2
    return sum((stretch.more.inch for stretch in found.layout.eased), Fraction(0))


@pytest.mark.parametrize(
    ("wide", "most", "expected"),
    [
        # 2 (24 + ease) + 3 + 1/2 <= wide, so ease <= (wide - 51 1/2) / 2.
        ("52", "", "0"),
        ("52 1/8", "", "1/16"),
        ("52 3/4", "", "3/8"),
        ("54", "", "1/2"),
        ("54", "1", "3/4"),
        ("54", '5/16"', "1/16"),
        ("54", '1/4"', "0"),
    ],
)
def test_pitch_grows_as_far_as_the_walls_allow(wide: str, most: str, expected: str) -> None:
    assert more(inches(wide, most)) == Fraction(expected)


@pytest.mark.parametrize(("wide", "expected"), [(1296, 0), (1299, 1), (1311, 7), (1400, 12)])
def test_the_same_in_millimetres(wide: int, expected: int) -> None:
    """2 (600 + ease) + 76 + 10 <= wide, so ease <= (wide - 1286) / 2; it is 5 already, and 12 more by default."""
    assert more(millimetres(wide)) == Fraction(expected * 10, 254)


def test_frame_and_pitch_follow_the_ease() -> None:
    project = inches("52 3/4")
    found: FitResult = fit(project)
    assert found.layout is not None
    assert {run.pitch.inch for run in found.layout.runs} == {Fraction(24) + Fraction(5, 8)}
    assert check_woodwork(project, found.layout, build_frame(project, found.layout)) == ()


def test_more_ease_costs_no_seat() -> None:
    """Three seats fit to a sixteenth: ease that took one away is not given, whatever the limit says."""
    project = inches("76 1/4", "2")  # 3 (24 1/4) + 3 + 1/2 = 76 1/4
    found = fit(project)
    assert found.layout is not None
    assert (found.layout.seats, found.layout.eased) == (3, ())

"""The survey against published and computed numbers.

Compass-rule table: the worked closed traverse "COMPASS RULE" of scribd.com document 493615208 (lines AB to
DA, distances, bearings, latitudes and departures as printed there). The document rounds each value to 0.001.
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from rooms.geometry import Point, signed_area
from rooms.lengths import Length
from rooms.survey import Readings, adjust, close_traverse

PRINTED = 0.002
"""The table is worked with values rounded to 0.001, two of which are summed."""
LINES = (
    # line, distance, azimuth from north, latitude, departure, adjusted latitude
    ("AB", 80.40, 76.0, 19.451, 78.012, 19.3653),
    ("BC", 46.30, 180.0 - 36.0, -37.457, 27.214, -37.5063),
    ("CD", 72.80, 180.0 + 61.0, -35.294, -63.672, -35.3716),
    ("DA", 68.00, 360.0 - 38.0, 53.585, -41.865, 53.5126),
)
ADJUSTED_DEPARTURES = {"AB": 78.1055, "BC": 27.2678, "CD": -63.5874}


def _table() -> list[tuple[str, float, float, float, float]]:
    closure = close_traverse([line[1] for line in LINES], [line[2] for line in LINES])
    rows = zip(LINES, closure.latitudes, closure.departures, closure.balanced, strict=True)
    return [(line[0], lat, dep, *balanced) for line, lat, dep, balanced in rows]


@pytest.mark.parametrize("row", range(4))
def test_latitudes_and_departures_of_the_compass_rule_table(row: int) -> None:
    """Latitudes and departures of the compass rule table."""
    name, lat, dep, balanced_lat, balanced_dep = _table()[row]
    assert lat == pytest.approx(LINES[row][3], abs=PRINTED)
    assert dep == pytest.approx(LINES[row][4], abs=PRINTED)
    assert balanced_lat == pytest.approx(LINES[row][5], abs=PRINTED)
    if name in ADJUSTED_DEPARTURES:
        assert balanced_dep == pytest.approx(ADJUSTED_DEPARTURES[name], abs=PRINTED)


def test_misclosure_of_the_compass_rule_table() -> None:
    """Misclosure of the compass rule table."""
    closure = close_traverse([line[1] for line in LINES], [line[2] for line in LINES])
    assert closure.perimeter == pytest.approx(267.5)
    assert sum(closure.latitudes) == pytest.approx(0.285, abs=PRINTED)
    assert sum(closure.departures) == pytest.approx(-0.311, abs=PRINTED)
    # Computed from the published lines, not printed in the document.
    assert closure.misclosure == pytest.approx(0.4210, abs=0.0005)
    assert closure.ratio == 635


def test_adjusted_corners_and_area_of_the_compass_rule_table() -> None:
    """Sums of the published adjusted lines; corners and area are computed from them, not printed there."""
    closure = close_traverse([line[1] for line in LINES], [line[2] for line in LINES])
    north, east = 0.0, 0.0
    corners = [(0.0, 0.0)]
    for lat, dep in closure.balanced:
        north, east = north + lat, east + dep
        corners.append((north, east))
    for found, expected in zip(
        corners[1:], ((19.365, 78.105), (-18.141, 105.374), (-53.513, 41.786), (0, 0)), strict=True
    ):
        assert found == pytest.approx(expected, abs=PRINTED)
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(corners))
    assert abs(twice) / 2 == pytest.approx(4169.14, abs=0.2)


def test_the_compass_rule_table_as_a_survey() -> None:
    """The same lines as sides and inside angles, from A: its corners, turned so that the first side lies along x.

    The bearings make inside angles of 66, 112, 83 and 99 degrees, which add up to 360; the walk is clockwise
    on the ground (north to the left of east), and so it is here.
    """
    names = "ABCD"
    sides = tuple(
        (n[0], n[1], 12 * Length.inches(str(line[1]))) for n, line in zip(("AB", "BC", "CD", "DA"), LINES, strict=True)
    )
    azimuths = [line[2] for line in LINES]
    inside = [(180.0 - (azimuths[k] - azimuths[k - 1])) % 360 for k in range(4)]
    assert sum(inside) == pytest.approx(360.0)
    turns = tuple(zip(names, inside, strict=True))
    # Sides off by tenths of a foot are more than a tape's tolerance, which does not matter to the compass rule.
    survey = adjust(Readings(tuple(names), sides, turns, (), Length.inches(6), clockwise=True))
    assert survey.traverse is not None
    assert survey.traverse.angular == pytest.approx(0.0, abs=1e-6)
    assert float(survey.traverse.misclosure.inch) / 12 == pytest.approx(0.4210, abs=0.0005)
    assert survey.traverse.ratio == 635
    published = [complex(0, 0), complex(19.3653, 78.1055), complex(-18.1410, 105.3733), complex(-53.5126, 41.7859)]
    along = abs(published[1]) / published[1]
    for (_, point), corner in zip(survey.traverse.points, published, strict=True):
        # North is x here, so that east lies to its right, as a clockwise walk has it.
        turned = (corner * along).conjugate()
        assert math.dist((point.x.inch / 12, point.y.inch / 12), (turned.real, turned.imag)) < PRINTED


def test_balanced_lines_close() -> None:
    """Balanced lines close."""
    closure = close_traverse([line[1] for line in LINES], [line[2] for line in LINES])
    assert sum(lat for lat, _ in closure.balanced) == pytest.approx(0.0, abs=1e-9)
    assert sum(dep for _, dep in closure.balanced) == pytest.approx(0.0, abs=1e-9)


def _feet(corners: str, sides: dict[str, str], ties: dict[str, str]) -> Readings:
    def taped(lines: dict[str, str]) -> tuple[tuple[str, str, Length], ...]:
        return tuple((n[0], n[1], 12 * Length.inches(size)) for n, size in lines.items())

    return Readings(tuple(corners), taped(sides), (), taped(ties), Length.inches("1/4"))


def test_trilateration_of_four_corners_computed_not_published() -> None:
    """A(0,0) B(20,0) C(18,12) D(-1,11), lengths to 0.0001: computed by hand, not published."""
    sides = {"AB": "20", "BC": "12.1655", "CD": "19.0263", "DA": "11.0454"}
    survey = adjust(_feet("ABCD", sides, {"AC": "21.6333", "BD": "23.7065"}))
    for (_, point), (x, y) in zip(survey.points, ((0, 0), (20, 0), (18, 12), (-1, 11)), strict=True):
        assert math.dist((point.x.inch / 12, point.y.inch / 12), (x, y)) < 0.0005
    assert survey.redundancy == 1
    assert all(residual.share < 0.01 for residual in survey.residuals)
    area = signed_area(tuple(point for _, point in survey.points)) / Length.inches(12).units ** 2
    assert float(area) == pytest.approx(225.0, abs=0.005)


def test_three_four_five_is_square() -> None:
    """Geometry: a triangle of sides 3, 4, 5 has its right angle between 3 and 4 (Euclid I.48)."""
    survey = adjust(_feet("ABC", {"AB": "3", "BC": "4", "CA": "5"}, {}))
    assert survey.point("C") == Point(Length.inches(36), Length.inches(48))


def test_equal_diagonals_make_a_rectangle() -> None:
    """Geometry: a parallelogram with equal diagonals is a rectangle; 12 by 5 has diagonals of 13."""
    survey = adjust(_feet("ABCD", {"AB": "12", "BC": "5", "CD": "12", "DA": "5"}, {"AC": "13", "BD": "13"}))
    square = ((0, 0), (144, 0), (144, 60), (0, 60))
    assert [point for _, point in survey.points] == [Point(Length.inches(x), Length.inches(y)) for x, y in square]

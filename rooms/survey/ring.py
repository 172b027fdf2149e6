"""Whether corners make an outline that can be walked round."""

from __future__ import annotations

from rooms.geometry import Point, segments_meet, side_of
from rooms.survey.problems import SurveyProblem

Corners = tuple[tuple[str, Point], ...]


def check_ring(corners: Corners) -> tuple[SurveyProblem, ...]:
    """Find what keeps corners from being a simple outline; exact.

    Args:
        corners: name and place, in the order of the walk, either direction.

    Returns:
        All problems of the first kind met: `too-few-corners`, `repeated-point` (two corners in one place; if
        they are neighbours, `no-length`), `spike` (a side that runs back on the one before),
        `outline-crosses` (two sides that meet away from a common corner). Empty for a sound outline.
    """
    if len(corners) < 3:
        return (SurveyProblem("too-few-corners", tuple(name for name, _ in corners)),)
    return _repeated(corners) or _spikes(corners) or _crossings(corners)


def is_simple(ring: tuple[Point, ...]) -> bool:
    """Whether an outline is sound; the names do not matter."""
    return not check_ring(tuple(("", point) for point in ring))


def _repeated(corners: Corners) -> tuple[SurveyProblem, ...]:
    count = len(corners)
    return tuple(
        SurveyProblem("no-length" if j - i in (1, count - 1) else "repeated-point", _names(corners, i, j))
        for i in range(count)
        for j in range(i + 1, count)
        if corners[i][1] == corners[j][1]
    )


def _names(corners: Corners, i: int, j: int) -> tuple[str, ...]:
    if j - i == len(corners) - 1:
        i, j = j, i
    return (corners[i][0] + corners[j][0],) if (j - i) % len(corners) == 1 else (corners[i][0], corners[j][0])


def _spikes(corners: Corners) -> tuple[SurveyProblem, ...]:
    found = []
    for k, (name, here) in enumerate(corners):
        before, after = corners[k - 1][1], corners[(k + 1) % len(corners)][1]
        ahead = (here.x.units - before.x.units) * (after.x.units - here.x.units)
        ahead += (here.y.units - before.y.units) * (after.y.units - here.y.units)
        if side_of(before, here, after) == 0 and ahead < 0:
            found.append(SurveyProblem("spike", (name,)))
    return tuple(found)


def _crossings(corners: Corners) -> tuple[SurveyProblem, ...]:
    count = len(corners)
    sides = [(corners[k], corners[(k + 1) % count]) for k in range(count)]
    boxes = [_box(a[1], b[1]) for a, b in sides]
    return tuple(
        SurveyProblem("outline-crosses", (a[0] + b[0], c[0] + d[0]))
        for k, (a, b) in enumerate(sides)
        for j, (c, d) in enumerate(sides[k + 2 :], k + 2)
        if _overlap(boxes[k], boxes[j]) and (k, j) != (0, count - 1) and segments_meet(a[1], b[1], c[1], d[1])
    )


_Box = tuple[int, int, int, int]


def _box(a: Point, b: Point) -> _Box:
    """Least x and y, greatest x and y of a side; most sides are told apart by these alone."""
    (x0, x1), (y0, y1) = sorted((a.x.units, b.x.units)), sorted((a.y.units, b.y.units))
    return x0, y0, x1, y1


def _overlap(one: _Box, other: _Box) -> bool:
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]

"""A part as seen by somebody who drives screws into it: how deep the wood is, and what lies on its faces.

Working in floats: places are searched for here, and only those that are chosen become exact numbers.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from fitter.domain.woodwork import Part, Slant, Vector

Floats = tuple[float, float, float]
_DUST = 1e-3
"""A thousandth of a unit."""


@dataclass(frozen=True)
class Patch:
    """What touches a face, in the part's own axes.

    Args:
        axis: that stands square on the face, 0 along, 1 across, 2 through; None where a slanted end touches.
        high: whether it is the face at the high end of that axis.
        low: corner of the box around it.
        top: the opposite corner.
    """

    axis: int | None
    high: bool
    low: Floats
    top: Floats


@dataclass
class Body:
    """A part with its axes as floats.

    Args:
        part: the part.
        number: its index.
        touching: what lies on its faces, but for what is laid when the rest stands.
    """

    part: Part
    number: int
    touching: list[Patch] = field(default_factory=list)

    def __post_init__(self) -> None:
        part = self.part
        self.origin = _floats(part.origin)
        self.axes = (_floats(part.along), _floats(part.across), _floats(part.through))
        self.size: Floats = (float(part.length.units), float(part.width.units), float(part.thickness.units))
        self.whole = not part.housings and part.cuts[0].square and part.cuts[1].square

    def local(self, point: Floats) -> Floats:
        """A point of the layout frame in the part's own axes."""
        (x, y, z), (p, q, r) = point, self.origin
        return self.turned((x - p, y - q, z - r))

    def turned(self, way: Floats) -> Floats:
        """A direction of the layout frame in the part's own axes."""
        x, y, z = way
        a, b, c = self.axes
        return (
            a[0] * x + a[1] * y + a[2] * z,
            b[0] * x + b[1] * y + b[2] * z,
            c[0] * x + c[1] * y + c[2] * z,
        )

    def world(self, point: Floats) -> Floats:
        """A point in the part's own axes in the layout frame."""
        u, v, w = point
        a, b, c = self.axes
        o = self.origin
        return (
            o[0] + u * a[0] + v * b[0] + w * c[0],
            o[1] + u * a[1] + v * b[1] + w * c[1],
            o[2] + u * a[2] + v * b[2] + w * c[2],
        )

    def facing(self, axis: int, *, high: bool) -> Floats:
        """Where one of its faces looks, in the layout frame."""
        x, y, z = self.axes[axis]
        return (x, y, z) if high else (-x, -y, -z)

    def axis_of(self, way: Floats) -> tuple[int, bool] | None:
        """The axis of its own that a direction in its own axes runs along, and whether toward its high end."""
        for axis in range(3):
            if abs(way[axis]) > 1 - 1e-9:
                return axis, way[axis] > 0
        return None

    def depth(self, at: Floats, way: Floats) -> float:
        """How much wood lies before a point on or in the part, along a direction; both in its own axes.

        Nil outside of it, and where a housing begins at the point.
        """
        far = float("inf")
        for start, slope in self._inside(at, way):
            if start < -_DUST:
                return 0.0
            if slope < 0:
                far = min(far, max(start, 0.0) / -slope)
        return min((far, *self._hollows(at, way)))

    def _inside(self, at: Floats, way: Floats) -> Iterator[tuple[float, float]]:
        """For each face: how far the point lies inside of it, and how that changes along the way."""
        for axis in range(3):
            yield at[axis], way[axis]
            yield self.size[axis] - at[axis], -way[axis]
        for end, cut in enumerate(self.part.cuts):
            if cut.square:
                continue
            over = 1 if cut.over is Slant.WIDTH else 2
            share = cut.recess.units / self.size[over]
            # The end recedes from the long point at the low or the high side of that axis.
            back = share * at[over] if cut.low else cut.recess.units - share * at[over]
            turn = share * way[over] if cut.low else -share * way[over]
            yield (self.size[0] - at[0] - back, -way[0] - turn) if end else (at[0] - back, way[0] - turn)

    def _hollows(self, at: Floats, way: Floats) -> Iterator[float]:
        """How far off each housing is that lies in the way."""
        for hole in self.part.housings:
            near, far = -float("inf"), float("inf")
            sides = ((hole.a0, hole.a1), (hole.b0, hole.b1), (hole.c0, hole.c1))
            for axis, (low, high) in enumerate(sides):
                if abs(way[axis]) < 1e-12:
                    if not low.units + _DUST < at[axis] < high.units - _DUST:
                        near, far = 1.0, 0.0
                    continue
                two = sorted(((low.units - at[axis]) / way[axis], (high.units - at[axis]) / way[axis]))
                near, far = max(near, two[0]), min(far, two[1])
            if near < far - _DUST and far > _DUST:
                yield max(near, 0.0)

    def note(self, polygons: Iterable[Iterable[Vector]], way: Floats, *, later: bool) -> Patch:
        """The largest of the polygons in which it touches another part, seen along `way` into that part.

        Args:
            polygons: in the layout frame.
            way: unit normal from this part into the other.
            later: whether the other is laid when the rest stands, so that heads may lie under it; the polygons of all
                others are kept in mind.
        """
        found = self.axis_of(self.turned(way))
        axis, high = found if found else (None, False)
        patches = []
        for polygon in polygons:
            a, b, c = zip(*(self.local(_floats(point)) for point in polygon), strict=True)
            patches.append(Patch(axis, high, (min(a), min(b), min(c)), (max(a), max(b), max(c))))
        if not later:
            self.touching += patches
        return max(patches, key=_spread)

    def hidden(self, axis: int, at: Floats, around: float, *, high: bool) -> bool:
        """Whether something lies on a face within a distance of a point."""
        u, v = (axis + 1) % 3, (axis + 2) % 3
        for patch in self.touching:
            if patch.axis == axis and patch.high == high:
                beside = max(patch.low[u] - at[u], at[u] - patch.top[u])
                if max(beside, patch.low[v] - at[v], at[v] - patch.top[v]) < around:
                    return True
        return False


def _floats(vector: Vector) -> Floats:
    x, y, z = vector
    return float(x), float(y), float(z)


def _spread(patch: Patch) -> float:
    """A measure of its size: the two larger sides of the box around it."""
    sides = sorted(top - low for low, top in zip(patch.low, patch.top, strict=True))
    return sides[1] * sides[2]
